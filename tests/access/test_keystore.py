"""Finding a key notes its use, and a note that fails does not matter."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import update

from service.access import create_key
from service.access.keystore import KeyStore
from service.storage import Database
from service.storage.repositories.keys import KeysRepository
from service.storage.tables import TenantRow, utc_now


def make(database: Database) -> str:
    with database.writing() as session:
        return create_key(session, "PLM", tenant_id="harbour", pepper="", by="test").key.prefix


def test_use_is_noted_the_first_time(database: Database) -> None:
    prefix = make(database)
    store = KeyStore(database)
    found = store.find(prefix)
    assert found is not None
    assert found.last_used_at is None
    again = store.find(prefix)
    assert again is not None
    assert again.last_used_at is not None
    assert store.find("nobody") is None


def test_no_key_of_a_disabled_tenant_is_found(database: Database) -> None:
    prefix = make(database)
    with database.writing() as session:
        session.execute(update(TenantRow).values(disabled_at=utc_now()))
    assert KeyStore(database).find(prefix) is None


def test_a_database_that_cannot_be_written_still_answers(
    sqlite_url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    database = Database.open(sqlite_url)
    prefix = make(database)
    database.close()
    read_only = Database.open(f"sqlite:///file:{tmp_path / 'faying.sqlite3'}?mode=ro&uri=true")
    found = KeyStore(read_only).find(prefix)
    assert found is not None
    with read_only.reading() as session:
        stored = KeysRepository(session).find(prefix)
    read_only.close()
    assert stored is not None
    assert stored.last_used_at is None
