"""Assemblies under watch over HTTP."""

from __future__ import annotations

import time
from contextlib import closing
from typing import Any

import anyio
import httpx
import pytest

from service.access import Scope
from service.settings import Settings
from service.storage import Database, publish
from service.storage.repositories.knowledge import KnowledgeRepository
from service.web.schemas.assembly_reports import AssemblyReport
from service.web.schemas.stored_assemblies import StoredAssemblyWithBody, StoredPage, StoringOutcome
from tests.factories.http import bearer, issue_key, problem, running

pytestmark = pytest.mark.anyio

PLACE = "marine-atmosphere-0-100-m"
BODY: dict[str, Any] = {
    "name": "mast foot",
    "programme": {"environment": PLACE},
    "parts": [
        {"part_number": "SK-1", "surface": "EN AW-6082-T6"},
        {"part_number": "SK-2", "surface": "A4-80"},
        {"part_number": "SK-3", "surface": "CW024A"},
    ],
    "joints": [
        {"id": "J1", "first": "SK-1", "second": "SK-2", "geometry": "fastener"},
        {"id": "J2", "first": "SK-1", "second": "SK-3"},
    ],
}
PATH = "/v1/assemblies/stored/mast"


async def put(
    client: httpx.AsyncClient, body: dict[str, Any] = BODY, status: int = 201, **headers: str
) -> StoringOutcome:
    response = await client.put(PATH, json=body, headers=headers)
    assert response.status_code == status, response.text
    return StoringOutcome.model_validate_json(response.content)


async def judged(
    client: httpx.AsyncClient, version: int = 1, label: str | None = None
) -> StoredAssemblyWithBody:
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        found = StoredAssemblyWithBody.model_validate_json((await client.get(PATH)).content)
        if found.version == version and found.holds_under and label in {None, found.holds_under}:
            return found
        await anyio.sleep(0.02)
    message = "never judged"
    raise AssertionError(message)


async def lines(client: httpx.AsyncClient) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = (await client.get("/v1/changes?limit=200")).json()["items"]
    return [line for line in found if line["kind"].startswith("verdicts.")]


async def test_what_is_stored_is_judged_and_told(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        outcome = await put(client)
        assert (outcome.assembly.version, outcome.job.kind) == (1, "portfolio")
        stored = await judged(client)
        report = await client.get(str(stored.report))
        at_once = await client.post("/v1/assemblies/check", json=BODY)
        told = await lines(client)
    assert (stored.joints, stored.body) == (2, BODY)
    assert AssemblyReport.model_validate_json(report.content).name == "mast foot"
    assert report.json() == at_once.json()["report"]
    (line,) = told
    assert (line["kind"], line["subject"]) == ("verdicts.created", "mast")
    assert [joint["joint"] for joint in line["detail"]["joints"]] == ["J1", "J2"]
    assert line["detail"]["reason"] == "the assembly was stored"


async def test_an_edit_is_judged_anew_and_told_by_joint(seed_url: str) -> None:
    edited = {**BODY, "joints": [BODY["joints"][1], {"id": "J3", "first": "SK-2", "second": "SK-3"}]}
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        await put(client)
        first = await judged(client)
        outcome = await put(client, edited, 200, **{"If-Match": '"1"'})
        assert (outcome.assembly.version, outcome.assembly.holds_under) == (2, None)
        again = await judged(client, version=2)
        told = await lines(client)
        problem(await client.put(PATH, json=BODY, headers={"If-Match": '"1"'}), 412, "version-mismatch")
    assert first.updated_at < again.updated_at
    kinds = {line["kind"]: [joint["joint"] for joint in line["detail"]["joints"]] for line in told[1:]}
    assert kinds == {"verdicts.created": ["J3"], "verdicts.withdrawn": ["J1"]}


async def test_a_removed_assembly_leaves_a_tombstone(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        await put(client)
        await judged(client)
        assert (await client.delete(PATH)).status_code == 204
        told = await lines(client)
        for path in (PATH, f"{PATH}/report"):
            problem(await client.get(path), 404, "unknown-assembly")
        problem(await client.delete(PATH), 404, "unknown-assembly")
        assert (await put(client)).assembly.version == 1
    assert (told[-1]["kind"], told[-1]["detail"]["reason"]) == (
        "verdicts.withdrawn",
        "the assembly was removed",
    )
    assert [joint["after"] for joint in told[-1]["detail"]["joints"]] == [None, None]


async def test_a_release_that_touches_it_has_it_judged_again(seed_url: str) -> None:
    settings = Settings(database_url=seed_url, release_poll_s=0.05)
    async with running(settings) as application:
        client = application.client
        await put(client)
        before = await judged(client)
        with closing(Database.open(seed_url)) as database, database.writing() as session:
            knowledge = KnowledgeRepository(session)
            rows = knowledge.all_rows()["environments"]
            knowledge.update(
                "environments", [row | {"exposure": "immersed"} for row in rows if row["id"] == PLACE]
            )
            label = publish(session, "2026.02.02-1", by="test").label
        after = await judged(client, label=label)
        told = await lines(client)
    assert before.release != after.release == label
    changed = told[1:]
    assert changed
    for line in changed:
        assert line["detail"]["release"] == {"before": before.release, "after": label}
        for joint in line["detail"]["joints"]:
            assert {cause["table"] for cause in joint["because"]} == {"environments"}
            assert joint["before"] != joint["after"]


async def test_nobody_else_sees_it(seed_url: str) -> None:
    key = bearer(issue_key(seed_url, Scope.ASSEMBLIES, tenant_id="yard"))
    async with running(Settings(database_url=seed_url)) as application:
        await put(application.client)
        problem(await application.client.get(PATH, headers=key), 404, "unknown-assembly")
        assert (await application.client.get("/v1/assemblies/stored", headers=key)).json()["items"] == []


async def test_assemblies_are_listed_in_pages(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        for name in ("a", "b", "c"):
            response = await client.put(f"/v1/assemblies/stored/{name}", json=BODY)
            assert response.status_code == 201
        first = StoredPage.model_validate_json((await client.get("/v1/assemblies/stored?limit=2")).content)
        rest = StoredPage.model_validate_json((await client.get(str(first.next))).content)
        problem(await client.get("/v1/assemblies/stored?cursor=x"), 404, "bad-cursor")
    assert [each.name for each in (*first.items, *rest.items)] == ["a", "b", "c"]


async def test_what_cannot_be_read_is_not_stored(seed_url: str) -> None:
    twice = {**BODY, "parts": [*BODY["parts"], BODY["parts"][0]]}
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        problem(await client.put(PATH, json=twice), 409, "inconsistent-request")
        problem(await client.put(PATH, json={"parts": []}), 422, "invalid-request")
        problem(await client.put("/v1/assemblies/stored/a b", json=BODY), 422, "invalid-request")
        assert (await client.get("/v1/assemblies/stored")).json()["items"] == []


async def test_an_assembly_without_report_says_so(published_url: str) -> None:
    # The rule of the small release is none, so no report can be made by it.
    body = {"parts": [{"part_number": "1", "surface": "S235JR"}, {"part_number": "2", "surface": "1.0038"}]}
    async with running(Settings(database_url=published_url)) as application:
        response = await application.client.put(PATH, json={**body, "programme": {"environment": "harbour"}})
        assert response.status_code == 201
        problem(await application.client.get(f"{PATH}/report"), 409, "not-judged-yet")
