"""The layer in front: ids, headers, sizes, and failures nobody foresaw."""

from __future__ import annotations

import json
from collections.abc import AsyncIterator
from uuid import UUID

import httpx
import pytest

from service.settings import Settings
from service.web.shelf import ReleaseShelf
from tests.factories.http import Running, problem, running

pytestmark = pytest.mark.anyio


async def test_every_response_has_an_id_that_a_caller_may_choose(client: httpx.AsyncClient) -> None:
    chosen = "0b5d7c4e-3a53-4a3b-9a55-3f0c2f8f8d11"
    response = await client.get("/v1/limits", headers={"X-Request-Id": chosen})
    assert response.headers["x-request-id"] == chosen
    other = await client.get("/v1/limits", headers={"X-Request-Id": "<script>"})
    assert UUID(other.headers["x-request-id"]).version == 4


@pytest.mark.parametrize("path", ["/v1/limits", "/healthz", "/docs", "/nowhere", "/v1/materials/none"])
async def test_every_response_is_safe_for_a_browser(client: httpx.AsyncClient, path: str) -> None:
    headers = (await client.get(path)).headers
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers.get_list("content-security-policy")[0].startswith("default-src 'none'")
    assert len(headers.get_list("content-security-policy")) == 1
    assert "strict-transport-security" not in headers


async def test_https_is_asked_to_stay(client: httpx.AsyncClient) -> None:
    headers = (await client.get("https://faying.test/healthz")).headers
    assert headers["strict-transport-security"].startswith("max-age=")


async def test_head_is_get_without_the_body(client: httpx.AsyncClient) -> None:
    get, head = await client.get("/v1/materials"), await client.head("/v1/materials")
    assert head.status_code == 200
    assert head.content == b""
    assert head.headers["content-length"] == get.headers["content-length"]
    assert head.headers["etag"] == get.headers["etag"]


async def test_an_address_too_long_is_a_problem(client: httpx.AsyncClient) -> None:
    problem(await client.get("/v1/materials", params={"q": "x" * 50_000}), 414, "target-too-long")


async def test_a_body_that_says_it_is_too_large_is_refused_unread(started: Running) -> None:
    body = b"x" * (10 * 1024 * 1024)
    response = await started.client.post("/v1/couples", content=body)
    problem(response, 413, "body-too-large")


async def test_a_body_that_does_not_say_how_large_it_is_is_refused_at_the_limit(started: Running) -> None:
    sent = 0

    async def stream() -> AsyncIterator[bytes]:
        nonlocal sent
        for _ in range(160):
            sent += 65536
            yield b" " * 65536

    headers = {"Content-Type": "application/json"}
    problem(
        await started.client.post("/v1/couples", content=stream(), headers=headers), 413, "body-too-large"
    )
    assert sent <= started.services.settings.max_body_bytes + 2 * 65536


async def test_a_length_that_is_no_number_is_refused(client: httpx.AsyncClient) -> None:
    response = await client.post("/v1/couples", content=b"{}", headers={"Content-Length": "two"})
    problem(response, 400, "malformed-body")


async def test_an_unforeseen_failure_is_a_problem_without_its_reasons(
    published_url: str, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fail(_self: ReleaseShelf, _label: str | None) -> None:
        message = "the secret reason"
        raise ZeroDivisionError(message)

    monkeypatch.setattr(ReleaseShelf, "at_hand", fail)
    async with running(Settings(database_url=published_url)) as application:
        response = await application.client.get("/v1/materials")
    problem(response, 500, "internal")
    assert "secret" not in response.text
    assert any(record.exc_info for record in caplog.records)


async def test_requests_are_logged_with_their_facts_and_without_secrets(
    published_url: str, capfd: pytest.CaptureFixture[str]
) -> None:
    async with running(Settings(database_url=published_url)) as application:
        response = await application.client.get("/v1/materials?q=zinc")
    captured = capfd.readouterr().err
    lines = [json.loads(line) for line in captured.splitlines()]
    (entry,) = [line for line in lines if line["message"] == "request"]
    assert entry["request_id"] == response.headers["x-request-id"]
    assert (entry["method"], entry["path"], entry["status"]) == ("GET", "/v1/materials", 200)
    assert entry["key_id"] == "development"
    assert "protects-nothing" not in captured


async def test_slow_requests_are_pointed_out(published_url: str, capfd: pytest.CaptureFixture[str]) -> None:
    async with running(Settings(database_url=published_url, slow_request_ms=0.000001)) as application:
        await application.client.get("/healthz")
    assert '"slow request"' in capfd.readouterr().err
