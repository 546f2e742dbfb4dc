"""House policies over HTTP: kept by version, named by checks, followed by stored assemblies."""

from __future__ import annotations

from typing import Any

import anyio
import httpx
import pytest

from service.access import Scope
from service.settings import Settings
from service.web.schemas.jobs import JobDocument
from service.web.schemas.stored_assemblies import StoredAssemblyWithBody
from service.web.schemas.stored_policies import PolicyOutcome, PolicyPage, StoredPolicyWithBody
from tests.factories.http import bearer, issue_key, problem, running

pytestmark = pytest.mark.anyio

PATH = "/v1/policies/harbour"
MAST = "/v1/assemblies/stored/mast"
LENIENT = {"severity_bounds": [1e3, 1e4, 1e5]}
POLICY: dict[str, Any] = {
    "name": "Port of Skerrivoe",
    "limits": [
        {"id": "none", "statement": "None.", "accepted_verdicts": ["undetermined"], "waivable_by": ["chief"]}
    ],
}
ASSEMBLY: dict[str, Any] = {
    "programme": {"environment": "marine-atmosphere-0-100-m"},
    "parts": [
        {"part_number": "SK-1", "surface": "EN AW-6082-T6"},
        {"part_number": "SK-2", "surface": "CW024A"},
    ],
    "joints": [{"id": "J1", "first": "SK-1", "second": "SK-2", "geometry": "fastener"}],
    "stored_policy": "harbour",
}


async def put(client: httpx.AsyncClient, status: int, body: dict[str, Any] = POLICY, **headers: str) -> Any:
    response = await client.put(PATH, json=body, headers=headers)
    assert response.status_code == status, response.text
    return PolicyOutcome.model_validate_json(response.content)


async def until_done(client: httpx.AsyncClient, address: str) -> None:
    for _ in range(1500):
        if (await client.get(address)).json()["state"] == "done":
            return
        await anyio.sleep(0.02)
    raise AssertionError(address)


async def test_versions_are_added_and_none_is_edited(client: httpx.AsyncClient) -> None:
    assert (await put(client, 201)).policy.version == 1
    assert (await put(client, 200)).policy.version == 1
    later = await put(client, 200, {**POLICY, "bands": LENIENT}, **{"If-Match": '"1"'})
    assert (later.policy.reference, later.job) == ("harbour@2", None)
    problem(await client.put(PATH, json=POLICY, headers={"If-Match": '"1"'}), 412, "version-mismatch")
    newest = await client.get(PATH)
    assert newest.headers["etag"] == '"2"'
    assert StoredPolicyWithBody.model_validate_json(newest.content).policy == {**POLICY, "bands": LENIENT}
    first = await client.get(PATH, params={"version": 1})
    assert StoredPolicyWithBody.model_validate_json(first.content).policy == POLICY
    problem(await client.get(PATH, params={"version": 3}), 404, "unknown-policy")


async def test_a_removed_policy_stays_readable_by_version(client: httpx.AsyncClient) -> None:
    await put(client, 201)
    assert (await client.delete(PATH)).status_code == 204
    problem(await client.get(PATH), 404, "unknown-policy")
    problem(await client.delete(PATH), 404, "unknown-policy")
    assert (await client.get(PATH, params={"version": 1})).status_code == 200
    assert (await put(client, 201)).policy.version == 3


async def test_policies_are_listed_in_pages_with_links(client: httpx.AsyncClient) -> None:
    for name in ("a", "b", "c"):
        await client.put(f"/v1/policies/{name}", json=POLICY)
    first = await client.get("/v1/policies", params={"limit": 2})
    page = PolicyPage.model_validate_json(first.content)
    assert first.links["next"]["url"] == page.next
    rest = PolicyPage.model_validate_json((await client.get(str(page.next))).content)
    assert [policy.name for policy in (*page.items, *rest.items)] == ["a", "b", "c"]
    assert rest.next is None
    problem(await client.get("/v1/policies", params={"cursor": "x"}), 404, "bad-cursor")


