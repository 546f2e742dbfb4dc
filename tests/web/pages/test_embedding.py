from __future__ import annotations

from xml.etree import ElementTree as ET

import httpx
import pytest

from service.web.pages.embedding import badge
from service.web.pages.wording import VERDICTS
from tests.factories.html import check_page


@pytest.mark.anyio
async def test_the_embedded_page_may_be_framed_and_runs_no_script(
    pages: httpx.AsyncClient, couple: dict[str, str]
) -> None:
    response = await pages.get("/embed", params=couple)
    page = check_page(response.text)
    assert "frame-ancestors *" in response.headers["content-security-policy"]
    assert response.headers["cross-origin-resource-policy"] == "cross-origin"
    assert page.all("script") == []
    assert "Conditional" in page.all("h1")[0].text
    assert any("as_of=" in link for link in page.links)


@pytest.mark.anyio
async def test_an_embedded_page_without_a_question_says_what_is_missing(pages: httpx.AsyncClient) -> None:
    response = await pages.get("/embed", params={"first": "A4-70"})
    assert response.status_code == 422
    assert "second" in check_page(response.text).all("main")[0].text


@pytest.mark.anyio
async def test_the_badge_is_an_image_of_the_verdict(pages: httpx.AsyncClient, couple: dict[str, str]) -> None:
    response = await pages.get("/badge.svg", params=couple)
    assert response.headers["content-type"].startswith("image/svg+xml")
    assert "Conditional" in response.text
    assert response.headers["cross-origin-resource-policy"] == "cross-origin"


@pytest.mark.parametrize("verdict", list(VERDICTS))
def test_a_badge_says_its_verdict_in_a_word(verdict: str) -> None:
    root = ET.fromstring(badge(verdict))  # noqa: S314 - our own
    assert root.get("aria-label") == VERDICTS[verdict].word
    assert "style" not in badge(verdict)
