"""Clients of a service that answers from a script, for what a real one does not do on demand."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import httpx

from service.client import AsyncClient, Client, Retries

Reply = httpx.Response | Exception
PROMPT = Retries(first_pause_s=0.0)
"""As many attempts as usual, without waiting longer than the service asks."""

OK = httpx.Response(200, json={"status": "alive"})


class Script:
    """Gives one reply after another, and notes what it was sent."""

    def __init__(self, replies: Iterable[Reply | Callable[[httpx.Request], httpx.Response]]) -> None:
        self._replies = iter(replies)
        self.requests: list[httpx.Request] = []
        self.bodies: list[bytes] = []

    def answer(self, request: httpx.Request) -> httpx.Response:
        self.bodies.append(request.read())
        return self._next(request)

    async def answer_awaited(self, request: httpx.Request) -> httpx.Response:
        self.bodies.append(await request.aread())
        return self._next(request)

    def _next(self, request: httpx.Request) -> httpx.Response:
        self.requests.append(request)
        reply = next(self._replies)
        if isinstance(reply, Exception):
            raise reply
        if not isinstance(reply, httpx.Response):
            return reply(request)
        return httpx.Response(reply.status_code, headers=reply.headers, content=reply.content)


def scripted(
    *replies: Reply | Callable[[httpx.Request], httpx.Response], retries: Retries = PROMPT
) -> tuple[Client, Script]:
    """Return a blocking client and the script that it is answered from."""
    script = Script(replies)
    http = httpx.Client(transport=httpx.MockTransport(script.answer))
    return Client("http://faying.test", "fay_key", retries=retries, http=http), script


def scripted_async(
    *replies: Reply | Callable[[httpx.Request], httpx.Response], retries: Retries = PROMPT
) -> tuple[AsyncClient, Script]:
    """Return an asynchronous client and the script that it is answered from."""
    script = Script(replies)
    http = httpx.AsyncClient(transport=httpx.MockTransport(script.answer_awaited))
    return AsyncClient("http://faying.test", "fay_key", retries=retries, http=http), script
