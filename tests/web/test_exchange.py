"""What is added to every response on its way out."""

from __future__ import annotations

from types import SimpleNamespace

import pytest
from starlette.types import Message
from starlette.types import Scope as AsgiScope

from service.web.exchange import Exchange

pytestmark = pytest.mark.anyio

START: Message = {"type": "http.response.start", "status": 200, "headers": [(b"etag", b'"a"')]}
BODY: Message = {"type": "http.response.body", "body": b"{}"}
ID = b"0b5d7c4e-3a53-4a3b-9a55-3f0c2f8f8d11"


class Caller:
    """Who is answered."""

    def __init__(self) -> None:
        self.got: list[Message] = []

    async def take(self, message: Message) -> None:
        self.got.append(message)


def exchange(caller: Caller, method: str = "GET") -> Exchange:
    scope: AsgiScope = {
        "type": "http", "method": method, "scheme": "http", "path": "/v1/limits",
        "headers": [(b"x-request-id", ID)], "state": {"services": SimpleNamespace()},
    }  # fmt: skip
    return Exchange(scope, caller.take)


async def test_the_response_gets_its_id_and_what_was_told_beside_it() -> None:
    caller = Caller()
    begun = exchange(caller)
    begun.extra_headers.append((b"ratelimit", b'"requests";r=1;t=1'))
    await begun.reply(START)
    await begun.reply(BODY)
    headers = caller.got[0]["headers"]
    assert headers[0] == (b"etag", b'"a"')
    assert dict(headers)[b"x-request-id"] == ID
    assert headers[-1][0] == b"ratelimit"
    assert caller.got[1] == BODY
    assert begun.status == 200
    assert START["headers"] == [(b"etag", b'"a"')], "messages may be sent again and stay as they are"


async def test_head_gets_no_body() -> None:
    caller = Caller()
    begun = exchange(caller, "HEAD")
    begun.scope["method"] = "GET"
    await begun.reply(START)
    await begun.reply(BODY)
    assert begun.method == "HEAD"
    assert caller.got[1]["body"] == b""


async def test_who_was_told_to_come_again_gets_nothing_else() -> None:
    caller = Caller()
    begun = exchange(caller)
    begun.give_up(30.0)
    await begun.reply(START)
    assert begun.telling is not None
    await begun.telling
    assert [message["type"] for message in caller.got] == ["http.response.start", "http.response.body"]
    assert caller.got[0]["status"] == 503


async def test_an_answer_that_has_begun_goes_on() -> None:
    caller = Caller()
    begun = exchange(caller)
    await begun.reply(START)
    begun.give_up(30.0)
    await begun.reply(BODY)
    assert begun.telling is None
    assert len(caller.got) == 2
