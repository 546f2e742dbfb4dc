"""What one call of the application costs without a server, in microseconds."""

from __future__ import annotations

import asyncio
import itertools
import logging
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlencode

from starlette.types import ASGIApp, Message, Scope

from service.access import Scope as Permission
from service.settings import Settings
from service.storage.migrate import upgrade
from tests.benchmarks.plain_server import bare
from tests.factories.http import issue_key, publish_seed, running

TOGETHER = 16
"""Requests that one turn of the event loop answers, as with the connections of the other benchmarks."""


@dataclass(slots=True)
class Costs:
    """Microseconds of a call: of the bare application, and of the service by kind of question."""

    bare_us: float = 0.0
    of: dict[str, float] = field(default_factory=dict)


def costs() -> Costs:
    """Measure in this process, with the log going to a file."""
    with tempfile.TemporaryDirectory() as folder:
        return asyncio.run(_costs(Path(folder)))


async def _costs(folder: Path) -> Costs:
    from tests.benchmarks.lookup import COUPLE, PATH, new_couples

    url = f"sqlite:///{folder / 'faying.sqlite3'}"
    upgrade(url)
    publish_seed(url)
    key = issue_key(url, *Permission)
    settings = Settings(database_url=url, requests_per_minute=10**9, request_burst=10**9)
    found = Costs()
    with (folder / "log").open("w", encoding="utf-8") as stream:
        async with running(settings, key) as application:
            for handler in logging.getLogger("service").handlers:
                if isinstance(handler, logging.StreamHandler):
                    handler.setStream(stream)
            address = PATH + urlencode(COUPLE)
            messages = await _call(application.asgi, _scope(address, key))
            tag = dict(messages[0]["headers"])[b"etag"]
            again = itertools.repeat(address)
            found.of["cached"] = await _us(application.asgi, again, key, 3000)
            found.of["304"] = await _us(application.asgi, again, key, 3000, tag)
            found.of["new"] = await _us(application.asgi, new_couples(0), key, 40)
            plain = bare({"/": (200, [(b"content-length", b"2")], b"{}")})
            found.bare_us = await _us(plain, again, key, 3000)
    return found


async def _us(app: ASGIApp, addresses: Iterator[str], key: str, calls: int, tag: bytes = b"") -> float:
    best = float("inf")
    for _ in range(3):
        scopes = [_scope(next(addresses), key, tag) for _ in range(calls)]
        start = time.process_time()
        for number, scope in enumerate(scopes):
            await _call(app, scope)
            if number % TOGETHER == 0:
                await asyncio.sleep(0)  # lines of the log are written at the end of a turn of the loop
        best = min(best, time.process_time() - start)
    return best / calls * 1e6


def _scope(address: str, key: str, tag: bytes = b"") -> Scope:
    path, _, query = address.partition("?")
    headers = [(b"host", b"127.0.0.1"), (b"authorization", b"Bearer " + key.encode())]
    if tag:
        headers.append((b"if-none-match", tag))
    return {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "GET", "scheme": "http",
        "path": path, "raw_path": path.encode(), "root_path": "", "query_string": query.encode(),
        "headers": headers, "client": ("127.0.0.1", 1), "server": ("127.0.0.1", 2),
    }  # fmt: skip


async def _call(app: ASGIApp, scope: Scope) -> list[Message]:
    messages: list[Message] = []

    async def receive() -> Message:
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message: Message) -> None:
        messages.append(message)

    await app(scope, receive, send)
    return messages
