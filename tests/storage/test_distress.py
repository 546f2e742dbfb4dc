"""What a database says in its distress, and what is a mistake of ours."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.exc import IntegrityError, SQLAlchemyError
from sqlalchemy.exc import TimeoutError as NoConnectionError

from service.storage import Database
from service.storage.distress import distress
from service.storage.errors import Distress

FILL = "INSERT INTO tenants (id, name, created_at) VALUES (:id, hex(zeroblob(100000)), '2026-01-01')"


def met(database: Database, *statements: str) -> Distress:
    """Run statements and return the distress that they meet."""
    with database.engine.begin() as connection:
        for statement in statements[:-1]:
            connection.execute(text(statement))
        with pytest.raises(SQLAlchemyError) as caught:
            connection.execute(text(statements[-1]), {"id": "large"})
        connection.rollback()
    found = distress(caught.value)
    assert found is not None
    assert found.distress.value in str(found)
    return found.distress


def test_a_full_disk(sqlite_url: str) -> None:
    with closing(Database.open(sqlite_url)) as database:
        assert met(database, "PRAGMA max_page_count = 1", FILL) is Distress.FULL


def test_a_database_that_takes_no_changes(sqlite_url: str, postgresql_url: str) -> None:
    with closing(Database.open(f"{sqlite_url.replace('///', '///file:')}?mode=ro&uri=true")) as database:
        assert met(database, "DELETE FROM tenants") is Distress.READ_ONLY
    with closing(Database.open(postgresql_url)) as database:
        standby = "SET TRANSACTION READ ONLY"
        assert met(database, standby, "DELETE FROM tenants") is Distress.READ_ONLY


def test_a_lock_that_somebody_holds(sqlite_url: str, postgresql_url: str) -> None:
    with closing(sqlite3.connect(sqlite_url.removeprefix("sqlite:///"))) as other:
        other.execute("BEGIN IMMEDIATE")
        with closing(Database.open(sqlite_url)) as database:
            assert met(database, "PRAGMA busy_timeout = 1", "DELETE FROM tenants") is Distress.BUSY
    with closing(Database.open(postgresql_url)) as database, database.engine.begin() as holder:
        holder.execute(text("LOCK TABLE tenants"))
        assert met(database, "SET LOCAL lock_timeout = 1", "DELETE FROM tenants") is Distress.BUSY
        slow = ("SET LOCAL statement_timeout = 1", "SELECT pg_sleep(1)")
        assert met(database, *slow) is Distress.BUSY


def test_a_file_that_is_no_database_any_more(tmp_path: Path) -> None:
    (tmp_path / "some.sqlite3").write_bytes(b"x" * 8192)
    with closing(Database.open(f"sqlite:///{tmp_path / 'some.sqlite3'}")) as database:
        with pytest.raises(SQLAlchemyError) as caught:
            database.engine.connect()
        found = distress(caught.value)
    assert found is not None
    assert found.distress is Distress.DAMAGED


@pytest.mark.parametrize("url", ["postgresql://nobody@127.0.0.1:9/none", "sqlite:////nowhere/some.sqlite3"])
def test_a_database_that_is_away(url: str) -> None:
    with closing(Database.open(url)) as database:
        with pytest.raises(SQLAlchemyError) as caught:
            database.engine.connect()
        found = distress(caught.value)
    assert found is not None
    assert found.distress is Distress.AWAY


def test_no_connection_is_free() -> None:
    found = distress(NoConnectionError("QueuePool limit reached"))
    assert found is not None
    assert found.distress is Distress.BUSY


def test_mistakes_of_ours_are_none(database: Database) -> None:
    for wrong in ("SELECT nothing FROM tenants", "SELEKT"):
        with pytest.raises(SQLAlchemyError) as caught, database.engine.begin() as connection:
            connection.execute(text(wrong))
        assert distress(caught.value) is None
    with pytest.raises(IntegrityError) as broken, database.engine.begin() as connection:
        connection.execute(text("INSERT INTO tenants (id) VALUES ('x')"))
    assert distress(broken.value) is None
    assert distress(ValueError("malformed")) is None
