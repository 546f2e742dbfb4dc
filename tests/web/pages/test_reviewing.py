"""The list of proposals, and what may be done with one."""

from __future__ import annotations

import httpx
import pytest

from service.access import Scope
from tests.factories.html import Page, check_page
from tests.factories.http import Running, bearer, issue_key

pytestmark = pytest.mark.anyio

CHANGE = {
    "table": "limits",
    "key": ["anodic-index-harsh"],
    "record": {"note": "checked"},
    "reason": "second printing",
}


@pytest.fixture
async def proposed(opened: Running) -> str:
    """Where a proposal of another key has its page."""
    url = opened.services.settings.database_url
    author = bearer(issue_key(url, Scope.PROPOSE))
    key = next(iter(opened.services.shelf.current.catalogue.limits))
    made = await opened.client.post("/v1/proposals", json=CHANGE | {"key": [key]}, headers=author)
    assert made.status_code == 201, made.text
    return f"/proposals/{made.json()['id']}"


async def forms(client: httpx.AsyncClient, address: str) -> set[str]:
    page: Page = check_page((await client.get(address)).text)
    return {
        each.attributes["action"].rpartition("/")[2]
        for each in page.all("form")
        if "action" in each.attributes
    }


async def test_open_proposals_are_listed(pages: httpx.AsyncClient, proposed: str) -> None:
    page = check_page((await pages.get("/proposals")).text)
    assert proposed in page.links
    rejected = check_page((await pages.get("/proposals?state=rejected")).text)
    assert proposed not in rejected.links
    assert "/proposals" in check_page((await pages.get("/knowledge")).text).links


async def test_a_proposal_is_discussed_and_approved(pages: httpx.AsyncClient, proposed: str) -> None:
    assert {"review", "comments"} <= await forms(pages, proposed)
    for step, data in (
        ("comments", {"text": "Which page?"}),
        ("review", {"decision": "approve", "text": "page 12"}),
    ):
        sent = await pages.post(f"{proposed}/{step}", data=data)
        assert (sent.status_code, sent.headers["location"]) == (303, proposed)
    text = check_page((await pages.get(proposed)).text).all("main")[0].text
    assert all(part in text for part in ("Which page?", "Approved", "page 12", "approved"))
    assert "review" not in await forms(pages, proposed)
    late = await pages.post(f"{proposed}/review", data={"decision": "reject", "text": "no"})
    assert late.status_code == 409


async def test_a_rejection_needs_a_reason(pages: httpx.AsyncClient, proposed: str) -> None:
    assert (await pages.post(f"{proposed}/review", data={"decision": "reject"})).status_code == 422
    assert (await pages.post(f"{proposed}/review", data={"decision": "perhaps"})).status_code == 422
    await pages.post(f"{proposed}/review", data={"decision": "reject", "text": "the source says otherwise"})
    assert "Closed because: the source says otherwise" in (await pages.get(proposed)).text


async def test_nobody_reviews_their_own_and_may_take_it_back(pages: httpx.AsyncClient) -> None:
    made = await pages.post("/knowledge/sources/common-practice/propose", data={"note": "n", "reason": "r"})
    address = made.headers["location"]
    assert await forms(pages, address) >= {"comments", "retraction"}
    assert "review" not in await forms(pages, address)
    own = await pages.post(f"{address}/review", data={"decision": "approve"})
    assert own.status_code == 403
    await pages.post(f"{address}/retraction", data={"reason": "a better one comes"})
    assert "withdrawn" in (await pages.get(address)).text


async def test_a_key_sees_the_forms_that_it_may_send(
    pages: httpx.AsyncClient, opened: Running, proposed: str
) -> None:
    url = opened.services.settings.database_url
    for scopes, wanted in (
        ((Scope.READ,), set()),
        ((Scope.READ, Scope.REVIEW), {"review"}),
        ((Scope.READ, Scope.PROPOSE), {"comments"}),
    ):
        await pages.post("/sign-in", data={"key": issue_key(url, *scopes)})
        assert await forms(pages, proposed) - {"sign-out"} == wanted
    refused = await pages.post(f"{proposed}/review", data={"decision": "approve"})
    assert refused.status_code == 403


async def test_what_is_not_there_is_told(pages: httpx.AsyncClient) -> None:
    assert (await pages.get("/proposals/proposal_0")).status_code == 404
    assert (await pages.get("/proposals?cursor=x")).status_code == 404
