"""An answer issued under one release stays what it was, over HTTP and on both databases."""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass

import httpx
import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from service.access import EVERYTHING
from service.settings import Settings
from service.storage import Database
from tests.factories.http import LABEL, bearer, issue_key, publish_package, running

pytestmark = pytest.mark.anyio

COUPLE = {"first": "S235JR", "second": "1.0038", "environment": "harbour"}
LATER_RELEASES = 10


@dataclass(frozen=True)
class Curators:
    """Two keys, because nobody reviews what is their own."""

    author: dict[str, str]
    reviewer: dict[str, str]


async def publish_another(client: httpx.AsyncClient, curators: Curators, number: int) -> str:
    """Bring one changed figure out, the whole way over HTTP."""
    change = {
        "table": "limits",
        "key": ["normal"],
        "record": {"limit_V": number / 100},
        "reason": f"printing {number}",
    }
    made = await client.post("/v1/proposals", json=change, headers=curators.author)
    assert made.status_code == 201, made.text
    address = made.json()["address"]
    approve = {"decision": "approve"}
    reviewed = await client.post(f"{address}/review", json=approve, headers=curators.reviewer)
    assert reviewed.status_code == 200, reviewed.text
    published = await client.post("/v1/releases", json={"note": change["reason"]}, headers=curators.author)
    assert published.status_code == 201, published.text
    return str(published.json()["release"]["label"])


async def test_an_answer_is_served_byte_for_byte_after_ten_later_releases(database_url: str) -> None:
    publish_package(database_url)
    curators = Curators(*(bearer(issue_key(database_url, *EVERYTHING)) for _ in range(2)))
    settings = Settings(database_url=database_url)
    async with running(settings, key=None) as application:
        client = application.client
        issued = await client.get("/v1/couples", params=COUPLE, headers=curators.author)
        assert issued.status_code == 200, issued.text
        assert issued.json()["release"]["label"] == LABEL
        labels = [await publish_another(client, curators, number) for number in range(1, LATER_RELEASES + 1)]
        assert len(set(labels)) == LATER_RELEASES
        today = await client.get("/v1/couples", params=COUPLE, headers=curators.author)
        assert today.json()["release"]["label"] == labels[-1]
        assert today.json()["digest"] != issued.json()["digest"]
        await assert_served(client, curators, issued)
    async with running(settings, key=None) as restarted:
        await assert_served(restarted.client, curators, issued)


async def assert_served(client: httpx.AsyncClient, curators: Curators, issued: httpx.Response) -> None:
    """The stored bytes at its address, and the same bytes when it is asked again as of its release."""
    kept = await client.get(issued.json()["address"], headers=curators.author)
    again = await client.get("/v1/couples", params=COUPLE | {"as_of": LABEL}, headers=curators.author)
    assert kept.content == again.content == issued.content
    assert kept.headers["etag"] == again.headers["etag"] == issued.headers["etag"]
    assert kept.headers["repr-digest"] == issued.headers["repr-digest"]


@pytest.mark.parametrize(
    ("statement", "table"),
    [
        ("UPDATE audit SET actor = 'nobody'", "audit"),
        ("DELETE FROM audit", "audit"),
        ("UPDATE releases SET note = 'better'", "releases"),
        ("DELETE FROM releases", "releases"),
        ("UPDATE overlay_versions SET overlay_hash = ''", "overlay_versions"),
        ("DELETE FROM overlay_versions", "overlay_versions"),
    ],
)
async def test_what_a_replay_rests_on_cannot_be_changed(
    database_url: str, statement: str, table: str
) -> None:
    publish_package(database_url)
    key = bearer(issue_key(database_url, *EVERYTHING))
    ban = {"table": "bans", "record": {"finish_id": "nickel-plate", "reason": "house rule 7"}}
    async with running(Settings(database_url=database_url), key=None) as application:
        put = await application.client.put("/v1/overlay", json={"rows": [ban]}, headers=key)
        assert put.status_code == 200, put.text
        before = (await application.client.get("/v1/audit", headers=key)).content
        with (
            closing(Database.open(database_url)) as other,
            pytest.raises(DBAPIError, match=f"{table} is append-only"),
            other.writing() as session,
        ):
            session.execute(text(statement))
        assert (await application.client.get("/v1/audit", headers=key)).content == before
