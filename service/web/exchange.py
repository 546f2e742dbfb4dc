"""One request on its way: what the edge has to remember of it until its response is over."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Awaitable

from starlette.types import Message, Scope, Send

from service.web import problem_documents
from service.web.errors import TookTooLongError
from service.web.headers import RawHeaders, security_headers
from service.web.request_ids import request_id
from service.web.state import services_of


class Exchange:
    """A request and what has become of its response."""

    __slots__ = (
        "extra_headers", "headers", "held", "is_given_up", "is_head", "request_id",
        "scope", "send", "started_s", "status", "telling",
    )  # fmt: skip

    def __init__(self, scope: Scope, send: Send) -> None:
        self.started_s = time.perf_counter()
        self.scope = scope
        self.send = send
        self.held = services_of(scope)
        self.headers: dict[bytes, bytes] = dict(scope["headers"])
        self.request_id = request_id(self.headers.get(b"x-request-id"))
        self.is_head = scope["method"] == "HEAD"
        self.extra_headers: RawHeaders = []
        self.status = 0
        self.is_given_up = False
        self.telling: asyncio.Task[None] | None = None

    @property
    def method(self) -> str:
        """The method that the caller used; the router sees GET where that was HEAD."""
        return "HEAD" if self.is_head else str(self.scope["method"])

    def reply(self, message: Message) -> Awaitable[None]:
        """Send one message of the response, unless the caller was told that it takes too long."""
        return _nothing() if self.is_given_up else self.send(self.completed(message))

    def give_up(self, patience_s: float) -> None:
        """Tell the caller that it takes too long, unless its answer has begun."""
        if not self.status:
            self.is_given_up = True
            self.telling = asyncio.ensure_future(self._tell(TookTooLongError(patience_s)))

    def completed(self, message: Message) -> Message:
        """Add the headers that all responses carry; take the body away where nobody asked for it."""
        if message["type"] == "http.response.start":
            self.status = message["status"]
            headers = message.get("headers", ())
            identity = (b"x-request-id", self.request_id.encode())
            added = security_headers(headers, self.scope.get("scheme", "http"))
            return {**message, "headers": [*headers, identity, *added, *self.extra_headers]}
        return {**message, "body": b""} if self.is_head else message

    async def _tell(self, error: Exception) -> None:
        response = problem_documents.response(error, self.request_id)
        await response(self.scope, _nothing_more, lambda message: self.send(self.completed(message)))


async def _nothing() -> None:
    """Stand in for a message that is not sent."""


async def _nothing_more() -> Message:
    return {"type": "http.disconnect"}
