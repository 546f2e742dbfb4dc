"""Batches over HTTP: streamed in order, each couple for itself, and nothing cut off unnoticed."""

from __future__ import annotations

import asyncio
import hashlib
from collections.abc import AsyncGenerator
from typing import Any

import httpx
import orjson
import pytest
from starlette.types import Message

from service.access import Scope
from service.settings import Settings
from service.web.batch_input import NDJSON
from service.web.routes.batch import NdjsonResponse
from service.web.schemas.batch import BatchClosing, BatchItem
from tests.factories.http import bearer, issue_key, problem, publish_package, running
from tests.factories.knowledge import small_package

pytestmark = pytest.mark.anyio

PATH = "/v1/couples/batch"
PLACE = {"environment": "marine-atmosphere-0-100-m"}
SURFACES = ["EN AW-6082-T6, anodized 15 µm", "A4-80", "CW024A", "S235JR"]
PAIRS = [(first, second, f"{first}-{second}") for first in range(4) for second in range(4)]


def ndjson(*couples: Any, surfaces: list[Any] = SURFACES, defaults: dict[str, Any] = PLACE) -> bytes:
    head = {"surfaces": surfaces, "defaults": defaults}
    return b"\n".join(orjson.dumps(line) for line in (head, *couples))


async def sent(client: httpx.AsyncClient, body: bytes, query: str = "", kind: str = NDJSON) -> list[bytes]:
    response = await client.post(PATH + query, content=body, headers={"Content-Type": kind})
    assert response.status_code == 200, response.text
    assert response.headers["content-type"] == NDJSON
    assert response.headers["cache-control"] == "private, no-store"
    assert response.content.endswith(b"\n")
    lines: list[bytes] = response.content.splitlines(keepends=True)
    return lines


