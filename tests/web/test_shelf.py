"""Releases that are open: the current one is swapped whole, old ones are bounded."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing

import pytest
from sqlalchemy import event

from service.storage import Database, Shelf
from service.storage.errors import NothingPublishedError, UnknownReleaseError
from service.web.shelf import ReleaseShelf
from tests.factories.http import LABEL, publish_package
from tests.factories.knowledge import row, small_package


@pytest.fixture
def database(sqlite_url: str) -> Iterator[Database]:
    with closing(Database.open(sqlite_url)) as opened:
        yield opened


def publish(url: str, number: int) -> str:
    package = small_package()
    package["materials"].append(row("materials", id=f"m{number}", electrode_id="zinc"))
    label = f"2026.01.0{number}-1"
    publish_package(url, package, label)
    return label


def test_nothing_is_open_before_the_first_release(database: Database) -> None:
    shelf = ReleaseShelf(Shelf(database), 2)
    assert not shelf.refresh()
    assert shelf.current_hash == ""
    with pytest.raises(NothingPublishedError):
        _ = shelf.current
    with pytest.raises(NothingPublishedError):
        shelf.at_hand(None)


def test_a_newer_release_takes_the_place_of_the_current_one(database: Database, sqlite_url: str) -> None:
    publish_package(sqlite_url)
    shelf = ReleaseShelf(Shelf(database), 2)
    assert shelf.refresh()
    held = shelf.current
    newer = publish(sqlite_url, 2)
    assert shelf.current is held
    assert shelf.refresh()
    assert shelf.current.label == newer
    assert shelf.current_hash == shelf.current.content_hash != held.content_hash
    assert shelf.at_hand(LABEL) is held
    assert "m2" not in held.collections["materials"].keys


def test_old_releases_are_read_once_and_bounded(database: Database, sqlite_url: str) -> None:
    publish_package(sqlite_url)
    labels = [LABEL, *(publish(sqlite_url, number) for number in (2, 3, 4, 5))]
    shelf = ReleaseShelf(Shelf(database, 1), 2)
    shelf.refresh()
    statements: list[str] = []
    event.listen(
        database.engine,
        "before_cursor_execute",
        lambda _connection, _cursor, statement, *_rest: statements.append(statement),
    )
    opened = shelf.fetch(labels[1])
    assert opened.label == labels[1]
    assert statements
    statements.clear()
    assert shelf.fetch(labels[1]) is opened
    assert shelf.at_hand(labels[-1]) is shelf.current
    assert statements == []
    shelf.fetch(labels[2])
    shelf.fetch(labels[3])
    assert shelf.at_hand(labels[1]) is None


def test_an_unknown_release_is_said_to_be_so(database: Database, sqlite_url: str) -> None:
    publish_package(sqlite_url)
    shelf = ReleaseShelf(Shelf(database), 2)
    shelf.refresh()
    with pytest.raises(UnknownReleaseError):
        shelf.fetch("1999.01.01-1")
