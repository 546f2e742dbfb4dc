"""A release that cannot be opened is not published."""

from __future__ import annotations

from typing import Any

import pytest

from service.access import Scope
from service.settings import Settings
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.releases import ReleasesRepository
from service.web.schemas.releases import PublicationPreview
from tests.factories.http import LABEL, bearer, faults, issue_key, problem, running
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


async def test_what_would_come_out_is_told_before_it_does(published_url: str) -> None:
    limit = small_package()["limits"][0]
    change = {"table": "limits", "key": [limit["id"]], "record": {"limit_V": 0.2}, "reason": "Better source."}
    reviewer = bearer(issue_key(published_url, Scope.REVIEW))
    async with running(Settings(database_url=published_url)) as application:
        client = application.client
        made = (await client.post("/v1/proposals", json=change)).json()
        review = {"decision": "approve", "text": "Read."}
        await client.post(f"{made['address']}/review", json=review, headers=reviewer)
        told = PublicationPreview.model_validate_json((await client.get("/v1/publication")).content)
        again = PublicationPreview.model_validate_json((await client.get("/v1/publication")).content)
        published = (await client.post("/v1/releases", json={})).json()
        nothing = PublicationPreview.model_validate_json((await client.get("/v1/publication")).content)
    assert told == again
    assert [each.id for each in told.published] == [each["id"] for each in published["published"]]
    assert [(each.table, each.field, each.after) for each in told.changes] == [("limits", "limit_V", 0.2)]
    assert (told.assemblies, told.joints, told.overlay_misfits) == (0, 0, 0)
    assert (nothing.published, nothing.changes) == ((), ())


async def test_a_release_that_could_not_be_opened_is_told_beforehand(published_url: str) -> None:
    async with running(Settings(database_url=published_url)) as application:
        with application.services.database.writing() as session:
            spoilt = small_package()["rules"][0] | {"trigger": "{}"}
            KnowledgeRepository(session).update("rules", [spoilt])
        problem(await application.client.get("/v1/publication"), 409, "unusable-release")