async def test_a_batch_comes_back_in_order_and_closes_with_count_and_digest(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        *lines, last = await sent(application.client, ndjson(*PAIRS), "?view=decision")
    items = [BatchItem.model_validate_json(line) for line in lines]
    assert [item.ref for item in items] == [pair[2] for pair in PAIRS]
    assert [item.index for item in items] == list(range(len(PAIRS)))
    closing = BatchClosing.model_validate_json(last)
    assert (closing.complete, closing.count, closing.failed) == (True, len(PAIRS), 0)
    assert closing.digest == hashlib.sha256(b"".join(lines)).hexdigest()


@pytest.mark.parametrize("view", ["full", "decision"])
async def test_batch_and_single_answers_agree_byte_for_byte(seed_url: str, view: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        lines = await sent(client, ndjson(*PAIRS), f"?view={view}")
        for line, (first, second, ref) in zip(lines[:-1], PAIRS, strict=True):
            couple = {"first": SURFACES[first], "second": SURFACES[second], "view": view, **PLACE}
            single = await client.post("/v1/couples", json=couple)
            assert line.endswith(b'"ref":"%s","answer":%s}\n' % (ref.encode(), single.content))


async def test_every_answer_of_a_batch_has_an_address_that_lasts(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        first, _ = await sent(application.client, ndjson([0, 1]))
    answer = orjson.loads(first)["answer"]
    async with running(Settings(database_url=seed_url)) as application:
        stored = await application.client.get(answer["address"])
    assert orjson.loads(stored.content) == answer


async def test_a_document_gives_the_same_lines_as_ndjson(seed_url: str) -> None:
    document = orjson.dumps({"couples": PAIRS[:3], "surfaces": SURFACES, "defaults": PLACE})
    async with running(Settings(database_url=seed_url)) as application:
        lines = await sent(application.client, ndjson(*PAIRS[:3]))
        assert await sent(application.client, document, kind="application/json; charset=utf-8") == lines


async def test_one_bad_couple_spoils_only_its_own_line(seed_url: str) -> None:
    body = (
        ndjson(PAIRS[1], {"first": 0, "second": 1, "environment": "atlantis"}, [9, 9, "r"])
        + b"\n{oops\n[0,1]"
    )
    async with running(Settings(database_url=seed_url)) as application:
        *lines, last = await sent(application.client, body, "?view=decision")
    items = [BatchItem.model_validate_json(line) for line in lines]
    assert [item.error.type.rpartition("/")[2] if item.error else "" for item in items] == [
        "", "unknown-reference", "invalid-request", "invalid-request", "",
    ]  # fmt: skip
    assert items[1].error is not None
    assert items[1].error.status == 404
    assert BatchClosing.model_validate_json(last).failed == 3


async def test_a_long_batch_is_answered_in_portions(seed_url: str) -> None:
    couples = [[number % 4, (number // 4) % 4, number] for number in range(1500)]
    async with running(Settings(database_url=seed_url)) as application:
        *lines, last = await sent(application.client, ndjson(*couples), "?view=decision")
    assert [orjson.loads(line)["ref"] for line in lines] == list(range(1500))
    assert orjson.loads(last)["count"] == 1500


async def test_a_batch_that_comes_again_has_the_same_bytes_until_a_new_release(seed_url: str) -> None:
    body = ndjson(*PAIRS, [0, 9, "bad"], {"first": 0, "second": 1, "ref": 7, "design_life_years": 3})
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        first = await sent(client, body, "?view=decision")
        assert await sent(client, body, "?view=decision") == first
        shifted = await sent(client, body.replace(b"\n", b"\n\n[1,2]\n", 1), "?view=decision")
        assert [line.partition(b",")[2] for line in shifted[1:-1]] == [
            line.partition(b",")[2] for line in first[:-1]
        ]
        full = await sent(client, body)
        assert "surfaces" in orjson.loads(full[0])["answer"]
        publish_package(seed_url, small_package(), "2026.01.02-1")
        application.services.shelf.refresh()
        for line in (await sent(client, body, "?view=decision"))[:-1]:
            assert "answer" not in orjson.loads(line)


async def test_a_batch_of_known_and_new_couples_has_the_same_bytes_as_one_of_new_ones(seed_url: str) -> None:
    couples = [{"first": n % 4, "second": n // 4 % 4, "ref": n, "design_life_years": 1} for n in range(1100)]
    body = ndjson(*couples)
    async with running(Settings(database_url=seed_url, batch_cache_bytes=0)) as application:
        expected = await sent(application.client, body, "?view=decision")
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        await sent(client, ndjson(*couples[:600]), "?view=decision")  # the second portion is new in part
        for _ in range(2):
            assert await sent(client, body, "?view=decision") == expected


async def test_nothing_is_sent_to_a_caller_that_is_gone() -> None:
    told: list[Any] = []
    is_closed, enough = False, asyncio.Event()

    async def lines() -> AsyncGenerator[bytes]:
        nonlocal is_closed
        try:
            for number in range(10):
                await asyncio.sleep(0)
                yield b"%d\n" % number
        finally:
            is_closed = True

    async def receive() -> Message:
        await enough.wait()
        return {"type": "http.disconnect"}

    async def send(message: Message) -> None:
        told.append(message)
        if len(told) == 3:
            enough.set()

    await NdjsonResponse(lines())({"type": "http"}, receive, send)
    assert is_closed
    assert 3 <= len(told) < 8
    assert told[-1]["more_body"]


async def test_an_empty_batch_is_complete(client: httpx.AsyncClient) -> None:
    for body, kind in ((b"", NDJSON), (b'{"couples":[]}', "application/json")):
        (last,) = await sent(client, body, kind=kind)
        assert orjson.loads(last)["complete"] is True


async def test_a_batch_that_breaks_off_says_so(sqlite_url: str) -> None:
    # The rule of this release is none, so judging by it fails in a way that nobody foresaw.
    package = small_package()
    package["rules"] = [{**package["rules"][0], "trigger": "{}"}]
    publish_package(sqlite_url, package)
    couple = {"first": "S235JR", "second": {"material_id": "zinc-sheet"}, "environment": "harbour"}
    async with running(Settings(database_url=sqlite_url)) as application:
        (last,) = await sent(application.client, ndjson(couple))
    assert orjson.loads(last)["complete"] is False


async def test_refusals_come_before_any_line(client: httpx.AsyncClient, published_url: str) -> None:
    typed = {"Content-Type": NDJSON}
    problem(
        await client.post(PATH, content=b"x", headers={"Content-Type": "text/csv"}),
        415,
        "unsupported-media-type",
    )
    problem(await client.post(f"{PATH}?as_of=1999", content=b"", headers=typed), 404, "unknown-release")
    problem(await client.post(PATH, content=b'{"surfaces":1}', headers=typed), 400, "malformed-body")
    reader = bearer(issue_key(published_url, Scope.READ))
    problem(await client.post(PATH, content=b"", headers={**typed, **reader}), 403, "insufficient-scope")


async def test_bodies_of_batches_have_a_limit_of_their_own(published_url: str) -> None:
    settings = Settings(database_url=published_url, max_body_bytes=1024, max_batch_bytes=4096)
    typed = {"Content-Type": NDJSON}

    async def parts() -> Any:
        for _ in range(5):
            yield b"\n" * 1000

    async with running(settings) as application:
        client = application.client
        assert (await client.post(PATH, content=b"\n" * 4096, headers=typed)).status_code == 200
        for content in (b"\n" * 4097, parts()):
            refused = problem(await client.post(PATH, content=content, headers=typed), 413, "body-too-large")
            assert "4096" in refused["detail"]
