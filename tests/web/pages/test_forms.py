"""Fields of forms."""

from __future__ import annotations

import pytest
from fastapi import Request
from starlette.types import Message

from service.web.pages.forms import LONGEST, texts_of

pytestmark = pytest.mark.anyio


async def typed(body: bytes) -> dict[str, str]:
    async def receive() -> Message:
        return {"type": "http.request", "body": body, "more_body": False}

    headers = [(b"content-type", b"application/x-www-form-urlencoded")]
    scope = {"type": "http", "method": "POST", "headers": headers}
    return await texts_of(Request(scope, receive))


async def test_line_ends_are_plain_and_control_characters_gone() -> None:
    assert await typed(b"text=+a%0D%0Ab%00%07%09c+&x=") == {"text": "a\nb\tc", "x": ""}


async def test_a_long_text_is_cut() -> None:
    assert len((await typed(b"text=" + b"a" * (LONGEST + 5)))["text"]) == LONGEST
