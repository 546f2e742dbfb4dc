"""Bodies are counted while they stream in; one that is too large is refused before it is held."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from starlette.exceptions import HTTPException
from starlette.types import Message, Receive

from service.settings import Settings
from service.web.errors import BodyTooLargeError, MalformedBodyError

_MOST_DIGITS = 15
LARGE_BODIES = frozenset({"/v1/couples/batch", "/v1/jobs"})
"""Paths that take whole batches; their bodies go to disk, not into memory."""


def limit_of(path: str, settings: Settings) -> int:
    """Return how many bytes a body may have that is sent to a path."""
    return settings.max_batch_bytes if path in LARGE_BODIES else settings.max_body_bytes


def check_declared_length(headers: Mapping[bytes, bytes], limit_bytes: int) -> None:
    """Refuse a body that says itself that it is too large.

    Raises
    ------
    BodyTooLargeError
        If Content-Length is above the limit.
    MalformedBodyError
        If Content-Length is not a number.
    """
    declared = headers.get(b"content-length")
    if declared is None:
        return
    if not declared.isdigit():
        message = "Content-Length is not a number."
        raise MalformedBodyError(message)
    if len(declared) > _MOST_DIGITS or int(declared) > limit_bytes:
        raise BodyTooLargeError(limit_bytes)


class LimitedBody:
    """Counts what a request brings in, tells ``came`` of each part, and stops at the limit."""

    def __init__(self, receive: Receive, limit_bytes: int, came: Callable[[], object] = lambda: None) -> None:
        self._receive = receive
        self._left_bytes = limit_bytes
        self._came = came

    async def receive(self) -> Message:
        """Return the next message.

        Raises
        ------
        HTTPException
            With 413 at the first byte too many. It has to be this class: FastAPI turns every other
            exception that it meets while reading a body into 400.
        """
        message = await self._receive()
        if message["type"] == "http.request":
            self._came()
            self._left_bytes -= len(message.get("body", b""))
            if self._left_bytes < 0:
                raise HTTPException(413)
        return message
