"""What belongs to one tenant is not there for another, and nothing tells that it is there at all."""

from __future__ import annotations

import re
import secrets
from collections.abc import AsyncIterator
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import anyio
import httpx
import pytest

from service.access import EVERYTHING, create_key
from service.settings import Settings
from service.storage import Database
from tests.contract.walk import CHANGING, NAMED, OPERATIONS, Operation, Whose, write_table
from tests.factories.http import Running, bearer, running, seeded_copy

pytestmark = pytest.mark.anyio

GENEROUS = 1_000_000
CANARY = "wreck-buoy-7"
"""Stands in everything that the owner keeps, and must not reach anybody else."""

PLACE = "marine-atmosphere-0-100-m"
ASSEMBLY: dict[str, Any] = {
    "name": CANARY,
    "programme": {"environment": PLACE},
    "parts": [
        {"part_number": f"{CANARY}-1", "surface": "EN AW-6082-T6"},
        {"part_number": f"{CANARY}-2", "surface": "A4-80"},
    ],
    "joints": [{"id": CANARY, "first": f"{CANARY}-1", "second": f"{CANARY}-2"}],
}
BODIES: dict[str, Any] = {"store_assembly": ASSEMBLY, "replay_webhook": {"after": 0}}
ORDER = ("GET", "POST", "DELETE", "PUT")
"""What makes a thing of the caller's own under the same name comes last."""

VARYING = re.compile(
    r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}|\d{4}-\d\d-\d\dT[0-9:.]+(Z|\+00:00)|(job|webhook)_[0-9a-f]{30}"
)


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@dataclass(frozen=True)
class Harbour:
    """A service with two tenants: the owner of things, and somebody who would like to see them."""

    running: Running
    owner: dict[str, str]
    stranger: dict[str, str]
    things: dict[str, str]

    async def send(self, operation: Operation, who: dict[str, str], **values: str) -> httpx.Response:
        """Send an operation with the example of its body."""
        body = BODIES.get(operation.entry["operationId"], operation.body())
        address = operation.address(**values)
        return await self.running.client.request(operation.method, address, headers=who, json=body)


@pytest.fixture(scope="module")
def url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    return seeded_copy(sqlite_template, tmp_path_factory.mktemp("tenants"))


@pytest.fixture
async def harbour(url: str, anyio_backend: str) -> AsyncIterator[Harbour]:
    keys = []
    for tenant_id in (f"{CANARY}-{secrets.token_hex(4)}", f"stranger-{secrets.token_hex(4)}"):
        with closing(Database.open(url)) as database, database.writing() as session:
            made = create_key(session, "walk", tenant_id=tenant_id, pepper="", by="test", scopes=EVERYTHING)
            keys.append(bearer(made.text))
    settings = Settings.model_validate(
        {
            "database_url": url,
            "requests_per_minute": GENEROUS,
            "request_burst": GENEROUS,
            "log_level": "WARNING",
            "webhook_poll_s": 3600.0,  # how far a webhook has read is no news between two looks at it
        }
    )
    async with running(settings, key=None) as started:
        owner, stranger = keys
        yield Harbour(started, owner, stranger, await things_of(started, owner))


async def things_of(started: Running, owner: dict[str, str]) -> dict[str, str]:
    """Keep one thing of each kind for the owner, and say what names it in a path."""
    client = started.client
    stored = await client.put(f"/v1/assemblies/stored/{CANARY}", json=ASSEMBLY, headers=owner)
    couples = {
        "couples": [{"first": "A4-80", "second": "S235JR", "ref": CANARY}],
        "defaults": {"environment": PLACE},
    }
    job = await client.post("/v1/jobs?kind=batch", json=couples, headers=owner)
    hook = {"url": f"https://{CANARY}.example/hook", "events": ["verdicts.corrected"]}
    webhook = await client.post("/v1/webhooks", json=hook, headers=owner)
    ban = {"table": "bans", "record": {"finish_id": "cd-clear", "reason": CANARY}}
    overlay = await client.put("/v1/overlay", json={"rows": [ban]}, headers=owner)
    policy = await client.put(f"/v1/policies/{CANARY}", json={"name": CANARY}, headers=owner)
    query = {"first": "A4-80", "second": "S235JR", "environment": PLACE}
    answer = await client.get("/v1/couples", params=query, headers=owner)
    assert [each.status_code for each in (stored, job, webhook, overlay, policy, answer)] == [
        201, 202, 201, 200, 201, 200
    ]  # fmt: skip
    for path in (job.json()["address"], stored.json()["job"]["address"]):
        await until_done(client, path, owner)
    return {
        "name": CANARY,
        "job_id": job.json()["id"],
        "webhook_id": webhook.json()["id"],
        "digest": marked(started, answer.json()["digest"]),
    }


async def until_done(client: httpx.AsyncClient, path: str, owner: dict[str, str]) -> None:
    for _ in range(600):
        if (await client.get(path, headers=owner)).json()["state"] == "done":
            return
        await anyio.sleep(0.05)
    raise AssertionError(path)


