"""Every answer of every operation and every page is safe for a browser, whatever its status."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator
from http.cookies import SimpleCookie

import httpx
import pytest
from fastapi.routing import APIRoute

from service.access import Scope
from service.settings import Settings
from service.web.api import assemble
from tests.contract.walk import OPERATIONS
from tests.factories.http import Running, issue_key, publish_package, running

pytestmark = pytest.mark.anyio

GENEROUS = 1_000_000
PAGES = sorted(
    route.path
    for route in assemble().routes
    if isinstance(route, APIRoute) and not route.include_in_schema and "GET" in (route.methods or ())
)
SHOWN_ELSEWHERE = {"/embed", "/badge.svg"}
"""What other sites may show inside theirs; nothing in it acts."""


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture
async def application(sqlite_url: str, anyio_backend: str) -> AsyncIterator[Running]:
    publish_package(sqlite_url)
    settings = Settings(
        database_url=sqlite_url, requests_per_minute=GENEROUS, request_burst=GENEROUS, log_level="WARNING"
    )
    async with running(settings) as started:
        yield started


def complaints(response: httpx.Response) -> list[str]:
    """List what a browser could be made to do with an answer."""
    headers = response.headers
    policies = headers.get_list("content-security-policy")
    found = [] if len(policies) == 1 else [f"{len(policies)} content policies"]
    policy = dict(part.strip().partition(" ")[::2] for part in policies[0].split(";")) if policies else {}
    is_ours_alone = response.request.url.path not in SHOWN_ELSEWHERE
    wanted = {"x-content-type-options": "nosniff"}
    if is_ours_alone:
        wanted["cross-origin-resource-policy"] = "same-origin"
    found += [name for name, value in wanted.items() if headers.get(name) != value]
    if policy.get("default-src") != "'none'":
        found.append("loads what it does not name")
    if "unsafe" in " ".join(policies) or "http" in " ".join(policies):
        found.append("runs scripts that are written into it, or of elsewhere")
    if is_ours_alone and policy.get("frame-ancestors") != "'none'":
        found.append("may be shown inside another page")
    if headers.get("referrer-policy") not in {"no-referrer", "same-origin"}:
        found.append("tells other sites where it was")
    if headers["content-type"].startswith("text/html") and "cross-origin-opener-policy" not in headers:
        found.append("can be held on to by a window of another site")
    if "server" in headers or "x-powered-by" in headers:
        found.append("says what it is made with")
    return found


async def test_every_operation_answers_safely(application: Running) -> None:
    found = {}
    for operation in OPERATIONS:
        for authorization in ("", application.client.headers["authorization"]):
            response = await application.client.request(
                operation.method, operation.address(), headers={"Authorization": authorization}
            )
            if response.status_code != 204 and (wrong := complaints(response)):
                found[operation.name] = wrong
    assert found == {}


async def test_every_page_answers_safely(application: Running) -> None:
    assert len(PAGES) > 15
    found = {}
    for path in PAGES:
        response = await application.client.get(re.sub(r"\{[^}]+\}", "none", path))
        assert response.status_code < 500, path
        if "content-type" in response.headers and (wrong := complaints(response)):
            found[path] = wrong
    assert found == {}


async def test_pages_hold_no_script_or_style_that_the_policy_would_refuse(application: Running) -> None:
    for path in PAGES:
        response = await application.client.get(re.sub(r"\{[^}]+\}", "none", path))
        if response.headers.get("content-type", "").startswith("text/html"):
            assert not re.search(r"<script(?![^>]*\ssrc=)|\son[a-z]+=|javascript:|\sstyle=", response.text), (
                path
            )


async def test_the_cookie_of_a_session_is_for_this_service_alone(sqlite_url: str) -> None:
    publish_package(sqlite_url)
    key = issue_key(sqlite_url, Scope.READ, Scope.JUDGE)
    async with running(Settings(database_url=sqlite_url), None) as started:
        response = await started.client.post("https://faying.test/sign-in", data={"key": key})
    assert response.status_code == 303
    (cookie,) = SimpleCookie(response.headers["set-cookie"]).values()
    assert (cookie["httponly"], cookie["secure"], cookie["samesite"].lower()) == (True, True, "strict")
    assert key not in response.headers["set-cookie"]


async def test_no_other_site_can_read_answers_or_send_forms(application: Running) -> None:
    foreign = {"Origin": "https://elsewhere.test", "Sec-Fetch-Site": "cross-site"}
    preflight = await application.client.options(
        "/v1/couples", headers={**foreign, "Access-Control-Request-Method": "POST"}
    )
    answer = await application.client.get("/v1/materials", headers=foreign)
    for response in (preflight, answer):
        assert not any(name.startswith("access-control-") for name in response.headers)
    assert (await application.client.post("/sign-out", headers=foreign)).status_code == 403
