"""What is open to everybody, and how somebody signs in where nothing else is."""

from __future__ import annotations

from collections.abc import AsyncIterator
from dataclasses import dataclass

import httpx
import pytest

from service.settings import Settings
from service.web.pages.house import _target
from service.web.pages.sessions import COOKIE
from tests.factories.html import check_page
from tests.factories.http import issue_key, running

pytestmark = pytest.mark.anyio
EVERYWHERE = "0.0.0.0"  # noqa: S104 - nothing listens; it only means that others could connect


@dataclass(frozen=True)
class Locked:
    client: httpx.AsyncClient
    key: str


@pytest.fixture
async def locked(published_url: str, anyio_backend: str) -> AsyncIterator[Locked]:
    key = issue_key(published_url)
    async with running(Settings(database_url=published_url, host=EVERYWHERE), key=None) as application:
        yield Locked(application.client, key)


async def sign_in(locked: Locked, key: str, target: str = "/matrix") -> httpx.Response:
    return await locked.client.post("/sign-in", data={"key": key, "next": target})


async def test_the_guide_is_open(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/guide")).text)
    assert "/docs" in page.links
    assert "http://faying.test/v1/couples" in page.all("pre")[0].text


async def test_assets_may_be_kept_for_ever_under_their_version(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/guide")).text)
    sheet = page.all("link", rel="stylesheet")[0].attributes["href"]
    response = await pages.get(sheet)
    assert "?v=" in sheet
    assert "immutable" in response.headers["cache-control"]
    assert response.headers["content-type"].startswith("text/css")
    assert ".ramp-8" in response.text
    assert (await pages.get("/assets/faying.jss")).status_code == 404


@pytest.mark.parametrize("address", ["/", "/ask?first=A4-70", "/matrix", "/bom", "/knowledge", "/embed"])
async def test_a_stranger_is_asked_to_sign_in(locked: Locked, address: str) -> None:
    response = await locked.client.get(address)
    assert response.status_code == 303
    assert response.headers["location"].startswith("/sign-in?next=%2F")
    check_page((await locked.client.get(response.headers["location"])).text)


async def test_a_key_opens_the_pages_and_stays_out_of_the_cookie(locked: Locked) -> None:
    response = await sign_in(locked, locked.key)
    assert (response.status_code, response.headers["location"]) == (303, "/matrix")
    cookie = response.headers["set-cookie"]
    assert locked.key not in cookie
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie
    assert "Secure" not in cookie
    page = check_page((await locked.client.get("/")).text)
    assert page.all("form", action="/sign-out")


async def test_signing_out_ends_the_session(locked: Locked) -> None:
    await sign_in(locked, locked.key)
    session = locked.client.cookies[COOKIE]
    await locked.client.post("/sign-out")
    response = await locked.client.get("/", headers={"Cookie": f"{COOKIE}={session}"})
    assert response.status_code == 303


@pytest.mark.parametrize("key", ["", "nonsense", "fay_abcdefghij_" + "x" * 43])
async def test_a_wrong_key_is_refused(locked: Locked, key: str) -> None:
    response = await sign_in(locked, key)
    assert response.status_code == 401
    assert "not valid" in check_page(response.text).all("p", role="alert")[0].text
    assert "set-cookie" not in response.headers


async def test_an_invented_session_opens_nothing(locked: Locked) -> None:
    assert (await locked.client.get("/", headers={"Cookie": f"{COOKIE}=invented"})).status_code == 303


async def test_guessing_keys_has_to_wait(published_url: str) -> None:
    settings = Settings(database_url=published_url, refusals_per_minute=2, host=EVERYWHERE)
    async with running(settings, key=None) as application:
        codes = [
            (await application.client.post("/sign-in", data={"key": f"wrong-{n}"})).status_code
            for n in range(4)
        ]
    assert codes[:2] == [401, 401]
    assert codes[-1] == 429


async def test_a_key_without_the_right_is_told_so(published_url: str) -> None:
    from service.access import Scope

    key = issue_key(published_url, Scope.READ)
    async with running(Settings(database_url=published_url, host=EVERYWHERE), key=None) as application:
        await sign_in(Locked(application.client, key), key)
        response = await application.client.get("/matrix")
        assert response.status_code == 403
        assert Scope.JUDGE in check_page(response.text).all("main")[0].text
        assert (await application.client.get("/knowledge")).status_code == 200


async def test_an_operator_may_open_the_pages(published_url: str) -> None:
    settings = Settings(database_url=published_url, pages_open=True, host=EVERYWHERE)
    async with running(settings, key=None) as application:
        assert (await application.client.get("/")).status_code == 200
        assert (await application.client.get("/v1/materials")).status_code == 401


@pytest.mark.parametrize(
    ("wanted", "target"),
    [
        ("/matrix?a=b", "/matrix?a=b"),
        ("", "/"),
        (None, "/"),
        ("https://elsewhere.example/", "/"),
        ("//elsewhere.example/", "/"),
        ("/\\elsewhere.example", "/"),
        ("javascript:alert(1)", "/"),
    ],
)
def test_signing_in_leads_to_a_page_of_ours(wanted: str | None, target: str) -> None:
    assert _target(wanted) == target
