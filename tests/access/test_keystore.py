"""Callers are looked up without writing; what is noted about them is written apart from that."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import event, update
from sqlalchemy.exc import OperationalError

from service.access import create_key, set_client_blocked
from service.access.keystore import KeyStore
from service.storage import Database
from service.storage.repositories.keys import ApiKey, KeysRepository
from service.storage.tables import TenantRow, utc_now


def make(database: Database) -> ApiKey:
    with database.writing() as session:
        return create_key(session, "PLM", tenant_id="harbour", pepper="", by="test").key


def test_finding_a_key_writes_nothing(database: Database) -> None:
    key = make(database)
    statements: list[str] = []

    def note(_connection: object, _cursor: object, sql: str, *_: object) -> None:
        statements.append(sql.split(maxsplit=1)[0].upper())

    event.listen(database.engine, "before_cursor_execute", note)
    store = KeyStore(database)
    assert store.find(key.prefix) == key
    assert store.find("nobody") is None
    assert not {"INSERT", "UPDATE", "DELETE"} & set(statements)


def test_uses_are_written(database: Database) -> None:
    key, now = make(database), utc_now()
    store = KeyStore(database)
    store.note_uses({key.id: now})
    found = store.find(key.prefix)
    assert found is not None
    assert found.last_used_at == now


def test_a_hash_is_renewed(database: Database) -> None:
    key = make(database)
    store = KeyStore(database)
    store.renew(key.id, key.key_hash, "11" * 32)
    found = store.find(key.prefix)
    assert found is not None
    assert found.key_hash == "11" * 32


def test_no_key_of_a_disabled_tenant_is_found(database: Database) -> None:
    key = make(database)
    with database.writing() as session:
        session.execute(update(TenantRow).values(disabled_at=utc_now()))
    assert KeyStore(database).find(key.prefix) is None


def test_a_blocked_client_is_not_admitted(database: Database) -> None:
    make(database)
    store = KeyStore(database)
    assert store.is_admitted("harbour", "plm")
    with database.writing() as session:
        set_client_blocked(session, "plm", is_blocked=True, by="test")
    assert not store.is_admitted("harbour", "plm")


def test_a_database_that_cannot_be_written_still_answers(
    sqlite_url: str, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    database = Database.open(sqlite_url)
    key = make(database)
    database.close()
    read_only = Database.open(f"sqlite:///file:{tmp_path / 'faying.sqlite3'}?mode=ro&uri=true")
    store = KeyStore(read_only)
    assert store.find(key.prefix) == key
    store.renew(key.id, key.key_hash, "11" * 32)
    assert "hash of key not renewed" in caplog.text
    with pytest.raises(OperationalError):
        store.note_uses({key.id: utc_now()})
    with read_only.reading() as session:
        assert KeysRepository(session).find(key.prefix) == key
    read_only.close()
