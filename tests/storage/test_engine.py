from __future__ import annotations

import threading
import time
from contextlib import closing

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError, IntegrityError

from service.storage import Database
from service.storage.engine import portable_url
from service.storage.errors import ReadOnlySessionError
from service.storage.tables import ElectrodeRow, LimitRow, SourceRow, TenantRow
from tests.factories.knowledge import row


def test_a_write_session_commits_on_success_and_rolls_back_on_any_exception(database: Database) -> None:
    with database.writing() as session:
        session.add(TenantRow(id="port", name="Port"))
    with pytest.raises(IntegrityError), database.writing() as session:
        session.add_all([TenantRow(id="yard", name="Yard"), TenantRow(id="port", name="again")])
    with database.reading() as session:
        assert session.get(TenantRow, "port") is not None
        assert session.get(TenantRow, "yard") is None


def test_a_read_session_cannot_commit(database: Database) -> None:
    with database.reading() as session, pytest.raises(ReadOnlySessionError):
        session.commit()


def test_a_read_session_cannot_write_through_objects(database: Database) -> None:
    with database.writing() as session:
        session.add(TenantRow(id="port", name="Port"))
    with database.reading() as session:
        tenant = session.get_one(TenantRow, "port")
        session.flush()
        tenant.name = "Harbour"
        with pytest.raises(ReadOnlySessionError):
            session.flush()


def test_a_read_session_cannot_write_through_sql(database: Database) -> None:
    with database.reading() as session, pytest.raises(DBAPIError, match=r"(?i)read-?only"):
        session.execute(text("DELETE FROM tenants"))
    with database.writing() as session:
        session.execute(text("DELETE FROM tenants"))


def test_foreign_keys_are_enforced(database: Database) -> None:
    with pytest.raises(IntegrityError), database.writing() as session:
        session.add(LimitRow(**row("limits", id="house", scale_id="none", source_id="none")))


def test_a_deferred_foreign_key_is_enforced_at_the_commit(database: Database) -> None:
    electrode = row("electrodes", id="zinc", representative_material_id="nowhere")
    with database.writing() as session:
        session.add(SourceRow(**row("sources", id="invented")))
    with pytest.raises(IntegrityError), database.writing() as session:
        session.add(ElectrodeRow(**electrode))


def test_sqlite_is_set_up_for_a_service(sqlite_url: str) -> None:
    with closing(Database.open(sqlite_url)) as database, database.reading() as session:
        assert database.is_sqlite
        assert session.scalar(text("PRAGMA foreign_keys")) == 1
        assert session.scalar(text("PRAGMA journal_mode")) == "wal"
        assert session.scalar(text("PRAGMA busy_timeout")) == 10_000
        assert session.scalar(text("PRAGMA synchronous")) == 1


def test_a_second_writer_waits_for_the_first(database: Database) -> None:
    entered = threading.Event()

    def first() -> None:
        with database.writing() as session:
            session.add(TenantRow(id="port", name="Port"))
            session.flush()
            entered.set()
            time.sleep(0.2)

    thread = threading.Thread(target=first)
    thread.start()
    assert entered.wait(5)
    with database.writing() as session:
        session.add(TenantRow(id="yard", name="Yard"))
    thread.join()
    with database.reading() as reader:
        assert reader.get(TenantRow, "port") is not None


def test_a_reader_is_not_blocked_by_a_writer(database: Database) -> None:
    with database.writing() as writer:
        writer.add(TenantRow(id="port", name="Port"))
        writer.flush()
        with database.reading() as reader:
            assert reader.get(TenantRow, "port") is None


@pytest.mark.parametrize("name", ["postgresql", "postgres", "postgresql+psycopg"])
def test_every_spelling_of_postgresql_uses_the_tested_driver(name: str) -> None:
    assert portable_url(f"{name}://user@host/base").drivername == "postgresql+psycopg"
