"""Reading of drawing texts over HTTP."""

from __future__ import annotations

from typing import Any

import httpx
import pytest

from service.settings import Settings
from service.web.schemas.resolve import ResolveResponse
from tests.factories.http import problem, running

pytestmark = pytest.mark.anyio


async def resolve(client: httpx.AsyncClient, *texts: Any) -> ResolveResponse:
    response = await client.post("/v1/resolve", json={"texts": list(texts)})
    assert response.status_code == 200, response.text
    return ResolveResponse.model_validate_json(response.content)


async def test_texts_are_read_in_order_with_the_callers_marks(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        found = await resolve(
            client,
            "EN AW-6082-T6, anodized 15 µm",
            {"text": "unobtainium", "ref": "item 2"},
            {"material": "S235JR", "finish": "Fe//Zn8//C", "ref": "item 3"},
            "C4",
        )
        first, second, third, fourth = found.readings
        assert (found.count, found.unknown) == (4, 1)
        assert first.candidates[0].material_id == "al-6082-t6"
        assert first.candidates[0].layers[0].thickness_um == 15
        assert all(0 <= span.start < span.end <= len(first.text) for span in first.candidates[0].spans)
        assert (second.match, second.ref, second.candidates) == ("unknown", "item 2", ())
        assert third.ref == "item 3"
        assert fourth.match == "ambiguous"
        assert fourth.question
        assert found.ambiguous >= 1


async def test_the_most_texts_are_read_and_one_more_is_refused(client: httpx.AsyncClient) -> None:
    found = await resolve(client, *["S235JR"] * 10_000)
    assert found.count == 10_000
    response = await client.post("/v1/resolve", json={"texts": ["S235JR"] * 10_001})
    problem(response, 422, "invalid-request")


@pytest.mark.parametrize(
    ("texts", "pointer"),
    [
        ([], "/texts"),
        ([""], "/texts/0/text"),
        (["a", {"text": "a", "material": "b"}], "/texts/1"),
        ([{}], "/texts/0"),
        ([{"ref": "x"}], "/texts/0"),
        (["x" * 2001], "/texts/0/text"),
        ([5], "/texts/0"),
    ],
)
async def test_texts_that_are_none_are_refused(
    client: httpx.AsyncClient, texts: list[Any], pointer: str
) -> None:
    body = problem(await client.post("/v1/resolve", json={"texts": texts}), 422, "invalid-request")
    assert body["errors"][0]["pointer"] == pointer


async def test_an_unknown_release_is_a_problem(client: httpx.AsyncClient) -> None:
    response = await client.post("/v1/resolve", json={"texts": ["a"], "as_of": "1999.01.01-1"})
    problem(response, 404, "unknown-release")
