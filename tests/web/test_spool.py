"""Large bodies wait on disk."""

from __future__ import annotations

import httpx
import pytest
from fastapi import Request

from service.web.errors import UnsupportedMediaTypeError
from service.web.spool import IN_MEMORY_BYTES, closing_spool, content_type_of, size_of, spooled

pytestmark = pytest.mark.anyio


def request(*parts: bytes, content_type: str = "") -> Request:
    left = list(parts)

    async def receive() -> dict[str, object]:
        if not left:
            return {"type": "http.disconnect"}
        return {"type": "http.request", "body": left.pop(0), "more_body": bool(left)}

    headers = [(b"content-type", content_type.encode())] if content_type else []
    return Request({"type": "http", "method": "POST", "headers": headers}, receive)


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


async def test_a_body_is_read_whole_and_from_its_beginning() -> None:
    async with closing_spool(request(b"ab", b"cd", b"e")) as spool:
        assert spool.read() == b"abcde"
    assert spool.closed


async def test_the_size_of_a_body_is_told_and_it_is_read_from_its_beginning() -> None:
    async with closing_spool(request(b"ab", b"cde")) as spool:
        assert size_of(spool) == 5
        assert spool.read() == b"abcde"


async def test_a_large_body_goes_to_disk() -> None:
    part = b"x" * IN_MEMORY_BYTES
    spool = await spooled(request(part, part, b"end"))
    with spool:
        assert spool.fileno() > 0
        spool.seek(-3, 2)
        assert spool.read() == b"end"


async def test_a_body_that_breaks_off_leaves_no_file_behind() -> None:
    async def broken() -> dict[str, object]:
        raise httpx.ReadError("gone")

    with pytest.raises(httpx.ReadError):
        await spooled(Request({"type": "http", "method": "POST", "headers": []}, broken))


async def test_formats_are_told_by_their_media_type() -> None:
    accepted = ("application/x-ndjson", "application/json")
    assert (
        content_type_of(request(content_type="Application/X-NDJSON; charset=utf-8"), accepted) == accepted[0]
    )
    for written in ("", "text/csv"):
        with pytest.raises(UnsupportedMediaTypeError):
            content_type_of(request(content_type=written), accepted)
