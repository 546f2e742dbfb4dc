"""The audit trail over HTTP, and that nobody can rewrite it."""

from __future__ import annotations

from contextlib import closing

import httpx
import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from service.access import Scope
from service.settings import Settings
from service.storage import Database
from service.web.schemas.audit import AuditEntry, AuditPage
from tests.factories.http import bearer, issue_key, problem, publish_package, running

pytestmark = pytest.mark.anyio

CHANGE = {"table": "limits", "key": ["normal"], "record": {"limit_V": 0.15}, "reason": "second printing"}


async def trail(client: httpx.AsyncClient, query: str = "", **headers: str) -> AuditPage:
    response = await client.get(f"/v1/audit{query}", headers=headers)
    assert response.status_code == 200, response.text
    return AuditPage.model_validate_json(response.content)


async def test_every_step_leaves_a_line(client: httpx.AsyncClient, published_url: str) -> None:
    proposal = (await client.post("/v1/proposals", json=CHANGE)).json()
    await client.post(f"{proposal['address']}/comments", json={"text": "Which page?"})
    reviewer = bearer(issue_key(published_url, Scope.REVIEW))
    await client.post(f"{proposal['address']}/review", json={"decision": "approve"}, headers=reviewer)
    label = (await client.post("/v1/releases", json={})).json()["release"]["label"]
    lines = (await trail(client, f"?subject_kind=proposal&subject_id={proposal['id']}")).items
    actions = ["made", "commented", "approved", "published"]
    assert [line.action for line in reversed(lines)] == [f"proposal.{action}" for action in actions]
    assert lines[0].detail == {"release": label}
    assert [line.subject_id for line in (await trail(client, "?subject_kind=release&limit=1")).items] == [
        label
    ]


async def test_lines_come_newest_first_in_pages(client: httpx.AsyncClient) -> None:
    for _ in range(3):
        await client.post("/v1/proposals", json=CHANGE)
    everything = (await trail(client)).items
    assert [line.serial for line in everything] == sorted((line.serial for line in everything), reverse=True)
    walked: list[AuditEntry] = []
    address = "?limit=2"
    while address:
        page = await trail(client, address)
        walked += page.items
        address = (page.next or "").removeprefix("/v1/audit")
    assert walked == list(everything)
    problem(await client.get("/v1/audit?cursor=x"), 404, "bad-cursor")


async def test_what_another_tenant_does_for_itself_is_not_shown(
    client: httpx.AsyncClient, published_url: str
) -> None:
    yard = bearer(issue_key(published_url, *Scope, tenant_id="yard"))
    harbour = bearer(issue_key(published_url, *Scope, tenant_id="harbour"))
    webhook = {"url": "https://203.0.114.1/hook", "events": ["*"]}
    assert (await client.post("/v1/webhooks", json=webhook, headers=yard)).status_code == 201
    await client.post("/v1/proposals", json=CHANGE, headers=yard)
    own, other = (await trail(client, **yard)).items, (await trail(client, **harbour)).items
    assert {"proposal.made", "webhook.created"} <= {line.action for line in own}
    assert {line.action for line in other} == {"proposal.made", "release.published"}


async def test_the_trail_needs_its_scope(client: httpx.AsyncClient, published_url: str) -> None:
    key = issue_key(published_url, *(set(Scope) - {Scope.AUDIT}))
    problem(await client.get("/v1/audit", headers=bearer(key)), 403, "insufficient-scope")


@pytest.mark.parametrize("attempt", ["UPDATE audit SET actor = 'nobody'", "DELETE FROM audit"])
async def test_no_line_can_be_changed_or_deleted_on_either_database(database_url: str, attempt: str) -> None:
    publish_package(database_url)
    async with running(Settings(database_url=database_url, development_key="fay_test")) as application:
        client = application.client
        me = {"Authorization": "Bearer fay_test"}
        assert (await client.post("/v1/proposals", json=CHANGE, headers=me)).status_code == 201
        before = await trail(client, **me)
        with (
            closing(Database.open(database_url)) as other,
            pytest.raises(DBAPIError, match="audit is append-only"),
            other.writing() as session,
        ):
            session.execute(text(attempt))
        assert await trail(client, **me) == before
        assert before.items[0].action == "proposal.made"
