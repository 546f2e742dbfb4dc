"""A release that cannot be opened is not published."""

from __future__ import annotations

from typing import Any

import pytest

from service.settings import Settings
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.releases import ReleasesRepository
from tests.factories.http import LABEL, faults, problem, running
from tests.factories.knowledge import small_package

pytestmark = pytest.mark.anyio


@pytest.mark.parametrize(
    ("table", "spoilt"), [("mitigations", {"parameters": "{"}), ("rules", {"trigger": "{}"})]
)
async def test_nothing_is_published_that_the_service_could_not_open(
    published_url: str, table: str, spoilt: dict[str, str]
) -> None:
    async with running(Settings(database_url=published_url)) as application:
        with application.services.database.writing() as session:
            KnowledgeRepository(session).update(table, [small_package()[table][0] | spoilt])
        problem(await application.client.post("/v1/releases", json={}), 409, "unusable-release")
        with application.services.database.reading() as session:
            assert [info.label for info in ReleasesRepository(session).page().items] == [LABEL]


@pytest.mark.parametrize(
    ("body", "status", "slug", "pointers"),
    [
        ({"label": "a b"}, 422, "invalid-request", {"/label"}),
        ({"label": LABEL}, 409, "release-label-taken", set()),
    ],
)
async def test_a_label_must_be_one_and_free(
    published_url: str, body: dict[str, Any], status: int, slug: str, pointers: set[str]
) -> None:
    async with running(Settings(database_url=published_url)) as application:
        with application.services.database.writing() as session:
            limit = small_package()["limits"][0] | {"limit_V": 0.2}
            KnowledgeRepository(session).update("limits", [limit])
        refused = problem(await application.client.post("/v1/releases", json=body), status, slug)
        assert set(faults({"errors": [], **refused})) == pointers


async def test_the_first_release_can_be_published_too(sqlite_url: str) -> None:
    async with running(Settings(database_url=sqlite_url)) as application:
        response = await application.client.post("/v1/releases", json={"label": "2026.01.01-1"})
        assert (response.status_code, response.headers["location"]) == (201, "/v1/releases/2026.01.01-1")
        assert application.services.shelf.current.label == "2026.01.01-1"
