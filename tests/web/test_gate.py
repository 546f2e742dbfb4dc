"""Who may pass: keys, scopes and allowances."""

from __future__ import annotations

from contextlib import closing

import httpx
import pytest

from service.access import Scope, revoke_key
from service.settings import Settings
from service.storage import Database
from tests.factories.http import bearer, issue_key, problem, running

pytestmark = pytest.mark.anyio


async def test_without_a_key_only_open_paths_answer(published_url: str) -> None:
    async with running(Settings(database_url=published_url), key=None) as application:
        client = application.client
        for path in ("/healthz", "/readyz", "/docs", "/problems", "/v1/openapi.json"):
            assert (await client.get(path)).status_code == 200, path
        for path in ("/v1/materials", "/v1/materials/none", "/v1/nowhere", "/v1/answers/none"):
            response = await client.get(path)
            problem(response, 401, "missing-credentials")
            assert response.headers["www-authenticate"] == 'Bearer realm="faying"'


@pytest.mark.parametrize(
    "value", ["Bearer x", "bearer ", "Basic ZmF5OmZheQ==", "fay_local", f"Bearer fay_abcdefghjk_{'A' * 43}"]
)
async def test_a_wrong_key_is_refused_in_the_same_words(client: httpx.AsyncClient, value: str) -> None:
    response = await client.get("/v1/materials", headers={"Authorization": value})
    body = problem(response, 401, "invalid-credentials")
    assert body["detail"] == "The API key is unknown, expired or revoked."
    assert 'error="invalid_token"' in response.headers["www-authenticate"]


async def test_a_stored_key_opens_what_its_scopes_say(published_url: str) -> None:
    reader = issue_key(published_url, Scope.READ)
    async with running(Settings(database_url=published_url), reader) as application:
        assert (await application.client.get("/v1/materials")).status_code == 200
        response = await application.client.post("/v1/resolve", json={"texts": ["A4-80"]})
        problem(response, 403, "insufficient-scope")
        assert 'scope="couples:judge"' in response.headers["www-authenticate"]


async def test_a_revoked_key_is_refused_after_the_stated_seconds(published_url: str) -> None:
    key = issue_key(published_url, Scope.READ)
    async with running(Settings(database_url=published_url, key_cache_s=0), key) as application:
        assert (await application.client.get("/v1/materials")).status_code == 200
        with closing(Database.open(published_url)) as database, database.writing() as session:
            revoke_key(session, key.split("_")[1], by="test")
        problem(await application.client.get("/v1/materials"), 401, "invalid-credentials")


async def test_the_development_key_can_be_switched_off(published_url: str) -> None:
    settings = Settings.model_validate({"database_url": published_url, "development_key": ""})
    async with running(settings) as application:
        problem(await application.client.get("/v1/materials"), 401, "invalid-credentials")


async def test_the_allowance_is_told_and_ends(published_url: str) -> None:
    settings = Settings(database_url=published_url, requests_per_minute=60, request_burst=2)
    async with running(settings) as application:
        first = await application.client.get("/v1/limits")
        assert first.headers["ratelimit-policy"] == '"requests";q=2;w=2'
        assert first.headers["ratelimit"] == '"requests";r=1;t=1'
        await application.client.get("/v1/limits")
        refused = await application.client.get("/v1/limits")
        problem(refused, 429, "too-many-requests")
        assert refused.headers["retry-after"] == "1"
        assert refused.headers["ratelimit"].startswith('"requests";r=0')
        assert (await application.client.get("/healthz")).status_code == 200


async def test_guessing_keys_is_slowed_down_and_spares_the_others_behind_the_address(
    published_url: str,
) -> None:
    key = issue_key(published_url, Scope.READ)
    settings = Settings(database_url=published_url, refusals_per_minute=3)
    async with running(settings, key) as application:
        client = application.client
        assert (await client.get("/v1/materials")).status_code == 200
        for _ in range(3):
            wrong = f"fay_abcdefghjk_{'B' * 43}"
            problem(await client.get("/v1/limits", headers=bearer(wrong)), 401, "invalid-credentials")
        refused = await client.get("/v1/limits", headers=bearer(wrong))
        problem(refused, 429, "too-many-requests")
        assert int(refused.headers["retry-after"]) > 0
        assert (await client.get("/v1/materials")).status_code == 200


async def test_a_large_resolve_weighs_as_many_requests(published_url: str) -> None:
    settings = Settings(database_url=published_url, requests_per_minute=60, request_burst=10)
    async with running(settings) as application:
        response = await application.client.post("/v1/resolve", json={"texts": ["A4-80"] * 800})
        assert response.status_code == 200
        again = await application.client.post("/v1/resolve", json={"texts": ["A4-80"] * 800})
        problem(again, 429, "too-many-requests")
