"""From exceptions to problem documents."""

from __future__ import annotations

from collections.abc import Sequence

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.routing import Match

from service.web import problem_documents
from service.web.body_limit import limit_of
from service.web.errors import (
    BodyTooLargeError,
    InvalidRequestError,
    MalformedBodyError,
    MethodNotAllowedError,
    NoSuchPathError,
)
from service.web.faults import Entry, invalid_request
from service.web.nearness import nearest
from service.web.operations import Operation
from service.web.problems import HANDLED
from service.web.state import request_id, services


def install(app: FastAPI) -> None:
    """Let every foreseen error of this application end as a problem document.

    Errors that nobody foresaw pass through to the edge, which logs them.
    """
    app.add_exception_handler(RequestValidationError, _tell_invalid)
    app.add_exception_handler(HTTPException, _tell_http)
    for error in HANDLED:
        app.add_exception_handler(error, _tell)


async def _tell(request: Request, error: Exception) -> Response:
    return problem_documents.response(error, request_id(request))


async def _tell_http(request: Request, error: Exception) -> Response:
    """Starlette and FastAPI raise these themselves."""
    status = error.status_code if isinstance(error, HTTPException) else 500
    if status == 404:  # noqa: PLR2004 - the status is the name of the thing
        error = _unknown_path(request)
    elif status == 405:  # noqa: PLR2004
        error = MethodNotAllowedError(request.method, _methods(request))
    elif status == 413:  # noqa: PLR2004
        error = BodyTooLargeError(limit_of(request.url.path, services(request).settings))
    elif status == 400:  # noqa: PLR2004
        # FastAPI wraps whatever is raised while it reads a body.
        reason = error.__cause__
        if not isinstance(reason, InvalidRequestError):
            reason = MalformedBodyError("The body cannot be read.")
        return await _tell(request, reason)
    return await _tell(request, error)


async def _tell_invalid(request: Request, error: Exception) -> Response:
    entries: Sequence[Entry] = error.errors() if isinstance(error, RequestValidationError) else ()
    for entry in entries:
        if entry["type"] == "json_invalid":
            where = entry["loc"][-1]
            return await _tell(request, MalformedBodyError(f"{entry['ctx']['error']} at character {where}."))
    route = request.scope["route"]
    operation = Operation.of(request.app, route.path_format, request.method)
    return await _tell(request, invalid_request(entries, operation))


def _unknown_path(request: Request) -> NoSuchPathError:
    paths = [path for path in request.app.openapi()["paths"] if "{" not in path]
    return NoSuchPathError(request.url.path, nearest(request.url.path, paths))


def _methods(request: Request) -> tuple[str, ...]:
    """All methods that the path takes: the router names those of its first route only."""
    found: set[str] = set()
    for route in request.app.routes:
        match, _ = route.matches(request.scope)
        if match is not Match.NONE:
            found |= getattr(route, "methods", None) or set()
    if "GET" in found:
        found.add("HEAD")
    return tuple(sorted(found))
