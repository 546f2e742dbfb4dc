"""Ways out over HTTP."""

from __future__ import annotations

from typing import Any

import httpx
import pytest

from service.settings import Settings
from tests.factories.http import problem, running

pytestmark = pytest.mark.anyio

COUPLE: dict[str, Any] = {
    "first": "EN AW-6082-T6",
    "second": "Cu-ETP",
    "environment": "urban-atmosphere",
    "functions": ["electrical bond"],
}


async def sent(client: httpx.AsyncClient, path: str, **changes: Any) -> dict[str, Any]:
    response = await client.post(path, json={**COUPLE, **changes})
    assert response.status_code == 200, response.text
    document: dict[str, Any] = response.json()
    return document


async def test_alternatives_are_ranked_and_counted(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        found = await sent(application.client, "/v1/alternatives", limit=5)
        assert 0 < len(found["alternatives"]) <= 5
        assert found["excluded"]


async def test_mitigations_tell_before_and_after(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        found = await sent(application.client, "/v1/mitigations")
        assert found["before"]
        assert found["infeasible"]


async def test_an_envelope_names_its_release(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        found = await sent(application.client, "/v1/envelopes")
        assert found["release"]["content_hash"] == application.services.shelf.current.content_hash


async def test_a_compound_tells_what_it_harms(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        assert (await client.get("/v1/compounds/sl-ps-inhib/compatibility")).json()["compound"]
        missing = await client.get("/v1/compounds/sl-ps-inhb/compatibility")
        assert missing.status_code == 404
        assert "sl-ps-inhib" in missing.text


async def test_faults_point_to_their_field(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        wrong = {**COUPLE, "constraints": {"materials": ["al-6082-t66"], "first": "material"}}
        found = problem(await client.post("/v1/alternatives", json=wrong), 404, "unknown-reference")
        assert "/constraints/materials/0" in str(found)
        unknown = problem(
            await client.post("/v1/mitigations", json={**COUPLE, "first": "unobtainium"}),
            404,
            "unknown-reference",
        )
        assert "/first" in str(unknown)
