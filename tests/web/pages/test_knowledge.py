from __future__ import annotations

import httpx
import pytest

from service.web.pages.shown_records import TABLES
from tests.factories.html import Page, check_page
from tests.factories.http import LABEL

pytestmark = pytest.mark.anyio


async def test_all_tables_are_there(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/knowledge")).text)
    assert {f"/knowledge/{table}" for table in TABLES} <= set(page.links)


def records_of(page: Page, table: str) -> set[str]:
    """Addresses of the records that a page lists."""
    start = f"/knowledge/{table}/"
    return {link for link in page.links if link.startswith(start) and link != f"{start}new"}


async def test_a_search_goes_through_all_tables(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/knowledge", params={"q": "6082"})).text)
    assert "/knowledge/materials/al-6082-t6" in page.links
    nothing = check_page((await pages.get("/knowledge", params={"q": "zzzz"})).text)
    assert "Nothing." in nothing.all("main")[0].text


@pytest.mark.parametrize("table", list(TABLES))
async def test_every_table_and_its_first_record_have_a_page(pages: httpx.AsyncClient, table: str) -> None:
    page = check_page((await pages.get(f"/knowledge/{table}")).text)
    record = min(records_of(page, table))
    shown = check_page((await pages.get(record)).text)
    assert shown.all("dt")


async def test_a_long_table_has_pages(pages: httpx.AsyncClient) -> None:
    first = check_page((await pages.get("/knowledge/materials")).text)
    (following,) = [each.attributes["href"] for each in first.all("a", rel="next")]
    second = check_page((await pages.get(following)).text)
    assert second.all("a", rel="prev")
    assert records_of(first, "materials").isdisjoint(records_of(second, "materials"))
    assert (await pages.get("/knowledge/materials", params={"page": "9999"})).status_code == 200
    assert (await pages.get("/knowledge/materials", params={"page": "x"})).status_code == 200


async def test_a_datum_shows_source_grade_and_how_it_was_obtained(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/knowledge/electrodes/aluminium-6xxx")).text)
    text = page.all("main")[0].text
    assert "Obtained" in text
    assert "Grade" in text
    assert any(link.startswith("/knowledge/sources/") for link in page.links)


async def test_releases_are_compared(pages: httpx.AsyncClient) -> None:
    check_page((await pages.get("/knowledge/releases")).text)
    same = await pages.get("/knowledge/releases", params={"before": LABEL, "after": LABEL})
    assert f"0 changes from {LABEL} to {LABEL}" in check_page(same.text).all("main")[0].text


async def test_a_record_has_a_history(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/knowledge/materials/al-6082-t6/history")).text)
    assert LABEL in page.all("main")[0].text
    pinned = next(link for link in page.links if "as_of=" in link)
    assert (await pages.get(pinned)).status_code == 200
    assert (await pages.get("/knowledge/materials/none/history")).status_code == 404


async def test_a_material_can_be_asked_about(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/knowledge/materials/al-6082-t6")).text)
    form = await pages.get(next(link for link in page.links if link.startswith("/?first=")))
    assert "6082" in check_page(form.text).all("input", id="first")[0].attributes["value"]


@pytest.mark.parametrize("address", ["/knowledge/metals", "/knowledge/materials/none", "/knowledge/metals/x"])
async def test_what_is_not_there_is_a_404(pages: httpx.AsyncClient, address: str) -> None:
    response = await pages.get(address)
    assert response.status_code == 404
    check_page(response.text)
