"""Batches in a stream: in order, item by item, and never cut off unnoticed."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator

import httpx
import pytest

from service.client import (
    NO_RETRIES,
    AsyncClient,
    BrokenStreamError,
    Client,
    Couple,
    InvalidRequestError,
    UnexpectedReplyError,
    UnreachableError,
)
from service.settings import LOCAL_DEVELOPMENT_KEY
from tests.factories.cutting import cutting
from tests.factories.scripted import PROMPT, scripted, scripted_async

SURFACES = ["EN AW-6082-T6", "A4-80"]
DEFAULTS = {"environment": "marine-atmosphere-0-100-m"}
COUPLES: list[Couple] = [(0, 1, "j1"), {"first": 0, "second": 9}, {"first": "CW024A", "second": 1, "ref": 7}]
LINE = b'{"index":0,"error":{"type":"t","title":"t","status":422,"detail":"d"}}\n'


LOST = httpx.ReadError("connection lost")


class Lost(httpx.SyncByteStream, httpx.AsyncByteStream):
    """A reply whose connection breaks after the first line."""

    def __iter__(self) -> Iterator[bytes]:
        yield LINE
        raise LOST

    async def __aiter__(self) -> AsyncIterator[bytes]:
        yield LINE
        raise LOST


def test_answers_come_in_order_each_with_its_ref_and_one_bad_couple_spoils_itself(client: Client) -> None:
    batch = client.judge_couples(COUPLES, surfaces=SURFACES, defaults=DEFAULTS)
    assert batch.closing is None
    first, second, third = batch
    assert (first.ref, second.ref, third.ref) == ("j1", None, 7)
    assert (first.index, second.index, third.index) == (0, 1, 2)
    assert second.error is not None
    assert second.error.errors[0].pointer == "/second"
    assert batch.closing is not None
    assert (batch.closing.count, batch.closing.failed) == (3, 1)
    single = client.judge_couple(first="EN AW-6082-T6", second="A4-80", **DEFAULTS)
    assert first.value() == single


def test_a_long_batch_of_a_generator_is_decided(client: Client) -> None:
    couples = ({"first": 0, "second": 1, "design_life_years": 1 + number % 30} for number in range(3000))
    verdicts = [
        item.value().verdict for item in client.decide_couples(couples, surfaces=SURFACES, defaults=DEFAULTS)
    ]
    assert len(verdicts) == 3000
    assert set(verdicts) <= {"suitable", "conditional", "unsuitable", "undetermined"}


@pytest.mark.anyio
async def test_the_same_when_awaited(async_client: AsyncClient) -> None:
    batch = await async_client.decide_couples(COUPLES, surfaces=SURFACES, defaults=DEFAULTS)
    items = [item async for item in batch]
    assert [item.ref for item in items] == ["j1", None, 7]
    assert batch.closing is not None
    assert batch.closing.failed == 1


def test_a_batch_that_cannot_be_read_at_all_is_a_problem(client: Client) -> None:
    with pytest.raises(InvalidRequestError):
        client.judge_couples([], surfaces="A4-80")


def test_a_connection_that_breaks_again_and_again_is_a_broken_stream() -> None:
    client, script = scripted(*[lambda _: httpx.Response(200, stream=Lost())] * 4)
    batch = client.judge_couples([(0, n) for n in range(9)])
    assert [next(batch).index for _ in range(4)] == [0, 1, 2, 3]
    with pytest.raises(BrokenStreamError, match="after 4 lines: connection lost"):
        next(batch)
    assert [body.count(b"\n") for body in script.bodies] == [9, 8, 7, 6]


@pytest.mark.anyio
async def test_the_same_when_awaited_and_without_retries() -> None:
    client, script = scripted_async(lambda _: httpx.Response(200, stream=Lost()), retries=NO_RETRIES)
    batch = await client.judge_couples([(0, 1)])
    with pytest.raises(BrokenStreamError, match="after 1 lines: connection lost"):
        [item async for item in batch]
    assert len(script.requests) == 1


def test_the_rest_of_a_generator_cannot_be_asked_for() -> None:
    client, _ = scripted(lambda _: httpx.Response(200, stream=Lost()))
    with pytest.raises(BrokenStreamError, match="after 1 lines: connection lost"):
        list(client.judge_couples(couple for couple in [(0, 1), (1, 0)]))


def test_a_rest_that_is_refused_is_a_broken_stream() -> None:
    client, _ = scripted(lambda _: httpx.Response(200, stream=Lost()), httpx.Response(401))
    with pytest.raises(BrokenStreamError, match="after 1 lines: the rest cannot be had: 401"):
        list(client.judge_couples([(0, 1), (1, 0)]))


@pytest.mark.anyio
async def test_a_rest_that_is_refused_is_a_broken_stream_when_awaited() -> None:
    client, _ = scripted_async(lambda _: httpx.Response(200, stream=Lost()), httpx.Response(401))
    batch = await client.judge_couples([(0, 1), (1, 0)])
    with pytest.raises(BrokenStreamError, match="after 1 lines: the rest cannot be had: 401"):
        [item async for item in batch]


CUTS = (40_000, 1_000, 150_000)
"""Bytes after which three connections in turn break: in a line, almost at once, and late."""

MANY: list[Couple] = [
    {"first": n % 2, "second": 1, "ref": n, "design_life_years": 1 + n % 7} if n % 100 else (0, 9, n)
    for n in range(1500)
]


def test_a_batch_goes_on_after_its_connection_broke(client: Client, service_address: str) -> None:
    expected = client.decide_couples(MANY, surfaces=SURFACES, defaults=DEFAULTS)
    items = list(expected)
    cuts = list(CUTS)
    with cutting(service_address, cuts) as address, httpx.Client(trust_env=False) as http:
        broken = Client(address, LOCAL_DEVELOPMENT_KEY, retries=PROMPT, http=http)
        batch = broken.decide_couples(MANY, surfaces=SURFACES, defaults=DEFAULTS)
        assert list(batch) == items
    assert cuts == []
    assert batch.closing == expected.closing
    assert batch.closing is not None
    assert (batch.closing.count, batch.closing.failed) == (1500, 15)


@pytest.mark.anyio
async def test_a_batch_goes_on_after_its_connection_broke_when_awaited(
    client: Client, service_address: str
) -> None:
    expected = client.decide_couples(MANY, surfaces=SURFACES, defaults=DEFAULTS)
    items = list(expected)
    cuts = list(CUTS)
    with cutting(service_address, cuts) as address:
        async with httpx.AsyncClient(trust_env=False) as http:
            broken = AsyncClient(address, LOCAL_DEVELOPMENT_KEY, retries=PROMPT, http=http)
            batch = await broken.decide_couples(MANY, surfaces=SURFACES, defaults=DEFAULTS)
            assert [item async for item in batch] == items
    assert cuts == []
    assert batch.closing == expected.closing


def test_a_truncated_stream_raises() -> None:
    client, _ = scripted(*[httpx.Response(200, content=LINE)] * 4)
    with pytest.raises(BrokenStreamError, match="after 4 lines: it ended without its closing line"):
        list(client.judge_couples([(0, n) for n in range(9)]))


def test_a_reply_that_is_no_batch_raises() -> None:
    client, _ = scripted(httpx.Response(200, content=b"<html>\n"))
    with pytest.raises(UnexpectedReplyError):
        list(client.judge_couples([(0, 1)]))


def test_couples_that_can_be_gone_through_again_are_sent_again() -> None:
    client, script = scripted(httpx.ReadError("lost"), httpx.Response(200, content=LINE))
    client.judge_couples([(0, 1)]).close()
    assert script.bodies == [b"[0,1]\n", b"[0,1]\n"]
    client, script = scripted(httpx.ReadError("lost"))
    with pytest.raises(UnreachableError):
        client.judge_couples(couple for couple in [(0, 1)])


def test_the_rest_may_be_left_unread(client: Client) -> None:
    with client.judge_couples(COUPLES, surfaces=SURFACES, defaults=DEFAULTS) as batch:
        assert next(batch).ref == "j1"
    assert client.check_health().status == "alive"


@pytest.mark.anyio
async def test_the_rest_may_be_left_unread_when_awaited(async_client: AsyncClient) -> None:
    async with await async_client.judge_couples(COUPLES, surfaces=SURFACES, defaults=DEFAULTS) as batch:
        async for item in batch:
            assert item.ref == "j1"
            break
    assert (await async_client.check_health()).status == "alive"
