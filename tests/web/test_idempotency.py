"""A write that is sent twice is done once."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

import pytest
from fastapi import Request, Response
from starlette.types import Message

from service.access.keys import DEVELOPMENT
from service.web.errors import IdempotencyConflictError, IdempotencyInProgressError, InvalidRequestError
from service.web.idempotency import once
from tests.factories.http import Running

pytestmark = pytest.mark.anyio
Send = Callable[..., Awaitable[Response]]


class Work:
    """A write that counts how often it was done."""

    def __init__(self) -> None:
        self.times = 0
        self.error: Exception | None = None

    async def __call__(self) -> Response:
        self.times += 1
        if self.error:
            raise self.error
        return Response(b'{"id": 1}', 201, {"Location": "/v1/things/1", "X-Other": "x"}, "application/json")


@pytest.fixture
def work() -> Work:
    return Work()


@pytest.fixture
def send(started: Running, work: Work) -> Send:
    async def send_once(key: str | None = "k1", body: bytes = b"{}", path: str = "/v1/things") -> Response:
        async def receive() -> Message:
            return {"type": "http.request", "body": body}

        headers = [(b"idempotency-key", key.encode())] if key is not None else []
        scope = {
            "type": "http",
            "method": "POST",
            "path": path,
            "query_string": b"",
            "headers": headers,
            "server": ("faying.test", 80),
            "state": {"services": started.services, "principal": DEVELOPMENT},
        }
        return await once(Request(scope, receive), work)

    return send_once


async def test_the_second_sending_gets_the_answer_of_the_first(send: Send, work: Work) -> None:
    first, second = await send(), await send()
    assert work.times == 1
    assert (second.status_code, second.body) == (first.status_code, first.body)
    assert second.headers["location"] == "/v1/things/1"
    assert second.headers["idempotency-replayed"] == "true"
    assert "x-other" not in second.headers


async def test_without_a_key_the_work_is_done_each_time(send: Send, work: Work) -> None:
    await send(None)
    await send(None)
    assert work.times == 2


async def test_another_request_under_the_same_key_is_refused(send: Send, work: Work) -> None:
    await send()
    for change in ({"body": b'{"a": 1}'}, {"path": "/v1/others"}):
        with pytest.raises(IdempotencyConflictError):
            await send(**change)
    assert work.times == 1


async def test_a_sending_while_the_first_is_at_work_is_told_to_wait(send: Send, work: Work) -> None:
    async def work_that_is_sent_again() -> Response:
        with pytest.raises(IdempotencyInProgressError):
            await send()
        return Response(b"done")

    work.__class__ = type("Nested", (Work,), {"__call__": lambda _self: work_that_is_sent_again()})
    assert (await send()).body == b"done"


async def test_work_that_failed_may_be_tried_again(send: Send, work: Work) -> None:
    work.error = ZeroDivisionError()
    with pytest.raises(ZeroDivisionError):
        await send()
    work.error = None
    assert (await send()).status_code == 201
    assert work.times == 2


@pytest.mark.parametrize("key", ["", " ", "k" * 256])
async def test_a_key_without_sense_is_refused(send: Send, work: Work, key: str) -> None:
    with pytest.raises(InvalidRequestError):
        await send(key)
    assert work.times == 0
