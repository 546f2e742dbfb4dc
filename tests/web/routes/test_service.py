"""The service about itself."""

from __future__ import annotations

import time

import anyio
import httpx
import pytest

from service.settings import Settings
from service.web.routes import service
from service.web.schemas.service import Health, Readiness, ServiceLimits
from tests.factories.http import problem, publish_package, running

pytestmark = pytest.mark.anyio


async def test_the_process_is_alive(client: httpx.AsyncClient) -> None:
    response = await client.get("/healthz")
    assert Health.model_validate_json(response.content).status == "alive"
    assert response.headers["cache-control"] == "no-store"


async def test_a_service_with_a_release_is_ready(client: httpx.AsyncClient) -> None:
    response = await client.get("/readyz")
    assert response.status_code == 200
    assert Readiness.model_validate_json(response.content).status == "ready"


async def test_a_service_without_a_release_starts_and_takes_up_the_first(sqlite_url: str) -> None:
    settings = Settings(database_url=sqlite_url, release_poll_s=0.01)
    async with running(settings) as application:
        client = application.client
        response = await client.get("/readyz")
        assert response.status_code == 503
        readiness = Readiness.model_validate_json(response.content)
        assert (readiness.status, readiness.checks[0].is_ready) == ("not ready", False)
        problem(await client.get("/v1/materials"), 503, "nothing-published")
        publish_package(sqlite_url)
        for _ in range(200):
            await anyio.sleep(0.02)
            if (await client.get("/readyz")).status_code == 200:
                break
        assert (await client.get("/v1/materials")).status_code == 200


async def test_a_service_without_its_database_answers_and_says_so(
    client: httpx.AsyncClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    def hang(_database: object) -> dict[str, object]:
        time.sleep(0.2)
        return {}

    monkeypatch.setattr(service, "database_check", hang)
    monkeypatch.setattr(service, "DATABASE_PATIENCE_S", 0.01)
    response = await client.get("/readyz")
    assert response.status_code == 200
    assert response.json()["status"] == "degraded"
    assert (await client.get("/v1/materials")).status_code == 200


async def test_limits_are_those_of_the_settings(client: httpx.AsyncClient) -> None:
    response = await client.get("/v1/limits")
    limits = ServiceLimits.model_validate_json(response.content)
    assert limits.request_body_bytes == Settings().max_body_bytes
    assert limits.key_revocation_s == Settings().key_cache_s
    again = await client.get("/v1/limits", headers={"If-None-Match": response.headers["etag"]})
    assert again.status_code == 304


async def test_parameters_that_mean_nothing_are_refused(client: httpx.AsyncClient) -> None:
    problem(await client.get("/v1/limits?x=1"), 422, "invalid-request")
    problem(await client.get("/healthz?x=1"), 422, "invalid-request")
