"""The feed over HTTP: in order, for whom it concerns, for ever."""

from __future__ import annotations

import pytest

from service.access import Scope
from service.settings import Settings
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.keys import TenantsRepository
from service.web.schemas.changes import ChangeLine, ChangePage
from tests.factories.http import LABEL, Running, bearer, issue_key, problem, running

pytestmark = pytest.mark.anyio


def happen(application: Running, *kinds: str, tenant_id: str | None = None) -> None:
    with application.services.database.writing() as session:
        if tenant_id:
            TenantsRepository(session).ensure(tenant_id, tenant_id)
        for kind in kinds:
            ChangesRepository(session).append(kind, "mast", tenant_id, reason="a test")


async def test_the_feed_is_read_to_its_end_and_asked_again(published_url: str) -> None:
    async with running(Settings(database_url=published_url)) as application:
        happen(application, "verdicts.created", "verdicts.corrected", tenant_id="local")
        client, address = application.client, "/v1/changes?limit=2"
        seen: list[ChangeLine] = []
        while True:
            response = await client.get(address)
            page = ChangePage.model_validate_json(response.content)
            assert response.links["next"]["url"] == page.next
            address = page.next
            if not page.items:
                break
            seen += page.items
        assert [line.kind for line in seen] == ["release.published", "verdicts.created", "verdicts.corrected"]
        assert (seen[0].subject, seen[1].detail) == (LABEL, {"reason": "a test"})
        assert [line.serial for line in seen] == sorted({line.serial for line in seen})
        happen(application, "verdicts.withdrawn", tenant_id="local")
        again = ChangePage.model_validate_json((await client.get(address)).content)
    assert [line.kind for line in again.items] == ["verdicts.withdrawn"]


async def test_only_some_kinds_are_asked_for(published_url: str) -> None:
    async with running(Settings(database_url=published_url)) as application:
        happen(application, "a.a", "b.b", "c.c")
        page = (await application.client.get("/v1/changes?kind=a.a&kind=c.c")).json()
        assert [line["kind"] for line in page["items"]] == ["a.a", "c.c"]
        assert page["next"].endswith("&kind=a.a&kind=c.c")
        everything = (await application.client.get("/v1/changes?kind=*")).json()
        assert len(everything["items"]) == 4
        problem(await application.client.get("/v1/changes?kind=Not a kind"), 422, "invalid-request")
        problem(await application.client.get("/v1/changes?after=-1"), 422, "invalid-request")


async def test_what_concerns_others_is_left_out(published_url: str) -> None:
    async with running(Settings(database_url=published_url)) as application:
        happen(application, "verdicts.corrected", tenant_id="yard")
        mine = (await application.client.get("/v1/changes")).json()["items"]
        key = bearer(issue_key(published_url, Scope.READ, tenant_id="yard"))
        theirs = (await application.client.get("/v1/changes", headers=key)).json()["items"]
    assert [line["kind"] for line in mine] == ["release.published"]
    assert [line["kind"] for line in theirs] == ["release.published", "verdicts.corrected"]
