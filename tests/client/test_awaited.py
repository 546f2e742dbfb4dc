"""The asynchronous client against the application itself."""

from __future__ import annotations

import httpx
import pytest

from service.client import AsyncClient, NotFoundError, UnreachableError
from tests.factories.scripted import OK, scripted_async

pytestmark = pytest.mark.anyio
PLACE = "marine-atmosphere-0-100-m"


async def test_a_question_is_answered_and_found_again(async_client: AsyncClient) -> None:
    answer = await async_client.judge_couple(first="EN AW-6082-T6", second="A4-80", environment=PLACE)
    assert await async_client.get_answer(answer.digest) == answer
    assert (await async_client.get_decision(answer.digest)).verdict == answer.verdict


async def test_a_listing_is_gone_through_to_its_end(async_client: AsyncClient) -> None:
    in_pages = [finish.id async for finish in async_client.list_finishes(page_size=50)]
    assert len(in_pages) > 50
    assert in_pages == sorted(set(in_pages))


async def test_a_webhook_comes_and_goes(async_client: AsyncClient) -> None:
    made = await async_client.create_webhook(
        url="https://93.184.216.34/hook", events=["*"], idempotency_key="once"
    )
    again = await async_client.create_webhook(
        url="https://93.184.216.34/hook", events=["*"], idempotency_key="once"
    )
    assert again == made
    assert [hook.id for hook in (await async_client.list_webhooks()).items] == [made.id]
    assert (await async_client.replay_webhook(made.id, after=0)).after == 0
    assert [delivery async for delivery in async_client.list_webhook_deliveries(made.id)] == []
    await async_client.delete_webhook(made.id)
    with pytest.raises(NotFoundError):
        await async_client.get_webhook(made.id)


async def test_a_call_is_tried_until_it_is_answered() -> None:
    client, script = scripted_async(httpx.ReadError("lost"), httpx.Response(503), OK)
    assert (await client.check_health()).status == "alive"
    assert len(script.requests) == 3


async def test_a_service_that_is_not_there_is_told_by_its_address() -> None:
    client, _ = scripted_async(*[httpx.ConnectError("refused") for _ in range(4)])
    with pytest.raises(UnreachableError, match=r"http://faying.test/healthz: refused"):
        await client.check_health()


async def test_connections_of_its_own_are_given_up() -> None:
    async with AsyncClient("http://faying.test") as client:
        http = client._http
        assert not http.is_closed
        assert client.within(1)._http is http
    assert http.is_closed
