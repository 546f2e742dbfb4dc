"""Changing the knowledge base over HTTP: one key proposes, another reviews, a release brings it out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import httpx
import pytest

from service.access import Scope
from service.settings import Settings
from service.web.schemas.proposals import Proposal, ProposalDetail, ProposalPage
from service.web.schemas.releases import Publication
from tests.factories.http import bearer, faults, issue_key, problem, running
from tests.factories.knowledge import row

pytestmark = pytest.mark.anyio

CHANGE = {"table": "limits", "key": ["normal"], "record": {"limit_V": 0.15}, "reason": "second printing"}


@dataclass(frozen=True)
class Curators:
    """Three keys of different tenants: who writes, who reviews, who publishes."""

    author: dict[str, str]
    reviewer: dict[str, str]
    publisher: dict[str, str]


@pytest.fixture
def curators(published_url: str) -> Curators:
    return Curators(
        author=bearer(issue_key(published_url, Scope.PROPOSE, Scope.READ, tenant_id="harbour")),
        reviewer=bearer(issue_key(published_url, Scope.REVIEW, Scope.READ, tenant_id="laboratory")),
        publisher=bearer(issue_key(published_url, Scope.PUBLISH, Scope.READ, tenant_id="office")),
    )


async def made(client: httpx.AsyncClient, curators: Curators, body: Any = CHANGE) -> Proposal:
    path = "/v1/proposals" if "record" in body else "/v1/withdrawals"
    response = await client.post(path, json=body, headers=curators.author)
    assert response.status_code == 201, response.text
    proposal = Proposal.model_validate_json(response.content)
    assert response.headers["location"] == proposal.address
    return proposal


async def reviewed(client: httpx.AsyncClient, curators: Curators, proposal: Proposal) -> ProposalDetail:
    body = {"decision": "approve", "text": "page 12"}
    response = await client.post(f"{proposal.address}/review", json=body, headers=curators.reviewer)
    assert response.status_code == 200, response.text
    return ProposalDetail.model_validate_json(response.content)


async def published(client: httpx.AsyncClient, curators: Curators, status: int = 201) -> Publication:
    response = await client.post("/v1/releases", json={"note": "November"}, headers=curators.publisher)
    assert response.status_code == status, response.text
    return Publication.model_validate_json(response.content)


async def test_a_figure_is_proposed_discussed_approved_and_published(
    client: httpx.AsyncClient, curators: Curators
) -> None:
    proposal = await made(client, curators)
    (difference,) = proposal.differences
    assert (proposal.kind, proposal.state) == ("change", "open")
    assert (difference.field, difference.before, difference.after) == ("limit_V", 0.25, 0.15)
    remark = await client.post(
        f"{proposal.address}/comments", json={"text": "Which page?"}, headers=curators.author
    )
    assert remark.status_code == 201
    detail = await reviewed(client, curators, proposal)
    assert (detail.state, [each.text for each in detail.comments]) == ("approved", ["Which page?"])
    assert [(each.decision, each.text) for each in detail.reviews] == [("approve", "page 12")]
    before = (await client.get("/v1/permissible-differences/normal")).json()
    assert before["limit_V"] == 0.25
    publication = await published(client, curators)
    assert ([each.id for each in publication.published], publication.left_out) == ([proposal.id], ())
    after = (await client.get("/v1/permissible-differences/normal")).json()
    assert after["limit_V"] == 0.15
    told = ProposalDetail.model_validate_json((await client.get(proposal.address)).content)
    assert (told.state, told.release) == ("published", publication.release.label)
    again = await published(client, curators, 200)
    assert (again.is_new, again.release) == (False, publication.release)


async def test_a_new_figure_may_name_a_source_that_is_only_proposed(
    client: httpx.AsyncClient, curators: Curators
) -> None:
    source = row("sources", id="survey", kind="report", title="Survey of the quay")
    limit = row("limits", id="strict", scale_id="series", limit_V=0.1, source_id="survey")
    early = await client.post(
        "/v1/proposals", json={"table": "limits", "record": limit, "reason": "r"}, headers=curators.author
    )
    assert faults(problem(early, 422, "invalid-request")) == {"/record/source_id": []}
    for table, record in (("sources", source), ("limits", limit)):
        proposal = await made(client, curators, {"table": table, "record": record, "reason": "new"})
        assert proposal.kind == "add"
        await reviewed(client, curators, proposal)
    assert len((await published(client, curators)).published) == 2
    assert (await client.get("/v1/permissible-differences/strict")).json()["source_id"] == "survey"


async def test_a_withdrawn_figure_stays_and_says_why(client: httpx.AsyncClient, curators: Curators) -> None:
    body = {"table": "measurements", "key": ["zinc-in-brine"], "reason": "another alloy"}
    await reviewed(client, curators, await made(client, curators, body))
    await published(client, curators)
    shown = (await client.get("/v1/measurements/zinc-in-brine")).json()
    assert shown["quarantine_reason"] == "another alloy"
    again = await client.post("/v1/withdrawals", json=body, headers=curators.author)
    problem(again, 409, "nothing-changes")


async def test_what_others_name_cannot_go(client: httpx.AsyncClient, curators: Curators) -> None:
    body = {"table": "scales", "key": ["series"], "reason": "outdated"}
    response = await client.post("/v1/withdrawals", json=body, headers=curators.author)
    named = faults(problem(response, 409, "record-in-use"))
    assert named == {"/key": ["limits normal", "measurements zinc-in-brine"]}


async def test_nobody_reviews_what_is_their_own(client: httpx.AsyncClient) -> None:
    proposal = Proposal.model_validate_json((await client.post("/v1/proposals", json=CHANGE)).content)
    own = await client.post(f"{proposal.address}/review", json={"decision": "approve"})
    problem(own, 403, "own-proposal")


async def test_only_the_author_takes_a_proposal_back(client: httpx.AsyncClient, curators: Curators) -> None:
    proposal = await made(client, curators)
    address, body = f"{proposal.address}/retraction", {"reason": "a better source comes"}
    problem(await client.post(address, json=body), 403, "not-your-proposal")
    retracted = await client.post(address, json=body, headers=curators.author)
    assert retracted.json()["state"] == "withdrawn"
    problem(await client.post(address, json=body, headers=curators.author), 409, "proposal-closed")
    late = await client.post(
        f"{proposal.address}/review", json={"decision": "approve"}, headers=curators.reviewer
    )
    problem(late, 409, "proposal-closed")


async def test_a_rejection_says_why(client: httpx.AsyncClient, curators: Curators) -> None:
    address = f"{(await made(client, curators)).address}/review"
    silent = await client.post(address, json={"decision": "reject"}, headers=curators.reviewer)
    assert set(faults(problem(silent, 422, "invalid-request"))) == {"/text"}
    body = {"decision": "reject", "text": "the source says otherwise"}
    rejected = (await client.post(address, json=body, headers=curators.reviewer)).json()
    assert (rejected["state"], rejected["closing_reason"]) == ("rejected", "the source says otherwise")


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ({"table": "limit"}, {"/table": ["limits"]}),
        ({"key": ["normale"]}, {"/key": ["normal"]}),
        ({"key": ["a", "b"]}, {"/key": []}),
        ({"record": {"limit": 0.1}}, {"/record/limit": ["limit_V"]}),
        ({"record": {"limit_V": "much"}}, {"/record/limit_V": []}),
        ({"record": {"id": "other"}}, {"/record/id": []}),
        ({"record": {"scale_id": "serie"}}, {"/record/scale_id": ["series"]}),
        ({"record": {"obtained": "from memmory"}}, {"/record/obtained": ["from memory"]}),
        ({"reason": " "}, {"/reason": []}),
        ({"why": "x"}, {"/why": []}),
    ],
)
async def test_what_cannot_be_used_is_pointed_at(
    client: httpx.AsyncClient, curators: Curators, body: dict[str, Any], expected: dict[str, list[str]]
) -> None:
    response = await client.post("/v1/proposals", json=CHANGE | body, headers=curators.author)
    found = faults(problem(response, 422, "invalid-request"))
    assert {pointer: near[:1] for pointer, near in found.items()} == expected


async def test_the_same_row_again_changes_nothing(client: httpx.AsyncClient, curators: Curators) -> None:
    body = CHANGE | {"record": {"limit_V": 0.25}}
    response = await client.post("/v1/proposals", json=body, headers=curators.author)
    problem(response, 409, "nothing-changes")


async def test_a_proposal_sent_twice_is_made_once(client: httpx.AsyncClient, curators: Curators) -> None:
    headers = {**curators.author, "Idempotency-Key": "k1"}
    first = await client.post("/v1/proposals", json=CHANGE, headers=headers)
    second = await client.post("/v1/proposals", json=CHANGE, headers=headers)
    assert (first.content, second.headers["idempotency-replayed"]) == (second.content, "true")
    assert len((await client.get("/v1/proposals")).json()["items"]) == 1


async def test_proposals_are_listed_and_filtered_in_pages(
    client: httpx.AsyncClient, curators: Curators
) -> None:
    ours = [(await made(client, curators)).id for _ in range(3)]
    response = await client.get("/v1/proposals?limit=2&state=open&table=limits&key=normal")
    first = ProposalPage.model_validate_json(response.content)
    assert response.links["next"]["url"] == first.next
    rest = ProposalPage.model_validate_json((await client.get(str(first.next))).content)
    assert [each.id for each in (*first.items, *rest.items)] == ours
    for nothing in ("state=approved", "kind=add", "table=rules", "key=other", "proposed_by=nobody"):
        assert (await client.get(f"/v1/proposals?{nothing}")).json()["items"] == []
    problem(await client.get("/v1/proposals?cursor=x"), 404, "bad-cursor")


async def test_what_is_not_there_is_told(client: httpx.AsyncClient, curators: Curators) -> None:
    problem(await client.get("/v1/proposals/proposal_0"), 404, "unknown-proposal")
    for step, body in (("comments", {"text": "x"}), ("retraction", {"reason": "x"})):
        response = await client.post(f"/v1/proposals/proposal_0/{step}", json=body)
        problem(response, 404, "unknown-proposal")


async def test_each_step_needs_its_scope(client: httpx.AsyncClient, curators: Curators) -> None:
    proposal = await made(client, curators)
    refused = [
        ("/v1/proposals", CHANGE, curators.reviewer),
        (f"{proposal.address}/review", {"decision": "approve"}, curators.author),
        ("/v1/releases", {}, curators.reviewer),
    ]
    for path, body, headers in refused:
        problem(await client.post(path, json=body, headers=headers), 403, "insufficient-scope")


async def test_composite_keys_have_several_parts(published_url: str) -> None:
    async with running(Settings(database_url=published_url)) as application:
        body = {
            "table": "designations",
            "key": ["s235", "EN number", "1.0038"],
            "record": {"note": "EN 10027-2"},
            "reason": "name the standard",
        }
        response = await application.client.post("/v1/proposals", json=body)
        assert Proposal.model_validate_json(response.content).key == ("s235", "EN number", "1.0038")
