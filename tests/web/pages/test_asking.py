"""The pages of one question, as somebody without scripts meets them."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import httpx
import pytest

from tests.factories.html import check_page

pytestmark = pytest.mark.anyio
HEAVIEST = 150_000


async def test_the_form_works_without_scripts(pages: httpx.AsyncClient) -> None:
    response = await pages.get("/")
    page = check_page(response.text)
    (form,) = page.all("form")
    assert (form.attributes["action"], form.attributes["method"]) == ("/ask", "get")
    assert len(page.all("optgroup")) >= 6
    assert len(page.all("input", type="checkbox", name="functions")) == 8
    assert len(page.all("input", role="combobox", **{"aria-controls": "first-near"})) == 1
    assert any(link.startswith("/ask?first=") for link in page.links)


async def test_a_link_may_fill_in_a_part(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/", params={"first": "A4-80"})).text)
    assert page.all("input", id="first")[0].attributes["value"] == "A4-80"
    assert not page.all("p", role="alert")


async def test_a_page_loads_from_this_host_only(pages: httpx.AsyncClient) -> None:
    policy = (await pages.get("/")).headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "http" not in policy
    assert "frame-ancestors 'none'" in policy


async def test_an_answer_begins_with_its_verdict(pages: httpx.AsyncClient, couple: dict[str, str]) -> None:
    response = await pages.get("/ask", params=couple)
    page = check_page(response.text)
    assert response.status_code == 200
    assert page.all("h1")[0].text.strip().startswith("Conditional")
    figures = page.all("figure")
    assert [figure.attributes["id"] for figure in figures] == [
        "picture-potentials",
        "picture-polarization",
        "picture-reach",
        "picture-uncertainty",
    ]
    assert len(page.all("figcaption")) == len(figures)
    assert "mm/year" in response.text
    assert " um " not in page.all("main")[0].text
    assert "from memory, no page consulted" in response.text


async def test_an_answer_without_its_pictures_is_light(
    pages: httpx.AsyncClient, couple: dict[str, str]
) -> None:
    html = (await pages.get("/ask", params=couple)).text
    parts = html.split("<svg")
    without = parts[0] + "".join(part.split("</svg>", 1)[1] for part in parts[1:])
    assets = [await pages.get(f"/assets/{name}") for name in ("faying.css", "faying.js")]
    assert len(without.encode()) + sum(len(each.content) for each in assets) < HEAVIEST


async def test_the_permanent_address_gives_the_same_page(
    pages: httpx.AsyncClient, couple: dict[str, str]
) -> None:
    page = check_page((await pages.get("/ask", params=couple)).text)
    permanent = next(link for link in page.links if "as_of=" in link)
    again = await pages.get(permanent)
    assert again.status_code == 200
    assert check_page(again.text).all("h1")[0].text == page.all("h1")[0].text


async def test_a_browser_that_has_the_page_gets_304(pages: httpx.AsyncClient, couple: dict[str, str]) -> None:
    etag = (await pages.get("/ask", params=couple)).headers["etag"]
    again = await pages.get("/ask", params=couple, headers={"If-None-Match": etag})
    assert again.status_code == 304
    assert again.content == b""


async def test_an_ambiguous_text_offers_its_readings(pages: httpx.AsyncClient) -> None:
    query = {
        "first": "Cu-ETP, tinned 5 µm",
        "second": "EN AW-6082-T6",
        "environment": "marine-atmosphere-0-100-m",
    }
    page = check_page((await pages.get("/ask", params=query)).text)
    choices = [
        link for link in page.links if link.startswith("/ask?") and "first=" in link and "in+plate" in link
    ]
    assert len(choices) >= 2
    settled = await pages.get(choices[0])
    assert settled.status_code == 200
    assert "One question would settle this" not in settled.text


async def test_what_would_turn_the_verdict_is_told_on_request(
    pages: httpx.AsyncClient, couple: dict[str, str]
) -> None:
    page = check_page((await pages.get("/ask", params={**couple, "first": "EN AW-6082-T6"})).text)
    turned = await pages.get(next(link for link in page.links if "would_change_if=true" in link))
    assert "What would turn it: with a " in check_page(turned.text).all("main")[0].text
    dry = {"first": "Cu-ETP", "second": "Pb", "environment": "heated-indoor", "would_change_if": "true"}
    assert "No single figure turns the verdict" in (await pages.get("/ask", params=dry)).text


async def test_an_unknown_text_offers_near_names(pages: httpx.AsyncClient) -> None:
    query = {"first": "CuZn99", "second": "A4-80", "environment": "seawater-quiescent"}
    response = await pages.get("/ask", params=query)
    page = check_page(response.text)
    assert page.all("h1")[0].text.strip().startswith("Undetermined")
    assert "near it are" in response.text


async def test_what_is_missing_is_said_beside_its_field(pages: httpx.AsyncClient) -> None:
    response = await pages.get("/ask", params={"first": "A4-80", "design_life_years": "-4"})
    page = check_page(response.text)
    assert response.status_code == 422
    assert len(page.all("p", role="alert")) >= 2
    assert page.all("input", id="first")[0].attributes["value"] == "A4-80"


async def test_drawing_text_is_never_markup(pages: httpx.AsyncClient) -> None:
    text = '"><script>alert(1)</script>'
    query = {"first": text, "second": "A4-80", "environment": "seawater-quiescent"}
    response = await pages.get("/ask", params=query)
    assert "<script>alert" not in response.text


async def test_an_unknown_place_is_a_page_too(pages: httpx.AsyncClient, couple: dict[str, str]) -> None:
    response = await pages.get("/ask", params={**couple, "environment": "seawater-quiescen"})
    assert response.status_code == 404
    assert "seawater-quiescent" in check_page(response.text).all("main")[0].text


@pytest.mark.parametrize("name", ["potentials", "polarization", "reach", "uncertainty"])
async def test_every_picture_can_be_downloaded(
    pages: httpx.AsyncClient, couple: dict[str, str], name: str
) -> None:
    table = await pages.get(f"/ask/pictures/{name}.csv", params=couple)
    assert table.headers["content-type"].startswith("text/csv")
    assert len(table.text.splitlines()) > 3
    svg = await pages.get(f"/ask/pictures/{name}.svg", params=couple)
    assert ET.fromstring(svg.text).tag.endswith("svg")  # noqa: S314 - our own


async def test_a_picture_that_is_not_there_is_a_404(pages: httpx.AsyncClient, couple: dict[str, str]) -> None:
    assert (await pages.get("/ask/pictures/portrait.csv", params=couple)).status_code == 404
    assert (await pages.get("/ask/pictures/reach.exe", params=couple)).status_code == 404
    assert (await pages.get("/ask/pictures/reach.csv", params={"first": "A4-80"})).status_code == 422


async def test_the_document_is_that_of_the_api(pages: httpx.AsyncClient, couple: dict[str, str]) -> None:
    document = (await pages.get("/ask/answer.json", params=couple)).json()
    assert document["verdict"] == "conditional"
    assert document["address"].startswith("/v1/answers/")


async def test_measures_stand_on_a_page_and_in_a_fragment(
    pages: httpx.AsyncClient, couple: dict[str, str]
) -> None:
    whole = await pages.get("/ask/mitigations", params=couple)
    page = check_page(whole.text)
    assert len(page.all("tr")) > 5
    assert "As it is:" in page.all("main")[0].text
    fragment = await pages.get("/ask/mitigations", params={**couple, "fragment": "1"})
    assert "<html" not in fragment.text
    assert "<table" in fragment.text


async def test_suggestions_come_while_somebody_types(pages: httpx.AsyncClient) -> None:
    names = (await pages.get("/suggestions", params={"q": "EN AW-608"})).json()
    assert any("6082" in name for name in names)
    assert (await pages.get("/suggestions", params={"q": ""})).json() == []
