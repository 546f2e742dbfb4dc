"""Provenance as callers get it: each evidence item leads to its source, its record and what was not used."""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import Any

import pytest

from service.settings import Settings
from tests.factories.http import Running, running

pytestmark = pytest.mark.anyio

PLACE = "marine-atmosphere-0-100-m"
COUPLES = (
    ("EN AW-6082-T6, anodized 15 µm", "A4-80", PLACE),
    ("S235JR", "CW024A", "seawater-quiescent"),
    ("CuZn39Pb3, Ni 5 µm", "EN AW-5083", PLACE),
)
PATHS = {"limits": "permissible-differences"}
CSL_TYPES = {
    "article-journal", "book", "chapter", "document", "dataset", "legislation", "manuscript", "pamphlet",
    "paper-conference", "report", "standard", "thesis", "webpage", "personal_communication", "article",
}  # fmt: skip
"""Words of the Citation Style Language for kinds of publications."""


@pytest.fixture
async def seeded(seed_url: str, anyio_backend: str) -> AsyncIterator[Running]:
    async with running(Settings(database_url=seed_url)) as application:
        yield application


async def get(held: Running, path: str, **query: str) -> Any:
    response = await held.client.get(path, params=query)
    assert response.status_code == 200, response.text
    return response.json()


async def test_every_item_of_evidence_can_be_followed_to_its_source(seeded: Running) -> None:
    set_aside = 0
    for first, second, environment in COUPLES:
        answer = await get(seeded, "/v1/couples", first=first, second=second, environment=environment)
        assert len(answer["evidence"]) >= 5
        witnesses = {finding["witness"] for finding in answer["findings"]}
        for item in answer["evidence"]:
            record = await get(seeded, f"/v1/{PATHS.get(item['table'], item['table'])}/{item['id']}")
            for name in ("source_id", "locator", "obtained"):
                assert item[name] == record[name], item["id"]
            assert record.get("conditions", "") in item["conditions"]
            assert item["grade"] in {"A", "B", "C", "D", "E"}
            assert set(item["used_by"]) <= witnesses
            assert item["used_by"]
            await follow(seeded, item)
            set_aside += len(item["not_used"])
            for rival in item["not_used"]:
                assert rival["reason"].strip()
                assert rival["value"].strip()
                await get(seeded, f"/v1/{PATHS.get(item['table'], item['table'])}/{rival['id']}")
    assert set_aside > 0


async def follow(held: Running, item: dict[str, Any]) -> None:
    """The line and the CSL-JSON both name the source that the API lists."""
    source = await get(held, f"/v1/sources/{item['source_id']}")
    assert item["csl"]["id"] == item["source_id"]
    assert item["csl"]["type"] in CSL_TYPES
    if source["kind"] in {"memory", "practice"}:
        assert item["citation"]
        return
    assert item["csl"]["title"] == source["title"]
    assert source["title"] in item["citation"]
    if item["locator"]:
        assert item["locator"] in item["citation"]
    if source["doi"]:
        assert item["csl"]["DOI"] == source["doi"]
        assert source["doi"] in item["citation"]
