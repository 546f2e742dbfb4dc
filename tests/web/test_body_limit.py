"""Bodies are counted as they come."""

from __future__ import annotations

import pytest
from starlette.exceptions import HTTPException
from starlette.types import Message

from service.web.body_limit import LimitedBody, check_declared_length
from service.web.errors import BodyTooLargeError, MalformedBodyError


def test_a_declared_length_is_checked_before_anything_is_read() -> None:
    check_declared_length({}, 10)
    check_declared_length({b"content-length": b"10"}, 10)
    for length in (b"11", b"9" * 400):
        with pytest.raises(BodyTooLargeError):
            check_declared_length({b"content-length": length}, 10)
    for length in (b"-1", b"", b"1e3"):
        with pytest.raises(MalformedBodyError):
            check_declared_length({b"content-length": length}, 10)


@pytest.mark.anyio
async def test_the_first_byte_too_many_stops_the_reading() -> None:
    sizes = iter([4, 6, 1])

    async def receive() -> Message:
        return {"type": "http.request", "body": b"x" * next(sizes), "more_body": True}

    body = LimitedBody(receive, 10)
    assert len((await body.receive())["body"]) == 4
    assert len((await body.receive())["body"]) == 6
    with pytest.raises(HTTPException) as caught:
        await body.receive()
    assert caught.value.status_code == 413


@pytest.mark.anyio
async def test_other_messages_pass() -> None:
    async def receive() -> Message:
        return {"type": "http.disconnect"}

    assert await LimitedBody(receive, 0).receive() == {"type": "http.disconnect"}
