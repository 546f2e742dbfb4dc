"""Tenants whose overlay does not fit a release are told, each alone, whichever way the release came."""

from __future__ import annotations

from typing import Any

import pytest

from service.storage import Database, publish, seed
from service.storage.misfits import MISFIT, misfits
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.storage.repositories.keys import TenantsRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.overlays import OverlaysRepository, Rows
from tests.factories.knowledge import catalogue_of, row, small_package

SPARE = "spare"
BANS = {"port": SPARE, "yard": small_package()["finishes"][0]["id"]}


@pytest.fixture
def harbour(database: Database) -> Database:
    """Two tenants with an overlay each; one of them names a finish that is about to go."""
    package = small_package()
    package["finishes"].append(row("finishes", id=SPARE, name="Spare"))
    with database.writing() as session:
        seed(session, package)
        publish(session, "2026.01.01-1", by="test")
        for tenant_id, finish_id in BANS.items():
            TenantsRepository(session).ensure(tenant_id, tenant_id.title())
            rows: Rows = {"bans": [{"finish_id": finish_id, "reason": "untried"}]}
            OverlaysRepository(session).keep_version(tenant_id, f"hash of {tenant_id}", rows, "ada")
    return database


def lines(database: Database, tenant_id: str) -> list[FeedLine]:
    with database.reading() as session:
        return ChangesRepository(session).since(0, tenant_id=tenant_id, kinds=(MISFIT,))


def test_whose_overlay_names_what_is_gone_is_told_which_row(harbour: Database) -> None:
    with harbour.writing() as session:
        KnowledgeRepository(session).delete("finishes", [SPARE])
        label = publish(session, by="test").label
    (line,) = lines(harbour, "port")
    assert (line.subject, line.tenant_id) == (label, "port")
    detail: dict[str, Any] = dict(line.detail)
    assert detail == {
        "reason": f"bans '{SPARE}': finish_id names '{SPARE}', which is not there",
        "rows": [{"table": "bans", "key": [SPARE], "field": "finish_id", "value": SPARE}],
        "more_rows": 0,
    }
    assert lines(harbour, "yard") == []


def test_a_release_that_all_overlays_fit_is_no_news(harbour: Database) -> None:
    with harbour.writing() as session:
        limit = small_package()["limits"][0] | {"limit_V": 0.15}
        KnowledgeRepository(session).update("limits", [limit])
        publish(session, by="test")
    assert lines(harbour, "port") == lines(harbour, "yard") == []


def test_rows_of_another_shape_do_not_stop_a_release(harbour: Database) -> None:
    with harbour.writing() as session:
        rows: Rows = {"limits": [{"id": "own", "colour": "blue"}]}
        OverlaysRepository(session).keep_version("port", "newer hash", rows, "ada")
        found = misfits(session, lambda: catalogue_of(small_package()))
    assert list(found) == ["port"]
    assert found["port"][0].table == "limits"


def test_the_release_is_not_read_where_there_is_no_overlay(database: Database) -> None:
    def read() -> Any:
        raise AssertionError

    with database.reading() as session:
        assert misfits(session, read) == {}
