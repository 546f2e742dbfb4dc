from __future__ import annotations

import inspect

import httpx
import pytest

from service.client import AsyncClient, Client
from service.client.document import calls
from service.client.document.methods import AwaitedMethods, BlockingMethods
from tests.factories.scripted import OK, scripted, scripted_async

LINE = {
    "kind": "release.published",
    "subject": "2026.01.01-1",
    "detail": {},
    "serial": 7,
    "happened_at": "2026-11-25T09:00:00Z",
}
REPLIES = [
    httpx.Response(200, json={"items": items, "after": 7, "next": "/v1/changes?after=7"})
    for items in ([LINE], [])
]


def test_a_method_has_the_parameters_and_the_words_of_its_call() -> None:
    client, _ = scripted()
    assert inspect.signature(client.get_material) == inspect.signature(calls.get_material)
    assert inspect.getdoc(client.get_material) == inspect.getdoc(calls.get_material)
    assert inspect.getdoc(Client.__dict__["judge_couples"])


def test_a_blocking_call_returns_its_result_and_an_awaited_one_a_coroutine() -> None:
    client, _ = scripted(OK)
    assert client.check_health().status == "alive"
    awaited, _ = scripted_async(OK)
    waiting = awaited.check_health()
    assert inspect.iscoroutine(waiting)
    waiting.close()


def test_both_clients_can_do_the_same() -> None:
    def public(kind: type) -> set[str]:
        return {name for name in dir(kind) if not name.startswith("_")}

    assert public(BlockingMethods) == public(AwaitedMethods)
    assert public(Client) == public(AsyncClient)


@pytest.mark.anyio
async def test_a_listing_asks_for_page_after_page() -> None:
    client, script = scripted(*REPLIES)
    assert [line.serial for line in client.list_changes(after=3, kind=["a.b", "c.d"])] == [7]
    assert [str(request.url.query, "ascii") for request in script.requests] == [
        "after=3&kind=a.b&kind=c.d",
        "after=7",
    ]
    awaited, script = scripted_async(*REPLIES)
    assert [line.serial async for line in awaited.list_changes()] == [7]
    assert len(script.requests) == 2
