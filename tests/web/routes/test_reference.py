"""The API reference works without any other host."""

from __future__ import annotations

import re

import httpx
import pytest

from service.web.problems import KINDS
from tests.factories.http import problem

pytestmark = pytest.mark.anyio
HIGHEST_WEIGHT_BYTES = 150_000
REFERENCE = ("/docs", "/problems", "/v1/openapi.json")
"""What belongs to the reference; it also leads to the pages, which have tests of their own."""


async def test_every_page_is_reachable_and_asks_no_other_host(client: httpx.AsyncClient) -> None:
    waiting, seen = ["/docs"], set()
    while waiting:
        path = waiting.pop()
        response = await client.get(path)
        assert response.status_code == 200, path
        seen.add(path)
        if not response.headers["content-type"].startswith("text/html"):
            continue
        assert len(response.content) < HIGHEST_WEIGHT_BYTES, path
        assert "<script" not in response.text
        links = re.findall(r'(?:href|src)="([^"#]+)"', response.text)
        assert all(link.startswith("/") and not link.startswith("//") for link in links), path
        own = [link for link in links if link.startswith(REFERENCE)]
        waiting += [link for link in own if link not in seen and link not in waiting]
    assert "/docs/judge_couple" in seen
    assert "/v1/openapi.json" in seen
    assert {kind.type for kind in KINDS} <= seen


async def test_pages_allow_their_style_sheet_and_nothing_else(client: httpx.AsyncClient) -> None:
    policy = (await client.get("/docs")).headers["content-security-policy"]
    assert policy.startswith("default-src 'none'; style-src 'self';")
    assert (await client.get("/docs/reference.css")).headers["content-type"].startswith("text/css")


async def test_the_document_is_served_as_committed(client: httpx.AsyncClient) -> None:
    response = await client.get("/v1/openapi.json")
    assert response.headers["content-type"] == "application/json"
    assert response.json()["openapi"].startswith("3.1")
    again = await client.get("/v1/openapi.json", headers={"If-None-Match": response.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")


async def test_pages_that_do_not_exist_name_near_ones(client: httpx.AsyncClient) -> None:
    body = problem(await client.get("/docs/judge_cuople"), 404, "no-such-path")
    assert "/docs/judge_couple" in body["errors"][0]["suggestions"]
    body = problem(await client.get("/problems/bad-curser"), 404, "no-such-path")
    assert body["errors"][0]["suggestions"] == ["/problems/bad-cursor"]
