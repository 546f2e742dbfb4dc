from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from service.storage import Database
from service.storage.repositories.audit import AuditLine, AuditRepository


@pytest.fixture
def lines(database: Database) -> list[AuditLine]:
    with database.writing() as session:
        audit = AuditRepository(session)
        return [
            audit.append("ada", "key.created", "key", "k1", name="ci"),
            audit.append("ben", "key.created", "key", "k2"),
            audit.append("ada", "proposal.made", "proposal", "p1"),
        ]


def test_lines_come_back_newest_first(database: Database, lines: list[AuditLine]) -> None:
    with database.reading() as session:
        assert list(AuditRepository(session).page().items) == lines[::-1]
    assert lines[0].detail == {"name": "ci"}


def test_pages_follow_one_another(database: Database, lines: list[AuditLine]) -> None:
    with database.reading() as session:
        audit = AuditRepository(session)
        first = audit.page(limit=2)
        second = audit.page(limit=2, cursor=first.next_cursor)
    assert [*first.items, *second.items] == lines[::-1]
    assert second.next_cursor == ""


@pytest.mark.parametrize(
    ("filters", "serials"),
    [
        ({"actor": "ada"}, [2, 0]),
        ({"subject_kind": "key"}, [1, 0]),
        ({"subject_kind": "key", "subject_id": "k2"}, [1]),
        ({"actor": "nobody"}, []),
    ],
)
def test_lines_can_be_filtered(
    database: Database, lines: list[AuditLine], filters: dict[str, Any], serials: list[int]
) -> None:
    with database.reading() as session:
        assert list(AuditRepository(session).page(**filters).items) == [lines[n] for n in serials]


@pytest.mark.parametrize("table", ["audit", "releases"])
@pytest.mark.parametrize("change", ["UPDATE {} SET serial = serial + 1", "DELETE FROM {}"])
def test_no_line_and_no_release_can_be_changed_or_deleted(
    database: Database, lines: list[AuditLine], release_label: str, table: str, change: str
) -> None:
    with pytest.raises(DBAPIError, match=f"{table} is append-only"), database.writing() as session:
        session.execute(text(change.format(table)))
    with database.reading() as session:
        actions = [line.action for line in AuditRepository(session).page().items]
    assert actions == ["release.published", *(line.action for line in lines[::-1])]


def test_the_tables_cannot_be_emptied_on_postgresql(postgresql_url: str) -> None:
    database = Database.open(postgresql_url)
    for table in ("audit", "releases CASCADE"):
        with pytest.raises(DBAPIError, match="append-only"), database.writing() as session:
            session.execute(text(f"TRUNCATE {table}"))
    database.close()
