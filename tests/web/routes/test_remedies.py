"""Ways out over HTTP."""

from __future__ import annotations

from typing import Any

import httpx
import pytest

from service.settings import Settings
from service.web.schemas.alternatives import AlternativesAnswer
from service.web.schemas.compatibility import CompatibilityAnswer
from service.web.schemas.envelopes import EnvelopeAnswer
from service.web.schemas.mitigations import MitigationsAnswer
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
        AlternativesAnswer.model_validate(found)


async def test_weights_are_the_callers_own(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        wanted = {"first": "nothing", "weights": {"cost": 3, "life": 1}}
        found = await sent(application.client, "/v1/alternatives", limit=1, constraints=wanted)
        assert found["weights"]["cost"] == 0.75
        assert found["weights"]["hazards"] == 0.0


async def test_a_search_without_a_way_out_keeps_its_shape(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        wanted = {"first": "nothing", "max_cost_tier": 0}
        found = await sent(
            application.client,
            "/v1/alternatives",
            environment="marine-atmosphere-0-100-m",
            functions=["structural"],
            constraints=wanted,
        )
        assert found["alternatives"] == []
        assert found["blocked_by"]
        AlternativesAnswer.model_validate(found)


async def test_doubts_about_the_reading_are_told(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        found = await sent(application.client, "/v1/mitigations", second="copper")
        assert isinstance(found["warnings"], list)
        assert all(set(warning) == {"code", "detail"} for warning in found["warnings"])


async def test_mitigations_tell_before_and_after(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        found = await sent(application.client, "/v1/mitigations")
        assert found["before"]
        assert found["infeasible"]
        assert all(row["verdict"] != "conditional" or row["conditions"] for row in found["mitigations"])
        MitigationsAnswer.model_validate(found)


async def test_an_envelope_names_its_release(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        found = await sent(application.client, "/v1/envelopes")
        assert found["release"]["content_hash"] == application.services.shelf.current.content_hash
        assert {member["side"] for member in found["members"]} == {"first", "second"}
        EnvelopeAnswer.model_validate(found)
        second = await sent(application.client, "/v1/envelopes", sides="second")
        assert {member["side"] for member in second["members"]} == {"second"}
        assert second["digest"] != found["digest"]


async def test_a_compound_tells_what_it_harms(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        told = (await client.get("/v1/compounds/sl-ps-inhib/compatibility")).json()
        assert told["compound"]["id"] == "sl-ps-inhib"
        CompatibilityAnswer.model_validate(told)
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
        other = problem(
            await client.post("/v1/mitigations", json={**COUPLE, "second": "unobtainium"}),
            404,
            "unknown-reference",
        )
        assert "/second" in str(other)
