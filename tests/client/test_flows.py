from __future__ import annotations

import datetime as dt

import httpx
import pytest

from service.client import (
    AccessError,
    ConflictError,
    InvalidRequestError,
    NotFoundError,
    ProblemError,
    ServiceError,
    TooManyRequestsError,
    UnexpectedReplyError,
)
from service.client.document.calls import list_changes, list_releases
from service.client.document.results import ChangeLine, ChangePage, Health, ReleasePage
from service.client.errors import problem_class
from service.client.flows import ask_nothing, check, read
from service.client.requests import Request

PROBLEM = {
    "type": "/problems/invalid-request",
    "title": "The request holds something that cannot be used",
    "status": 422,
    "detail": "Something is wrong.",
    "instance": "urn:uuid:6f1c0a5e-4d0f-4b6b-9d0a-0c7d6b1f2a33",
    "errors": [
        {
            "location": "body",
            "pointer": "/geometry",
            "code": "enum",
            "detail": "Not a geometry.",
            "suggestions": ["strip"],
        },
        {"location": "body", "pointer": "/x", "code": "extra", "detail": "Unknown."},
    ],
}


def test_a_problem_is_raised_with_where_it_is_and_what_was_meant() -> None:
    with pytest.raises(InvalidRequestError) as caught:
        check(httpx.Response(422, json=PROBLEM))
    error = caught.value
    assert (error.status, error.code, error.pointer) == (422, "invalid-request", "/geometry")
    assert error.suggestions == ("strip",)
    assert [fault.suggestions for fault in error.faults] == [("strip",), ()]
    assert str(error) == (
        "422 The request holds something that cannot be used; Something is wrong.; "
        "/geometry: Not a geometry. (did you mean strip?); /x: Unknown."
    )


@pytest.mark.parametrize(
    ("status", "expected"),
    [
        (400, InvalidRequestError),
        (401, AccessError),
        (403, AccessError),
        (404, NotFoundError),
        (409, ConflictError),
        (410, NotFoundError),
        (412, ConflictError),
        (413, InvalidRequestError),
        (429, TooManyRequestsError),
        (500, ServiceError),
        (503, ServiceError),
    ],
)
def test_each_status_has_its_class(status: int, expected: type[ProblemError]) -> None:
    assert problem_class(status) is expected


def test_what_is_not_from_the_service_is_a_problem_too() -> None:
    with pytest.raises(
        ServiceError, match="502 Bad Gateway; The reply is not from the service itself"
    ) as caught:
        check(httpx.Response(502, content=b"<html>", headers={"Retry-After": "9"}))
    assert (caught.value.retry_after_s, caught.value.pointer, caught.value.suggestions) == (9, None, ())
    with pytest.raises(ProblemError, match="302 Found"):
        check(httpx.Response(302, headers={"Location": "/sign-in"}))


def test_members_that_are_new_are_passed_over_and_missing_ones_are_not() -> None:
    assert read(b'{"status":"alive","mood":"good"}', Health) == Health(status="alive")
    for content in (b"{}", b"<html>", b"\xff"):
        with pytest.raises(UnexpectedReplyError, match="the reply is no Health"):
            read(content, Health)


def test_a_listing_follows_the_address_of_the_next_page() -> None:
    listing = list_changes(kind=["a.b"])
    line = ChangeLine(serial=1, happened_at=dt.datetime.now(dt.UTC), kind="a.b", subject="", detail={})
    page = ChangePage(items=(line,), after=1, next="/v1/changes?after=1")
    following = listing.after(page)
    assert following == Request("GET", "/v1/changes?after=1")
    assert listing.after(ChangePage(items=(), after=1, next="/v1/changes?after=1")) is None
    with pytest.raises(UnexpectedReplyError, match="elsewhere"):
        listing.after(ChangePage(items=(line,), after=1, next="@elsewhere.example/v1/changes"))
    assert list_releases().after(ReleasePage(items=(), next=None)) is None


def test_a_flow_that_gets_no_reply_says_so() -> None:
    flow = ask_nothing(Request("DELETE", "/"))
    next(flow)
    with pytest.raises(RuntimeError, match="without the reply"):
        flow.send(None)
