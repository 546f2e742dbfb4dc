"""Problem documents as RFC 9457 has them."""

from __future__ import annotations

import pytest

from service.access import errors as access
from service.judgement import InvalidInquiryError
from service.web import errors as web
from service.web.problem_documents import MEDIA_TYPE, document, openapi_responses, response
from service.web.problems import KINDS
from service.web.schemas.problems import Problem

REQUEST = "6f1c0a5e-4d0f-4b6b-9d0a-0c7d6b1f2a33"
ERRORS = [
    web.InvalidRequestError(web.Fault("body", "/a", "b", "c", ("d",)), web.Fault("query", "/e", "f", "g")),
    web.MalformedBodyError("no JSON"),
    web.BodyTooLargeError(5),
    web.TargetTooLongError(5),
    web.UnsupportedMediaTypeError("text/plain", ("application/json",)),
    web.UnsupportedMediaTypeError("", ("application/json",)),
    web.NotAcceptableError(("application/json",)),
    web.NoSuchPathError("/x", ("/y",)),
    web.MethodNotAllowedError("PUT", ("GET",)),
    web.NoSuchRecordError("materials", "x", ("y",)),
    web.BadCursorError("none"),
    web.UnknownAnswerError("ff"),
    web.IdempotencyConflictError(),
    web.IdempotencyInProgressError(),
    web.NotReadyError("starting"),
    access.MissingCredentialsError(),
    access.InvalidCredentialsError(),
    access.InsufficientScopeError("a:b"),
    access.TooManyRequestsError(3),
    InvalidInquiryError("/environment", "no such place", ("harbour",)),
]


@pytest.mark.parametrize("error", ERRORS, ids=lambda error: type(error).__name__)
def test_every_document_fits_the_schema(error: Exception) -> None:
    sent = response(error, REQUEST)
    problem = Problem.model_validate_json(bytes(sent.body))
    assert (problem.status, sent.media_type) == (sent.status_code, MEDIA_TYPE)
    assert problem.type in {kind.type for kind in KINDS}
    assert problem.instance == f"urn:uuid:{REQUEST}"
    assert sent.headers["cache-control"] == "no-store"


def test_headers_say_what_to_do() -> None:
    def headers(error: Exception) -> dict[str, str]:
        return dict(response(error, REQUEST).headers)

    assert headers(web.MethodNotAllowedError("PUT", ("GET", "POST")))["allow"] == "GET, POST"
    assert headers(access.TooManyRequestsError(3))["retry-after"] == "3"
    assert headers(web.NotReadyError("starting"))["retry-after"] == "2"
    assert "www-authenticate" in headers(access.MissingCredentialsError())


def test_the_reasons_of_a_failure_stay_inside() -> None:
    body = document(ZeroDivisionError("the secret reason"), REQUEST)
    assert body["status"] == 500
    assert "secret" not in str(body)


def test_half_a_surrogate_pair_can_be_told() -> None:
    sent = response(web.InvalidRequestError(web.Fault("body", "/\ud800", "unknown", "?")), REQUEST)
    assert b'"/?"' in bytes(sent.body)


def test_responses_for_the_document_name_each_kind() -> None:
    responses = openapi_responses(web.NoSuchRecordError, web.BadCursorError, with_body=True)
    assert set(responses) == {400, 401, 403, 404, 406, 409, 413, 414, 415, 422, 429, 500, 503}
    examples = responses[404]["content"][MEDIA_TYPE]["examples"]
    assert set(examples) == {"bad-cursor", "unknown-record"}
    for entry in responses.values():
        for example in entry["content"][MEDIA_TYPE]["examples"].values():
            Problem.model_validate(example["value"])
