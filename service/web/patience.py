"""Callers that are slow on purpose or by a fault: a connection that stalls is closed.

The server itself waits for ever for the rest of a request, and for ever for somebody to take an answer.
Time is taken where bytes come and go, so that a request that arrives at once costs next to nothing.
"""

from __future__ import annotations

import asyncio
import logging
import uuid
from collections.abc import Callable
from typing import Any

from uvicorn.protocols.http.auto import AutoHTTPProtocol

from service.web import problem_documents
from service.web.errors import TooSlowError

logger = logging.getLogger(__name__)

SLOWEST_BYTES_PER_S = 2_000
"""A body that comes more slowly than over a modem of the 1990s is not sent by a program in earnest."""

MOST_DISCARDED_BYTES = 2**20
"""Of a body that is not wanted this much is read in vain, so that its sender gets to read the refusal."""

_TOO_SLOW = (
    b"HTTP/1.1 408 Request Timeout\r\nconnection: close\r\ncache-control: no-store\r\n"
    b"content-type: application/problem+json\r\ncontent-length: %d\r\nx-request-id: %s\r\n\r\n"
)


def patient(stall_s: float) -> type[asyncio.Protocol]:
    """Return the protocol of a server that waits so many seconds for a caller that stalls."""
    return type("Patient", (_Patient,), {"stall_s": stall_s})


class _Alarm:
    """Rings once, unless it is stopped before."""

    def __init__(self, loop: asyncio.AbstractEventLoop, ring: Callable[[], object]) -> None:
        self._loop = loop
        self._ring = ring
        self._handle: asyncio.TimerHandle | None = None

    @property
    def is_set(self) -> bool:
        return self._handle is not None

    def set(self, at_s: float) -> None:
        self.stop()
        self._handle = self._loop.call_at(at_s, self._go_off)

    def stop(self) -> None:
        if self._handle is not None:
            self._handle.cancel()
            self._handle = None

    def _go_off(self) -> None:
        self._handle = None
        self._ring()


class _Patient(AutoHTTPProtocol):  # type: ignore[misc, valid-type]  # uvicorn chooses the class while it is imported
    """One connection with two alarms: one for what comes in, one for what goes out."""

    stall_s: float

    def connection_made(self, transport: Any) -> None:
        """Expect a request."""
        super().connection_made(transport)
        self._incoming = _Alarm(self.loop, self._look)
        self._outgoing = _Alarm(self.loop, self._give_up)
        self._answered: object = None
        self._expect(is_in_body=False)

    def data_received(self, data: bytes) -> None:
        """Take what came, and see what is still missing."""
        super().data_received(data)
        is_between = self.cycle is None or self.cycle.response_complete
        if is_between and self.cycle is not None and self.cycle.more_body:
            self._discard(len(data))
        if not is_between and not self.cycle.more_body:
            self._incoming.stop()
        elif not self._incoming.is_set or self._is_in_body is is_between:
            self._expect(is_in_body=not is_between)
        self._received_bytes += len(data)

    def _discard(self, count: int) -> None:
        """Hang up on a body that goes on after it was answered; the server would read it to its end."""
        if self._answered is not self.cycle:
            self._answered, self._discarded_bytes = self.cycle, 0
        self._discarded_bytes += count
        if self._discarded_bytes > MOST_DISCARDED_BYTES:
            self.transport.close()

    def pause_writing(self) -> None:
        """Note that the caller does not take what is there for it."""
        super().pause_writing()
        self._outgoing.set(self.loop.time() + self.stall_s)

    def resume_writing(self) -> None:
        """Note that it goes on."""
        self._outgoing.stop()
        super().resume_writing()

    def connection_lost(self, exc: Exception | None) -> None:
        """Stop both alarms."""
        self._incoming.stop()
        self._outgoing.stop()
        super().connection_lost(exc)

    def _expect(self, *, is_in_body: bool) -> None:
        """Begin to wait for a head or for a body."""
        self._is_in_body = is_in_body
        self._began_s, self._received_bytes = self.loop.time(), 0
        self._incoming.set(self._began_s + self.stall_s)

    def _look(self) -> None:
        """Close the connection, unless what has come so far has earned it more time.

        A body that waits for us, because we do not read on, is not late.
        """
        ends_s = self._began_s + self.stall_s
        if self._is_in_body:
            ends_s += self._received_bytes / SLOWEST_BYTES_PER_S
            if self.flow.read_paused:
                ends_s = self.loop.time() + self.stall_s
        if ends_s > self.loop.time():
            self._incoming.set(ends_s)
            return
        logger.warning("caller too slow in sending", extra={"facts": {"client": str(self.client)}})
        if not self._is_in_body or not self.cycle.response_started:
            self.transport.write(_refusal(self.stall_s))
        self.transport.close()

    def _give_up(self) -> None:
        logger.warning("caller too slow in reading", extra={"facts": {"client": str(self.client)}})
        self.transport.abort()


def _refusal(stall_s: float) -> bytes:
    """A whole response: there is no request yet that the application could answer."""
    request_id = str(uuid.uuid4())
    body = bytes(problem_documents.response(TooSlowError(stall_s), request_id).body)
    return _TOO_SLOW % (len(body), request_id.encode()) + body
