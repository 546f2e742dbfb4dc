"""Readiness says what is missing."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from service.storage import Database, Shelf
from service.web.readiness import database_check, release_check
from service.web.shelf import ReleaseShelf
from tests.factories.http import LABEL, publish_package


def test_a_release_has_to_be_open(sqlite_url: str) -> None:
    with closing(Database.open(sqlite_url)) as database:
        shelf = ReleaseShelf(Shelf(database), 1)
        assert not release_check(shelf)["is_ready"]
        publish_package(sqlite_url)
        shelf.refresh()
        assert release_check(shelf) == {"name": "release", "is_ready": True, "detail": f"{LABEL} is open"}


def test_the_database_has_to_answer(sqlite_url: str, tmp_path: Path) -> None:
    with closing(Database.open(sqlite_url)) as database:
        assert database_check(database)["is_ready"]
    with closing(Database.open(f"sqlite:///{tmp_path / 'missing' / 'x.sqlite3'}")) as missing:
        check = database_check(missing)
    assert not check["is_ready"]
    assert "missing" not in check["detail"]
