"""Proposing a change from the page of a record."""

from __future__ import annotations

import httpx
import pytest

from service.settings import Settings
from service.web.proposals import PATH
from tests.factories.html import Page, check_page
from tests.factories.http import Running, running

pytestmark = pytest.mark.anyio

RECORD = "/knowledge/measurements/flowing-points-zinc"


def values(page: Page) -> dict[str, str]:
    """What a browser would send back unchanged."""
    texts = {each.attributes["name"]: each.attributes.get("value", "") for each in page.all("input")}
    return texts | {each.attributes["name"]: each.text for each in page.all("textarea")}


async def test_every_record_leads_to_its_form(pages: httpx.AsyncClient) -> None:
    shown = check_page((await pages.get(RECORD)).text)
    assert f"{RECORD}/propose" in shown.links
    form = check_page((await pages.get(f"{RECORD}/propose")).text)
    assert values(form)["value"] == "-1.03"
    assert "id" not in values(form)


async def test_a_change_becomes_a_proposal(pages: httpx.AsyncClient, opened: Running) -> None:
    form = values(check_page((await pages.get(f"{RECORD}/propose")).text))
    form |= {"value": "-1.02", "reason": "second printing"}
    sent = await pages.post(f"{RECORD}/propose", data=form)
    assert sent.status_code == 303
    shown = check_page((await pages.get(sent.headers["location"])).text)
    text = shown.all("main")[0].text
    assert all(part in text for part in ("-1.03", "-1.02", "second printing"))
    rows = shown.all("tbody")[0].text
    assert "Obtained" not in rows
    assert opened.services.shelf.current.catalogue.measurements["flowing-points-zinc"].value == -1.03


async def test_what_cannot_be_is_told_at_its_field(pages: httpx.AsyncClient) -> None:
    form = values(check_page((await pages.get(f"{RECORD}/propose")).text))
    refused = await pages.post(f"{RECORD}/propose", data=form | {"value": "much", "reason": "x"})
    assert refused.status_code == 422
    page = check_page(refused.text)
    (field,) = [each for each in page.all("input") if each.attributes.get("aria-invalid")]
    assert (field.attributes["name"], field.attributes["value"]) == ("value", "much")
    near = await pages.post(f"{RECORD}/propose", data=form | {"source_id": "asm-handbok-13", "reason": "x"})
    assert "Did you mean asm-handbook-13" in near.text


async def test_a_proposal_needs_a_change_and_a_reason(pages: httpx.AsyncClient) -> None:
    form = values(check_page((await pages.get(f"{RECORD}/propose")).text))
    unchanged = await pages.post(f"{RECORD}/propose", data=form | {"reason": "x"})
    assert "Change at least one field" in check_page(unchanged.text).all("main")[0].text
    silent = await pages.post(f"{RECORD}/propose", data=form | {"value": "-1.0", "reason": ""})
    assert check_page(silent.text).all("p", id="reason-fault")


async def test_a_new_record_is_proposed(pages: httpx.AsyncClient) -> None:
    assert "/knowledge/sources/new" in check_page((await pages.get("/knowledge/sources")).text).links
    check_page((await pages.get("/knowledge/sources/new")).text)
    fields = {"id": "quay-survey", "kind": "report", "title": "Survey of the quay", "status": "active"}
    sent = await pages.post("/knowledge/sources/new", data={**fields, "reason": "our own"})
    assert sent.status_code == 303, sent.text
    assert "Survey of the quay" in (await pages.get(sent.headers["location"])).text


async def test_a_withdrawal_is_proposed(pages: httpx.AsyncClient) -> None:
    sent = await pages.post(f"{RECORD}/withdraw", data={"reason": "another alloy"})
    assert "another alloy" in (await pages.get(sent.headers["location"])).text


async def test_what_is_not_there_cannot_be_changed(pages: httpx.AsyncClient) -> None:
    for path in ("/knowledge/opinions/new", "/knowledge/measurements/none/propose"):
        assert (await pages.get(path)).status_code == 404


async def test_visitors_without_a_key_are_asked_for_one(published_url: str) -> None:
    settings = Settings(database_url=published_url, development_key="", pages_open=True)
    async with running(settings, key=None) as application:
        client = application.client
        assert (await client.get("/knowledge/limits/normal")).status_code == 200
        asked = await client.get("/knowledge/limits/normal/propose")
        assert (asked.status_code, asked.headers["location"].split("?")[0]) == (303, "/sign-in")


def test_proposals_have_the_same_name_in_both_places() -> None:
    assert PATH == "/v1/proposals"
