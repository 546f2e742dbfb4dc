from __future__ import annotations

import httpx
import pytest

from service.settings import Settings
from tests.factories.html import check_page
from tests.factories.http import running

pytestmark = pytest.mark.anyio


async def test_failures_are_pages(pages: httpx.AsyncClient) -> None:
    response = await pages.get("/knowledge/materials/al-6082-t7")
    assert response.status_code == 404
    page = check_page(response.text)
    assert "Did you mean" in page.all("main")[0].text
    assert "al-6082-t6" in page.all("main")[0].text


async def test_a_surface_that_is_not_known_cannot_be_changed(
    pages: httpx.AsyncClient, couple: dict[str, str]
) -> None:
    response = await pages.get("/ask/mitigations", params={**couple, "first": "no such metal"})
    assert response.status_code in {404, 422}
    check_page(response.text)


async def test_before_the_first_release_the_pages_say_so(sqlite_url: str) -> None:
    async with running(Settings(database_url=sqlite_url), key=None) as application:
        response = await application.client.get("/")
    assert response.status_code == 503
    assert "No release" in check_page(response.text).all("h1")[0].text


async def test_an_unknown_release_is_told(pages: httpx.AsyncClient, couple: dict[str, str]) -> None:
    response = await pages.get("/ask", params={**couple, "as_of": "1999.01.01-1"})
    assert response.status_code == 404
    check_page(response.text)
