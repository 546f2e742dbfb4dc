"""Every list of the document is walked: links and bodies lead the same way, past each item once."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import closing
from pathlib import Path
from typing import Any

import anyio
import httpx
import pytest

from service.settings import Settings
from service.storage import Database, publish
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.webhooks import WebhooksRepository
from service.web.work import COUPLES_PER_CHUNK
from tests.contract.walk import DOCUMENT, OPERATIONS, Operation
from tests.factories.http import Running, running, seeded_copy

pytestmark = pytest.mark.anyio

ASSEMBLY = {
    "programme": {"environment": "heated-indoor"},
    "parts": [{"part_number": "mast", "surface": "A4-80"}, {"part_number": "clamp", "surface": "S235JR"}],
    "joints": [{"id": "J1", "first": "mast", "second": "clamp"}],
}
HOOK = {"url": "https://plm.skerrivoe.example/faying", "events": ["harbour.dredged"]}
WITHDRAWN = {"table": "mitigations", "reason": "Nobody does this any more."}
FOR_EVER = {"/v1/changes"}
"""Lists whose last page leads on, to what will come."""


def schema_of(operation: Operation) -> dict[str, Any]:
    content = operation.entry["responses"].get("200", {}).get("content", {}).get("application/json", {})
    name = content.get("schema", {}).get("$ref", "").rpartition("/")[2]
    found: dict[str, Any] = DOCUMENT["components"]["schemas"].get(name, {})
    return found


LISTS = [operation for operation in OPERATIONS if "next" in schema_of(operation).get("properties", {})]


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture(scope="module")
def url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    return seeded_copy(sqlite_template, tmp_path_factory.mktemp("lists"))


@pytest.fixture
async def started(url: str, anyio_backend: str) -> AsyncIterator[Running]:
    settings = Settings(
        database_url=url, requests_per_minute=10**6, request_burst=10**6, webhook_poll_s=3600.0
    )
    async with running(settings) as application:
        yield application


async def two_of_each(started: Running, url: str) -> dict[str, str]:
    """Keep at least two items for every list, and say what names a list in its path."""
    client, sent = started.client, []
    for name in ("a", "b"):
        sent.append(await client.put(f"/v1/assemblies/stored/{name}", json=ASSEMBLY))
        sent.append(await client.put(f"/v1/policies/{name}", json={"name": name}))
    found = (await client.get("/v1/mitigations?limit=2")).json()["items"]
    withdrawals = [{**WITHDRAWN, "key": [each["id"]]} for each in found]
    sent += [await client.post("/v1/withdrawals", json=body) for body in withdrawals]
    webhook = await client.post("/v1/webhooks", json={**HOOK, "after": 0})
    couples = [{"first": "A4-80", "second": "S235JR", "ref": n} for n in range(COUPLES_PER_CHUNK + 1)]
    body = {"couples": couples, "defaults": {"environment": "heated-indoor"}}
    job = await client.post("/v1/jobs?kind=batch", json=body)
    assert {each.status_code for each in (*sent, webhook, job)} <= {201, 202}, [each.text for each in sent]
    with closing(Database.open(url)) as database, database.writing() as session:
        knowledge = KnowledgeRepository(session)
        row = knowledge.all_rows()["environments"][0]
        knowledge.update("environments", [{**row, "name": "Harbour, dredged"}])
        publish(session, "2026.01.02-1", by="test")
        for depth_m in (8, 9):
            ChangesRepository(session).append("harbour.dredged", "basin", None, depth_m=depth_m)
        WebhooksRepository(session).address()
    for _ in range(600):
        if (await client.get(job.json()["address"])).json()["state"] == "done":
            break
        await anyio.sleep(0.1)
    return {"webhook_id": webhook.json()["id"], "job_id": job.json()["id"]}


async def walked(client: httpx.AsyncClient, address: str, *, is_endless: bool) -> list[Any]:
    """Follow the links from page to page, and return all items."""
    seen: list[Any] = []
    following: str | None = address
    while following:
        response = await client.get(following)
        assert response.status_code == 200, response.text
        page = response.json()
        following = response.links.get("next", {}).get("url")
        assert following == page["next"], f"{address}: the header leads to {following}"
        if is_endless and not page["items"]:
            break
        assert page["items"] or not following, f"{address}: an empty page leads on"
        seen += page["items"]
    return seen


async def half_of_all(client: httpx.AsyncClient, path: str) -> str:
    """Ask for pages that do not hold the whole list."""
    if path.endswith("/results"):
        return path  # its pages are as long as the work was portioned
    longest = await client.get(path, params={"limit": 200})
    return f"{path}?limit={(len(longest.json()['items']) + 1) // 2}"


async def test_every_list_leads_on_in_its_header_as_in_its_body(started: Running, url: str) -> None:
    assert len(LISTS) > 20
    client, named = started.client, await two_of_each(started, url)
    for operation in LISTS:
        path = operation.address(**{name: named[name] for name in operation.names})
        address = await half_of_all(client, path)
        items = await walked(client, address, is_endless=operation.path in FOR_EVER)
        assert len(items) > len((await client.get(address)).json()["items"]), f"{path}: one page holds all"
        assert len({repr(item) for item in items}) == len(items), f"{path}: an item came twice"
