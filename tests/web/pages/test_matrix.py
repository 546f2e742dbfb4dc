from __future__ import annotations

import httpx
import pytest

from service.web.pages.matrix import MOST_SURFACES, judge_pairs
from tests.factories.html import check_page
from tests.seed_catalogue import seed_catalogue

PLACE = "marine-atmosphere-0-100-m"


def test_all_pairs_are_judged_and_name_the_eaten_one() -> None:
    names, cells = judge_pairs(["EN AW-6082-T6", "A4-70", "no such metal"], PLACE, seed_catalogue())
    assert names[1].startswith("Stainless steel")
    assert names[2] == "no such metal"
    by_place = {(cell.row, cell.column): cell for cell in cells}
    assert set(by_place) == {(2, 1), (3, 1), (3, 2)}
    assert by_place[2, 1].eaten == 1
    assert by_place[2, 1].ratio
    assert by_place[3, 1].verdict == "undetermined"
    assert by_place[3, 1].step is None
    assert by_place[2, 1].address.startswith("/ask?first=A4-70&second=EN+AW-6082-T6")


@pytest.mark.anyio
async def test_the_demonstration_is_shown_at_first(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/matrix")).text)
    cells = [link for link in page.links if link.startswith("/ask?")]
    assert len(cells) == 2 * 36
    assert (await pages.get(cells[0])).status_code == 200


@pytest.mark.anyio
async def test_each_cell_says_its_verdict_in_words_too(pages: httpx.AsyncClient) -> None:
    query = {"surfaces": "EN AW-6082-T6\nA4-70", "environment": "seawater-quiescent"}
    page = check_page((await pages.get("/matrix", params=query)).text)
    cell = next(each for each in page.all("a") if each.attributes["href"].startswith("/ask?first=A4-70"))
    assert "2 with 1: " in cell.text
    assert "1 eaten" in cell.text
    assert cell.attributes["class"].startswith("ramp-")


@pytest.mark.anyio
async def test_too_many_surfaces_are_left_out_and_told(pages: httpx.AsyncClient) -> None:
    texts = [f"EN AW-60{number:02d}" for number in range(MOST_SURFACES + 3)]
    page = check_page((await pages.get("/matrix", params={"surfaces": "\n".join(texts)})).text)
    assert "3 surfaces were left out" in page.all("p", role="alert")[0].text


@pytest.mark.anyio
@pytest.mark.parametrize("surfaces", ["", "A4-70", "A4-70\nA4-70\n"])
async def test_one_surface_makes_no_pair(pages: httpx.AsyncClient, surfaces: str) -> None:
    page = check_page((await pages.get("/matrix", params={"surfaces": surfaces})).text)
    assert "Write at least two surfaces" in page.all("main")[0].text


@pytest.mark.anyio
@pytest.mark.parametrize("surfaces", ["", "A4-70", "A4-70\nCu-ETP"])
async def test_an_unknown_place_is_told(pages: httpx.AsyncClient, surfaces: str) -> None:
    query = {"environment": "mars", "surfaces": surfaces}
    assert (await pages.get("/matrix", params=query)).status_code == 404