def marked(started: Running, digest: str) -> str:
    """Keep a copy of an answer that rests on an overlay, with the canary in it."""
    held = started.services
    kept = held.answers.recall(digest)
    assert kept is not None
    assert kept.tenant_id is not None
    private = replace(
        kept,
        digest=secrets.token_hex(32),
        body=kept.body.replace(b"{", f'{{"{CANARY}":1,'.encode(), 1),
        repr_digests={},
    )
    held.answers.keep(private)
    return private.digest


def like(name: str, value: str) -> str:
    """Make up a name of the same form and length that nobody has given."""
    if name == "name":
        return "x" * len(value)
    return value[:-8] + secrets.token_hex(4)


def comparable(response: httpx.Response, *names: str) -> tuple[int, str, dict[str, str]]:
    """Return everything that a caller can tell two answers apart by, without what varies in any case."""

    def same(text: str) -> str:
        for name in names:
            text = text.replace(name, "<name>")
        return VARYING.sub("<varies>", text)

    ignored = {"ratelimit", "ratelimit-policy", "x-request-id", "date"}
    headers = {name: same(value) for name, value in response.headers.items() if name not in ignored}
    return response.status_code, same(response.text), headers


OWNED = sorted(
    (each for each in OPERATIONS if any(NAMED[name] is Whose.TENANT for name in each.names)),
    key=lambda operation: ORDER.index(operation.method),
)


async def test_a_thing_of_another_tenant_is_answered_like_one_that_does_not_exist(harbour: Harbour) -> None:
    """The second security table: statuses for the owner, for a stranger, and for a name that nobody has."""
    rows: list[list[str]] = []
    wrong: list[tuple[object, ...]] = []
    for operation in OWNED:
        (name,) = operation.names
        theirs, nobodys = harbour.things[name], like(name, harbour.things[name])
        seen = await harbour.send(operation, harbour.stranger, **{name: theirs})
        nothing = await harbour.send(operation, harbour.stranger, **{name: nobodys})
        if comparable(seen, theirs) != comparable(nothing, nobodys):
            wrong.append((operation.name, comparable(seen, theirs), comparable(nothing, nobodys)))
        if operation.method != "PUT" and seen.status_code != 404:
            wrong.append((operation.name, seen.status_code, seen.text))
        rows.append([operation.name, str(seen.status_code), str(nothing.status_code)])
    for row, operation in zip(rows, OWNED, strict=True):
        (name,) = operation.names
        owned = await harbour.send(operation, harbour.owner, **{name: harbour.things[name]})
        row.insert(1, str(owned.status_code))
        if operation.method == "GET" and owned.status_code != 200:
            wrong.append((operation.name, owned.status_code, owned.text))
    head = ("operation", "owner", "another tenant", "a name that nobody has")
    write_table("tenants.md", "Operations and tenants", head, [tuple(row) for row in rows])
    assert wrong == []


async def test_nothing_that_a_stranger_does_changes_what_the_owner_has(harbour: Harbour) -> None:
    reading = [operation for operation in OWNED if operation.method == "GET"]

    async def read() -> list[str]:
        found = [await harbour.send(each, harbour.owner, **harbour.things) for each in reading]
        assert {response.status_code for response in found} == {200}
        return [response.text for response in found]

    before = await read()
    for operation in OWNED:
        if operation.method != "GET":
            await harbour.send(operation, harbour.stranger, **harbour.things)
    assert await read() == before


async def test_no_list_shows_a_stranger_anything_of_the_owner(harbour: Harbour) -> None:
    lists = [operation for operation in OPERATIONS if operation.method == "GET" and not operation.names]
    shown_to_owner = 0
    for operation in lists:
        address = operation.address()
        query = {"environment": PLACE, "first": "A4-80", "second": "S235JR"} if "couples" in address else {}
        mine, theirs = [
            await harbour.running.client.get(address, params=query, headers=who)
            for who in (harbour.owner, harbour.stranger)
        ]
        assert (mine.status_code, theirs.status_code) == (200, 200), operation.name
        shown_to_owner += CANARY in mine.text
        assert CANARY not in theirs.text, operation.name
        for thing in (harbour.things["job_id"], harbour.things["webhook_id"]):
            assert thing not in theirs.text, operation.name
    assert shown_to_owner >= 4, "the owner's own lists do not show the canary: this test looks at nothing"


async def test_a_write_is_not_replayed_to_another_tenant(harbour: Harbour) -> None:
    client = harbour.running.client
    hook = {"url": f"https://{CANARY}.example/second", "events": ["verdicts.corrected"]}
    made = [
        await client.post("/v1/webhooks", json=hook, headers={**who, "Idempotency-Key": "the same"})
        for who in (harbour.owner, harbour.stranger, harbour.owner)
    ]
    assert [response.headers.get("idempotency-replayed") for response in made] == [None, None, "true"]
    assert made[0].json()["secret"] != made[1].json()["secret"]


def test_every_write_to_the_own_tenant_is_walked_or_makes_something_new() -> None:
    """An operation without a name in its path can only touch what the caller's tenant has."""
    named = {operation.name for operation in OWNED}
    tenants = {name for name, whose in CHANGING.items() if whose is Whose.TENANT}
    assert {name for name in tenants if "{" in name} <= named
