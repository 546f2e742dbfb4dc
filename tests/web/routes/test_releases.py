"""Releases: who published what, and what changed between two."""

from __future__ import annotations

import shutil
import zipfile
from contextlib import closing
from pathlib import Path

import httpx
import pytest

from service.settings import Settings
from service.storage import Database, import_release
from service.storage.carrying import import_package
from service.web.schemas.releases import Release, ReleaseDifference, ReleasePage
from tests.factories.http import LABEL, problem, publish_package, running
from tests.factories.knowledge import small_package

pytestmark = pytest.mark.anyio

LATER = "2026.01.02-1"


def publish_later(url: str) -> None:
    package = small_package()
    package["limits"][0]["limit_V"] = 0.3
    package["measurements"].pop()
    publish_package(url, package, LATER)


async def test_releases_are_listed_newest_first_in_pages(published_url: str) -> None:
    publish_later(published_url)
    async with running(Settings(database_url=published_url)) as application:
        client = application.client
        response = await client.get("/v1/releases?limit=1")
        first = ReleasePage.model_validate_json(response.content)
        assert [release.label for release in first.items] == [LATER]
        assert response.links["next"]["url"] == first.next
        rest = ReleasePage.model_validate_json((await client.get(str(first.next))).content)
        assert ([release.label for release in rest.items], rest.next) == ([LABEL], None)


async def test_a_release_tells_who_published_it(client: httpx.AsyncClient) -> None:
    response = await client.get(f"/v1/releases/{LABEL}")
    release = Release.model_validate_json(response.content)
    assert (release.label, release.published_by) == (LABEL, "test")
    again = await client.get(f"/v1/releases/{LABEL}", headers={"If-None-Match": response.headers["etag"]})
    assert again.status_code == 304


async def test_what_changed_is_told_by_field(published_url: str) -> None:
    publish_later(published_url)
    async with running(Settings(database_url=published_url)) as application:
        address = f"/v1/releases/{LATER}/difference?since={LABEL}"
        response = await application.client.get(address)
        difference = ReleaseDifference.model_validate_json(response.content)
        assert (difference.before, difference.after, difference.count) == (LABEL, LATER, 2)
        limit, gone = difference.changes
        assert (limit.table, limit.key, limit.field) == ("limits", ("normal",), "limit_V")
        assert (limit.before, limit.after, limit.kind) == (0.25, 0.3, "corrected")
        assert (gone.table, gone.kind, gone.after) == ("measurements", "removed", None)
        only = await application.client.get(f"{address}&table=limits")
        assert only.json()["count"] == 1


async def test_unknown_releases_and_bad_cursors_are_problems(client: httpx.AsyncClient) -> None:
    problem(await client.get("/v1/releases/1999.01.01-1"), 404, "unknown-release")
    problem(await client.get(f"/v1/releases/{LABEL}/difference?since=1999"), 404, "unknown-release")
    problem(await client.get(f"/v1/releases/1999/difference?since={LABEL}"), 404, "unknown-release")
    problem(await client.get(f"/v1/releases/{LABEL}/difference"), 422, "invalid-request")
    for cursor in ("x", "Ig", "MQ"):
        problem(await client.get(f"/v1/releases?cursor={cursor}"), 404, "bad-cursor")


@pytest.mark.parametrize("form", ["file", "package"])
async def test_two_servers_with_the_same_release_give_the_same_bytes(
    published_url: str, sqlite_template: Path, tmp_path: Path, form: str
) -> None:
    other_url = f"sqlite:///{shutil.copy(sqlite_template, tmp_path / 'other.sqlite3')}"
    couple = {"first": "S235JR", "second": "1.0038", "environment": "harbour"}
    async with running(Settings(database_url=published_url)) as here:
        carried = await here.client.get(f"/v1/releases/{LABEL}/export?form={form}")
        again = {"If-None-Match": carried.headers["etag"]}
        held = await here.client.get(f"/v1/releases/{LABEL}/export?form={form}", headers=again)
        assert held.status_code == 304
        answer = await here.client.get("/v1/couples", params=couple)
    path = tmp_path / carried.headers["content-disposition"].split('"')[1]
    path.write_bytes(carried.content)
    with closing(Database.open(other_url)) as database, database.writing() as session:
        if form == "file":
            import_release(session, path)
        else:
            with zipfile.ZipFile(path) as archive:
                archive.extractall(tmp_path / "package")
            import_package(session, tmp_path / "package")
    async with running(Settings(database_url=other_url)) as there:
        assert (await there.client.get("/v1/couples", params=couple)).content == answer.content
        exported = await there.client.get(f"/v1/releases/{LABEL}/export?form={form}")
        assert exported.content == carried.content
        problem(await there.client.get("/v1/releases/1999/export"), 404, "unknown-release")
