from __future__ import annotations

import pytest
from sqlalchemy import event

from service.storage import Database, Shelf, publish, seed
from service.storage.errors import NothingPublishedError, UnknownReleaseError
from tests.factories.knowledge import small_package


def publish_limit(database: Database, limit_V: float) -> str:
    package = small_package()
    package["limits"][0]["limit_V"] = limit_V
    with database.writing() as session:
        seed(session, package)
        return publish(session, by="test").label


@pytest.fixture
def statements(database: Database) -> list[str]:
    seen: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        seen.append(statement)

    event.listen(database.engine, "before_cursor_execute", note)
    return seen


def test_there_is_no_current_catalogue_before_the_first_release(database: Database) -> None:
    shelf = Shelf(database)
    assert not shelf.refresh()
    with pytest.raises(NothingPublishedError):
        _ = shelf.current


def test_refresh_brings_the_newest_release(database: Database) -> None:
    shelf = Shelf(database)
    first = publish_limit(database, 0.1)
    assert shelf.refresh()
    assert shelf.current.label == first
    assert not shelf.refresh()
    publish_limit(database, 0.2)
    assert shelf.current.label == first
    assert shelf.refresh()
    assert shelf.current.limits["normal"].limit_V == 0.2


def test_what_is_at_hand_costs_no_sql(database: Database, statements: list[str]) -> None:
    first = publish_limit(database, 0.1)
    second = publish_limit(database, 0.2)
    shelf = Shelf(database)
    shelf.refresh()
    old = shelf.as_of(first)
    statements.clear()
    assert shelf.current is shelf.as_of(second)
    assert shelf.as_of(first) is old
    assert statements == []


def test_the_shelf_keeps_the_last_ones_asked_for(database: Database, statements: list[str]) -> None:
    labels = [publish_limit(database, step / 10) for step in range(1, 4)]
    shelf = Shelf(database, size=2)
    for label in (labels[0], labels[1], labels[0], labels[2]):
        shelf.as_of(label)
    statements.clear()
    shelf.as_of(labels[0])
    shelf.as_of(labels[2])
    assert statements == []
    shelf.as_of(labels[1])
    assert statements != []


def test_an_unknown_release_is_named(database: Database) -> None:
    with pytest.raises(UnknownReleaseError):
        Shelf(database).as_of("yesterday")
