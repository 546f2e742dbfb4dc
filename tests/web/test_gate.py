"""Who may pass: keys, scopes and allowances."""

from __future__ import annotations

import time
from collections.abc import AsyncIterator, Iterator
from contextlib import closing

import anyio
import httpx
import pytest
from sqlalchemy import event

from service.access import Scope, add_tenant, list_keys, revoke_key, set_client_blocked
from service.settings import Settings
from service.storage import Database
from tests.factories.http import Running, bearer, issue_key, problem, running
from tests.factories.issuer import AUDIENCE, ISSUER, Issuer, public_jwk, rsa_key, serving, token_settings

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
    assert body["detail"] == "The API key or access token is unknown, expired or revoked."
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


async def test_every_process_refuses_a_revoked_key_within_the_stated_seconds(published_url: str) -> None:
    """Two applications stand for two processes: neither of them revoked the key itself."""
    key, stated_s = issue_key(published_url, Scope.READ), 1.0
    settings = Settings(database_url=published_url, key_cache_s=stated_s)
    async with running(settings, key) as first, running(settings, key) as second:
        for application in (first, second):
            assert (await application.client.get("/v1/limits")).status_code == 200
        with closing(Database.open(published_url)) as database, database.writing() as session:
            revoke_key(session, key.split("_")[1], by="test")
        revoked_s = time.monotonic()
        for application in (first, second):
            while (await application.client.get("/v1/limits")).status_code == 200:
                assert time.monotonic() - revoked_s < stated_s + 0.5
                await anyio.sleep(0.02)


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


async def test_what_exceeded_is_named_in_the_problem(published_url: str) -> None:
    settings = Settings(database_url=published_url, requests_per_minute=60, request_burst=1)
    async with running(settings) as application:
        await application.client.get("/v1/limits")
        refused = await application.client.get("/v1/limits")
        assert problem(refused, 429, "too-many-requests")["violated-policies"] == ["requests"]
        assert refused.headers["ratelimit"] == f'"requests";r=0;t={refused.headers["retry-after"]}'


async def test_the_keys_of_a_tenant_share_its_daily_quota(published_url: str) -> None:
    keys = [
        issue_key(published_url, Scope.READ, tenant_id=tenant) for tenant in ("harbour", "harbour", "quay")
    ]
    settings = Settings(database_url=published_url, tenant_requests_per_day=3)
    async with running(settings, None) as application:
        get = application.client.get
        for key in (keys[0], keys[1], keys[0]):
            response = await get("/v1/limits", headers=bearer(key))
            assert response.status_code == 200
        assert '"day";q=3;w=86400' in response.headers["ratelimit-policy"]
        refused = await get("/v1/limits", headers=bearer(keys[1]))
        assert problem(refused, 429, "too-many-requests")["violated-policies"] == ["day"]
        assert int(refused.headers["retry-after"]) > 3600
        assert (await get("/v1/limits", headers=bearer(keys[2]))).status_code == 200


async def test_a_batch_weighs_in_the_quota_too(published_url: str) -> None:
    settings = Settings(database_url=published_url, tenant_requests_per_day=5)
    async with running(settings) as application:
        for status in (200, 429):
            response = await application.client.post("/v1/resolve", json={"texts": ["A4-80"] * 400})
            assert response.status_code == status


def about_callers(application: Running) -> list[str]:
    """Collect statements on keys and tenants from now on; jobs work on other tables beside the requests."""
    statements: list[str] = []

    def note(_connection: object, _cursor: object, sql: str, *_: object) -> None:
        if "api_keys" in sql or "tenants" in sql:
            statements.append(sql)

    event.listen(application.services.database.engine, "before_cursor_execute", note)
    return statements


async def test_uses_of_a_key_are_noted_without_sql(published_url: str) -> None:
    key = issue_key(published_url, Scope.READ)
    async with running(Settings(database_url=published_url), key) as application:
        await application.client.get("/v1/limits")
        statements = about_callers(application)
        for _ in range(5):
            assert (await application.client.get("/v1/limits")).status_code == 200
        assert statements == []
    with closing(Database.open(published_url)) as database, database.reading() as session:
        (stored,) = (each for each in list_keys(session) if each.prefix == key.split("_")[1])
    assert stored.last_used_at is not None


@pytest.fixture
def issuer() -> Iterator[Issuer]:
    with serving(Issuer()) as started:
        yield started