async def test_a_policy_that_contradicts_itself_is_not_stored(client: httpx.AsyncClient) -> None:
    response = await client.put(PATH, json={**POLICY, "limits": POLICY["limits"] * 2})
    found = problem(response, 409, "inconsistent-request")
    assert found["errors"][0]["pointer"] == "/limits/1/id"
    problem(await client.get(PATH), 404, "unknown-policy")


async def test_checks_are_decided_by_the_version_that_they_name(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        await put(client, 201)
        await put(client, 200, {**POLICY, "limits": []})
        newest = (await client.post("/v1/assemblies/check", json=ASSEMBLY)).json()
        first = (
            await client.post("/v1/assemblies/check", json={**ASSEMBLY, "stored_policy": "harbour@1"})
        ).json()
        offer = {"part": "SK-2", "substitutes": ["8.8 tZn"]}
        compared = (await client.post("/v1/substitutions/check", json={**ASSEMBLY, **offer})).json()
        table = b"part,material\nSK-1,EN AW-6082-T6\nSK-2,CW024A\n"
        uploaded = await client.post(
            "/v1/assemblies/check",
            content=table,
            params={"stored_policy": "harbour", "environment": "marine-atmosphere-0-100-m"},
            headers={"Content-Type": "text/csv"},
        )
        wrong = await client.post("/v1/assemblies/check", json={**ASSEMBLY, "stored_policy": "harbor"})
        job = await client.post("/v1/jobs?kind=assembly", json=ASSEMBLY)
        await put(client, 200)
        await until_done(client, job.json()["address"])
        results = await client.get(job.json()["address"] + "/results")
    assert [each["stored_policy"] for each in (newest, first, compared)] == [
        "harbour@2", "harbour@1", "harbour@2"
    ]  # fmt: skip
    assert [each["standing"]["totals"]["open"] for each in (newest, first)] == [0, 1]
    assert compared["comparison"]["policy"]["name"] == "Port of Skerrivoe"
    assert uploaded.json()["stored_policy"] == "harbour@2"
    assert results.json()["items"][0]["stored_policy"] == "harbour@2"
    found = problem(wrong, 409, "inconsistent-request")
    assert (found["errors"][0]["pointer"], found["errors"][0]["suggestions"]) == (
        "/stored_policy",
        ["harbour"],
    )


async def test_a_new_version_judges_what_follows_it_again(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        problem(await client.put(MAST, json=ASSEMBLY), 409, "inconsistent-request")
        await put(client, 201)
        stored = await client.put(MAST, json=ASSEMBLY)
        await until_done(client, stored.json()["job"]["address"])
        before = StoredAssemblyWithBody.model_validate_json((await client.get(MAST)).content)
        problem(await client.delete(PATH), 409, "policy-in-use")
        outcome = await put(client, 200, {**POLICY, "bands": LENIENT})
        assert isinstance(outcome.job, JobDocument)
        await until_done(client, outcome.job.address)
        after = StoredAssemblyWithBody.model_validate_json((await client.get(MAST)).content)
        feed = (await client.get("/v1/changes?limit=200")).json()["items"]
    assert (before.stored_policy, after.stored_policy) == ("harbour@1", "harbour@2")
    assert (before.version, after.version, after.holds_under) == (1, 1, before.holds_under)
    told = [line for line in feed if line["kind"].startswith("verdicts.")][-1]
    assert told["detail"]["reason"] == "the assembly or its policy was edited"
    (joint,) = told["detail"]["joints"]
    assert joint["before"] != joint["after"]


async def test_policies_belong_to_their_tenant_and_to_who_may_manage_it(published_url: str) -> None:
    reader = bearer(issue_key(published_url, Scope.ASSEMBLIES))
    stranger = bearer(issue_key(published_url, Scope.ASSEMBLIES, Scope.TENANT, tenant_id="yard"))
    async with running(Settings(database_url=published_url)) as application:
        client = application.client
        await put(client, 201)
        problem(await client.get(PATH, headers=stranger), 404, "unknown-policy")
        problem(await client.delete(PATH, headers=stranger), 404, "unknown-policy")
        assert (await client.get("/v1/policies", headers=stranger)).json()["items"] == []
        problem(await client.put(PATH, json=POLICY, headers=reader), 403, "insufficient-scope")
        problem(await client.delete(PATH, headers=reader), 403, "insufficient-scope")
