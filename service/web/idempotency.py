"""Writes that a caller may send twice: the second sending gets the answer of the first.

The header is that of draft-ietf-httpapi-idempotency-key-header. A key belongs to a tenant; the same key
with another request is refused, and so is a second sending while the first is at work.
"""

from __future__ import annotations

import hashlib
from collections.abc import Awaitable, Callable
from datetime import timedelta
from typing import Any

from fastapi import Request, Response
from starlette.concurrency import run_in_threadpool

from service.storage.engine import Database
from service.storage.errors import IdempotencyConflictError as StoredConflictError
from service.storage.repositories.idempotency import IdempotencyRepository, Outcome
from service.storage.tables import utc_now
from service.web.errors import (
    Fault,
    IdempotencyConflictError,
    IdempotencyInProgressError,
    InvalidRequestError,
)
from service.web.state import principal, services

HEADER = "Idempotency-Key"
REPLAYED = {"Idempotency-Replayed": "true"}
KEY_ERRORS = (IdempotencyInProgressError, IdempotencyConflictError)
"""What ``once`` refuses, for the document."""

_MOST_CHARACTERS = 255
_KEPT_HEADERS = ("content-type", "location", "etag", "cache-control")


def keyed() -> dict[str, Any]:
    """Return the part of an operation that offers the header, for ``openapi_extra``."""
    parameter = {
        "name": HEADER,
        "in": "header",
        "required": False,
        "description": "Made anew for each write, a UUID for instance. The same request with the same key is "
        "done once: later sendings get the answer of the first, marked `Idempotency-Replayed: true`.",
        "schema": {"type": "string", "minLength": 1, "maxLength": _MOST_CHARACTERS, "pattern": r"\S"},
        "example": "5f0c6f1e-3c5a-4f0e-9a53-0d1f0a3b7c11",
    }
    return {"parameters": [parameter]}


async def once(request: Request, work: Callable[[], Awaitable[Response]]) -> Response:
    """Do the work of a write, or return what an earlier sending of the same request was answered.

    Without the header the work is simply done. Work that fails gives the key back.

    Raises
    ------
    IdempotencyConflictError
        If the key was used for another request.
    IdempotencyInProgressError
        If the first sending is still at work.
    """
    key = request.headers.get(HEADER)
    if key is None:
        return await work()
    if not key.strip() or len(key) > _MOST_CHARACTERS:
        detail = f"The key has 1 to {_MOST_CHARACTERS} characters."
        raise InvalidRequestError(Fault("header", f"/{HEADER}", "length", detail))
    claim = _Claim(services(request).database, principal(request).tenant_id, key)
    hours = services(request).settings.idempotency_hours
    fingerprint = await _fingerprint(request)
    if done := await run_in_threadpool(claim.begin, fingerprint, hours):
        return Response(done.body, done.status, {**done.headers, **REPLAYED})
    try:
        response = await work()
    except BaseException:
        await run_in_threadpool(claim.give_back)
        raise
    await run_in_threadpool(claim.finish, response)
    return response


async def _fingerprint(request: Request) -> str:
    digest = hashlib.sha256()
    for part in (request.method.encode(), request.url.path.encode(), request.scope["query_string"]):
        digest.update(part + b"\n")
    digest.update(await request.body())
    return digest.hexdigest()


class _Claim:
    """One key of one tenant."""

    def __init__(self, database: Database, tenant_id: str, key: str) -> None:
        self._database = database
        self._tenant_id = tenant_id
        self._key = key

    def begin(self, fingerprint: str, hours: float) -> Outcome | None:
        expires_at = utc_now() + timedelta(hours=hours)
        try:
            with self._database.writing() as session:
                repository = IdempotencyRepository(session)
                return repository.begin(self._tenant_id, self._key, fingerprint, expires_at)
        except StoredConflictError as error:
            raise (IdempotencyInProgressError if error.is_running else IdempotencyConflictError) from error

    def finish(self, response: Response) -> None:
        headers = {name: response.headers[name] for name in _KEPT_HEADERS if name in response.headers}
        outcome = Outcome(response.status_code, headers, bytes(response.body))
        with self._database.writing() as session:
            IdempotencyRepository(session).finish(self._tenant_id, self._key, outcome)

    def give_back(self) -> None:
        with self._database.writing() as session:
            IdempotencyRepository(session).release(self._tenant_id, self._key)