@pytest.fixture
async def trusting(published_url: str, issuer: Issuer, anyio_backend: str) -> AsyncIterator[Running]:
    """A service that accepts tokens, forgets at once what it checked, and knows one tenant."""
    with closing(Database.open(published_url)) as database, database.writing() as session:
        add_tenant(session, "harbour", "Port of Skerrivoe", by="test")
    settings = Settings.model_validate(
        {"database_url": published_url, "key_cache_s": 0, "token_keys_s": 0.001, **token_settings(issuer)}
    )
    async with running(settings, None) as application:
        yield application


async def test_a_token_opens_what_its_scopes_say(trusting: Running, issuer: Issuer) -> None:
    token = bearer(issuer.token(scope="catalogue:read"))
    assert (await trusting.client.get("/v1/materials", headers=token)).status_code == 200
    response = await trusting.client.post("/v1/resolve", json={"texts": ["A4-80"]}, headers=token)
    problem(response, 403, "insufficient-scope")


async def test_a_token_is_refused_in_the_words_of_a_key(trusting: Running, issuer: Issuer) -> None:
    details = set()
    for credential in (
        issuer.token(aud="https://elsewhere.test"),
        issuer.token(tenant="nowhere"),
        "eyJ",
        f"fay_abcdefghjk_{'A' * 43}",
    ):
        response = await trusting.client.get("/v1/materials", headers=bearer(credential))
        details.add(problem(response, 401, "invalid-credentials")["detail"])
    assert len(details) == 1


async def test_a_blocked_client_is_refused(trusting: Running, issuer: Issuer, published_url: str) -> None:
    token = bearer(issuer.token())
    assert (await trusting.client.get("/v1/materials", headers=token)).status_code == 200
    with closing(Database.open(published_url)) as database, database.writing() as session:
        set_client_blocked(session, "plm", is_blocked=True, by="test")
    problem(await trusting.client.get("/v1/materials", headers=token), 401, "invalid-credentials")


async def test_the_issuer_may_change_its_keys(trusting: Running, issuer: Issuer) -> None:
    old = bearer(issuer.token())
    assert (await trusting.client.get("/v1/materials", headers=old)).status_code == 200
    issuer.keys["next"] = rsa_key("next")
    issuer.published = [public_jwk(rsa_key("next"), "next")]
    new = bearer(issuer.token(key_id="next"))
    assert (await trusting.client.get("/v1/materials", headers=new)).status_code == 200
    problem(await trusting.client.get("/v1/materials", headers=old), 401, "invalid-credentials")


async def test_an_issuer_out_of_reach_is_no_fault_of_the_token(published_url: str) -> None:
    away = Issuer()
    away.url = "http://127.0.0.1:9/keys"
    key = issue_key(published_url, Scope.READ)
    settings = Settings.model_validate({"database_url": published_url, **token_settings(away)})
    async with running(settings, None) as application:
        refused = await application.client.get("/v1/materials", headers=bearer(away.token()))
        problem(refused, 503, "not-ready")
        assert int(refused.headers["retry-after"]) > 0
        assert (await application.client.get("/v1/materials", headers=bearer(key))).status_code == 200


async def test_the_same_token_is_checked_once_and_asks_no_database(
    published_url: str, issuer: Issuer
) -> None:
    issue_key(published_url)
    settings = Settings.model_validate({"database_url": published_url, **token_settings(issuer)})
    token = bearer(issuer.token())
    async with running(settings, None) as application:
        await application.client.get("/v1/limits", headers=token)
        statements = about_callers(application)
        for _ in range(5):
            assert (await application.client.get("/v1/limits", headers=token)).status_code == 200
        assert statements == []
    assert issuer.looks == 1


async def test_without_an_issuer_no_token_is_believed(client: httpx.AsyncClient) -> None:
    response = await client.get("/v1/materials", headers=bearer(Issuer().token()))
    problem(response, 401, "invalid-credentials")
    problem(await client.get("/.well-known/oauth-protected-resource"), 404, "no-such-path")


async def test_clients_can_find_the_issuer(trusting: Running) -> None:
    told = (await trusting.client.get("/.well-known/oauth-protected-resource")).json()
    assert (told["resource"], told["authorization_servers"]) == (AUDIENCE, [ISSUER])
    assert set(told["scopes_supported"]) == set(Scope)


async def test_the_served_document_names_the_endpoint_for_tokens(published_url: str, issuer: Issuer) -> None:
    endpoint = "https://issuer.skerrivoe.test/token"
    more = token_settings(issuer, token_endpoint=endpoint)
    async with running(Settings.model_validate({"database_url": published_url, **more})) as application:
        document = (await application.client.get("/v1/openapi.json")).json()
    flows = document["components"]["securitySchemes"]["AccessToken"]["flows"]
    assert flows["clientCredentials"]["tokenUrl"] == endpoint
