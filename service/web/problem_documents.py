"""Problem documents (RFC 9457) as they are sent and as the OpenAPI document shows them."""

from __future__ import annotations

import json
from typing import Any

import orjson
from starlette.responses import Response

from service.access import errors as access
from service.judgement.errors import InconsistentInquiryError, InvalidInquiryError
from service.storage.errors import DatabaseUnavailableError
from service.web import errors as web
from service.web.errors import Fault
from service.web.problems import EVERYWHERE, INTERNAL, WITH_BODY, ProblemKind, kind_of

MEDIA_TYPE = "application/problem+json"
DATABASE_PATIENCE_S = 5
"""When to ask again what a database in trouble could not do."""
SCHEMA = {"$ref": "#/components/schemas/Problem"}


def document(error: Exception, request_id: str) -> dict[str, Any]:
    """Describe an error as the members of RFC 9457 and our ``errors``."""
    kind = kind_of(type(error))
    problem: dict[str, Any] = {
        "type": kind.type,
        "title": kind.title,
        "status": kind.status,
        "detail": kind.remedy if kind is INTERNAL else str(error),
        "instance": f"urn:uuid:{request_id}",
    }
    if isinstance(error, access.TooManyRequestsError):
        problem["violated-policies"] = [error.policy]
    if faults := faults_of(error):
        problem["errors"] = [_fault_members(fault) for fault in faults]
    return problem


def faults_of(error: Exception) -> tuple[Fault, ...]:
    """Return the parts of the request that an error blames."""
    if isinstance(error, web.WebError):
        return error.faults
    if isinstance(error, InvalidInquiryError):
        code = "contradicted" if isinstance(error, InconsistentInquiryError) else "unknown"
        return (Fault("request", error.pointer, code, error.detail, tuple(error.suggestions)),)
    return ()


def response(error: Exception, request_id: str) -> Response:
    """Return the problem document of an error, ready to send."""
    body = document(error, request_id)
    return Response(_encode(body), body["status"], _headers(error), MEDIA_TYPE)


def _headers(error: Exception) -> dict[str, str]:
    headers = {"Cache-Control": "no-store"}
    if isinstance(error, web.WebError):
        headers.update(error.headers)
    elif isinstance(error, access.TooManyRequestsError | access.IssuerUnreachableError):
        headers["Retry-After"] = str(error.retry_after_s)
    elif isinstance(error, DatabaseUnavailableError):
        headers["Retry-After"] = str(DATABASE_PATIENCE_S)
    elif isinstance(error, access.MissingCredentialsError):
        headers["WWW-Authenticate"] = 'Bearer realm="faying"'
    elif isinstance(error, access.InvalidCredentialsError):
        headers["WWW-Authenticate"] = 'Bearer realm="faying", error="invalid_token"'
    elif isinstance(error, access.InsufficientScopeError):
        headers["WWW-Authenticate"] = (
            f'Bearer realm="faying", error="insufficient_scope", scope="{error.scope}"'
        )
    return headers


def _fault_members(fault: Fault) -> dict[str, Any]:
    members: dict[str, Any] = {
        "location": fault.location,
        "pointer": fault.pointer,
        "code": fault.code,
        "detail": fault.detail,
    }
    if fault.suggestions:
        members["suggestions"] = list(fault.suggestions)
    return members


def _encode(body: dict[str, Any]) -> bytes:
    try:
        return orjson.dumps(body)
    except TypeError:
        # A request may hold half a surrogate pair, which JSON can write and UTF-8 cannot.
        return json.dumps(body, ensure_ascii=False).encode("utf-8", "replace")


def openapi_responses(*errors: type[Exception], with_body: bool = False) -> dict[int | str, dict[str, Any]]:
    """Describe the problems of a route for the OpenAPI document, by status."""
    wanted = (*EVERYWHERE, *(WITH_BODY if with_body else ()), *errors)
    kinds = sorted({kind_of(error) for error in wanted}, key=lambda kind: (kind.status, kind.slug))
    responses: dict[int | str, dict[str, Any]] = {}
    for kind in kinds:
        entry = responses.setdefault(
            kind.status, {"description": "", "content": {MEDIA_TYPE: {"schema": SCHEMA, "examples": {}}}}
        )
        entry["description"] = " Or: ".join(filter(None, [entry["description"], f"{kind.title}."]))
        entry["content"][MEDIA_TYPE]["examples"][kind.slug] = {"value": _example(kind)}
    return responses


def _example(kind: ProblemKind) -> dict[str, Any]:
    return {
        "type": kind.type,
        "title": kind.title,
        "status": kind.status,
        "detail": kind.remedy,
        "instance": "urn:uuid:6f1c0a5e-4d0f-4b6b-9d0a-0c7d6b1f2a33",
    }
