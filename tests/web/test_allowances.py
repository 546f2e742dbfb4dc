"""Requests are taken from the key and from its tenant, large ones several times."""

from __future__ import annotations

import httpx
import pytest

from service.settings import Settings
from tests.factories.http import problem, running

pytestmark = pytest.mark.anyio


async def test_open_paths_count_for_the_address_alone(published_url: str) -> None:
    settings = Settings(database_url=published_url, tenant_requests_per_day=1)
    async with running(settings) as application:
        for _ in range(3):
            response = await application.client.get("/problems")
            assert response.status_code == 200
            assert "day" not in response.headers["ratelimit-policy"]


async def test_a_weight_is_refused_by_the_policy_that_it_exceeds(published_url: str) -> None:
    settings = Settings(database_url=published_url, tenant_requests_per_day=2, request_burst=1000)
    async with running(settings) as application:
        body = {"texts": ["A4-80"] * 900}
        assert (await application.client.post("/v1/resolve", json=body)).status_code == 429
        refused = await application.client.post("/v1/resolve", json=body)
        assert problem(refused, 429, "too-many-requests")["violated-policies"] == ["day"]


async def test_small_requests_count_once(client: httpx.AsyncClient) -> None:
    before = (await client.get("/v1/limits")).headers["ratelimit"]
    after = (await client.post("/v1/resolve", json={"texts": ["A4-80"]})).headers["ratelimit"]
    left = [int(field.split("r=")[1].split(";")[0]) for field in (before, after)]
    assert left[0] - left[1] in {0, 1}
