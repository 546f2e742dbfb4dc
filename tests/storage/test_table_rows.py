"""Rows are taken out and put back as they are, on both databases."""

from __future__ import annotations

from contextlib import closing
from datetime import UTC, datetime

import pytest
from sqlalchemy import inspect, text
from sqlalchemy.exc import DBAPIError

from service.storage import Database, publish, seed, table_rows
from service.storage.backup_file import TableHead, Values
from service.storage.repositories.audit import AuditRepository
from service.storage.tables import Row
from tests.factories.knowledge import small_package

Lines = list[TableHead | Values]


def everything(database: Database) -> Lines:
    lines: Lines = []
    with database.reader.connect() as connection:
        for head, rows in table_rows.read(connection):
            lines += [head, *rows]
    return lines


@pytest.fixture
def filled(database: Database) -> Database:
    with database.writing() as session:
        seed(session, small_package())
        publish(session, by="test")
    return database


def test_all_tables_are_read_each_after_those_that_it_names(filled: Database) -> None:
    names = [line.table for line in everything(filled) if isinstance(line, TableHead)]
    assert set(names) == set(Row.metadata.tables)
    for name in names:
        for key in inspect(filled.engine).get_foreign_keys(name):
            if not key["options"].get("deferrable"):
                assert names.index(key["referred_table"]) <= names.index(name)


def test_moments_are_in_utc_and_bytes_are_bytes(filled: Database) -> None:
    lines = everything(filled)
    place = next(
        n for n, line in enumerate(lines) if isinstance(line, TableHead) and line.table == "releases"
    )
    head, row = lines[place], lines[place + 1]
    assert isinstance(head, TableHead)
    values = dict(zip(head.columns, row, strict=True))  # type: ignore[arg-type]  # the line after a head is a row
    assert isinstance(values["published_at"], datetime)
    assert values["published_at"].tzinfo == UTC
    assert isinstance(values["blob"], bytes)


def test_what_was_cleared_can_be_put_back(filled: Database) -> None:
    before = everything(filled)
    with filled.writing() as session:
        table_rows.clear(session.connection())
        assert table_rows.count(session.connection()) == 0
        table_rows.put_back(session.connection(), before)
    assert everything(filled) == before
    with filled.reader.connect() as connection:
        assert table_rows.count(connection) == sum(1 for line in before if isinstance(line, tuple))


def test_clearing_leaves_the_guards_on(filled: Database) -> None:
    with filled.writing() as session:
        table_rows.clear(session.connection())
        seed(session, small_package())
        publish(session, by="test")
    for table in ("audit", "releases"):
        with pytest.raises(DBAPIError, match="append-only"), filled.writing() as session:
            session.execute(text(f"DELETE FROM {table}"))  # noqa: S608 - names from the line above


def test_serial_numbers_go_on_after_the_highest(filled: Database) -> None:
    before = everything(filled)
    with filled.writing() as session:
        table_rows.clear(session.connection())
        table_rows.put_back(session.connection(), before)
        highest = session.scalar(text("SELECT max(serial) FROM audit")) or 0
        AuditRepository(session).append("test", "tested", "release", "1")
        assert session.scalar(text("SELECT max(serial) FROM audit")) == highest + 1


def test_tables_that_are_not_there_yet_hold_nothing(empty_database_url: str) -> None:
    with closing(Database.open(empty_database_url)) as database, database.reader.connect() as connection:
        assert table_rows.count(connection) == 0
