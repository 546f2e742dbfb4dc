from __future__ import annotations

import httpx
import pytest

from service.client import AsyncClient, Client
from service.client.document.results import Answer
from service.client.kept_replies import LARGEST_BYTES, KeptReplies
from service.client.requests import Request
from tests.factories.scripted import scripted

LIMITS = Request("GET", "/v1/limits", query={"a": 1})
TAGGED = httpx.Response(200, headers={"ETag": '"x"'}, content=b"{}")
UNCHANGED = httpx.Response(304)


def test_an_unchanged_reply_is_the_kept_one() -> None:
    kept = KeptReplies(2)
    assert kept.condition(LIMITS) == {}
    assert kept.settle(LIMITS, TAGGED) is TAGGED
    assert kept.condition(LIMITS) == {"If-None-Match": '"x"'}
    again = kept.settle(LIMITS, UNCHANGED)
    assert (again.status_code, again.content) == (200, b"{}")


def test_other_questions_are_told_apart() -> None:
    kept = KeptReplies(2)
    kept.settle(LIMITS, TAGGED)
    assert kept.condition(Request("GET", "/v1/limits", query={"a": 2})) == {}
    assert kept.settle(Request("GET", "/"), UNCHANGED) is UNCHANGED


@pytest.mark.parametrize(
    ("request_", "response"),
    [
        (Request("POST", "/v1/limits"), TAGGED),
        (Request("GET", "/", accept="text/csv"), TAGGED),
        (Request("GET", "/"), httpx.Response(200, content=b"{}")),
        (Request("GET", "/"), httpx.Response(404, headers={"ETag": '"x"'})),
        (Request("GET", "/"), httpx.Response(200, headers={"ETag": '"x"', "Cache-Control": "no-store"})),
        (Request("GET", "/"), httpx.Response(200, headers={"ETag": '"x"'}, content=bytes(LARGEST_BYTES + 1))),
    ],
)
def test_some_replies_are_not_kept(request_: Request, response: httpx.Response) -> None:
    kept = KeptReplies(2)
    kept.settle(request_, response)
    assert kept.condition(request_) == {}


def test_the_least_used_goes_first() -> None:
    kept = KeptReplies(2)
    first, second, third = (Request("GET", f"/{name}") for name in "abc")
    kept.settle(first, TAGGED)
    kept.settle(second, TAGGED)
    kept.settle(first, UNCHANGED)
    kept.settle(third, TAGGED)
    assert [bool(kept.condition(each)) for each in (first, second, third)] == [True, False, True]


def test_the_client_asks_for_news_only() -> None:
    reply = httpx.Response(200, headers={"ETag": '"x"'}, json={"status": "alive"})
    client, script = scripted(reply, httpx.Response(304))
    assert client.check_health() == client.check_health()
    assert [request.headers.get("if-none-match") for request in script.requests] == [None, '"x"']


def test_the_service_confirms_that_an_answer_is_unchanged(client: Client) -> None:
    def ask() -> Answer:
        return client.judge_couple_by_text(first="A4-80", second="CW024A", environment="heated-indoor")

    asked = ask()
    statuses: list[int] = []
    client._http.event_hooks["response"] = [lambda response: statuses.append(response.status_code)]
    assert ask() == asked
    assert statuses == [304]


@pytest.mark.anyio
async def test_the_same_when_awaited(async_client: AsyncClient) -> None:
    (release,) = [each async for each in async_client.list_releases()]
    assert await async_client.get_release(release.label) == release
    assert await async_client.get_release(release.label) == release
