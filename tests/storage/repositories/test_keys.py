"""Tenants and keys are stored without secrets, and never forgotten."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from sqlalchemy import update

from service.storage import Database
from service.storage.repositories.keys import ApiKey, KeysRepository, TenantsRepository
from service.storage.tables import TenantRow

NOW = datetime(2026, 1, 2, 3, 4, 5, tzinfo=UTC)
KEY = ApiKey("key_1", "abcdefghjk", "00" * 32, "PLM", "harbour", ("couples:judge",), NOW, None, None, None)


def add_key(database: Database, key: ApiKey = KEY) -> None:
    with database.writing() as session:
        TenantsRepository(session).ensure("harbour", "Port of Skerrivoe")
        KeysRepository(session).add(key)


def test_a_tenant_is_added_once(database: Database) -> None:
    with database.writing() as session:
        tenants = TenantsRepository(session)
        first = tenants.ensure("harbour", "Port of Skerrivoe")
        assert tenants.ensure("harbour", "another name") == first
        assert tenants.all() == [first]
        assert tenants.find("quay") is None


def test_a_key_reads_back_by_prefix_and_identifier(database: Database) -> None:
    add_key(database)
    with database.reading() as session:
        keys = KeysRepository(session)
        assert keys.find_valid("abcdefghjk") == keys.find("key_1") == keys.find("abcdefghjk") == KEY
        assert keys.find_valid("key_1") is None
        assert keys.all() == keys.all("harbour") == [KEY]
        assert keys.all("quay") == []


def test_a_key_of_a_disabled_tenant_is_not_valid(database: Database) -> None:
    add_key(database)
    with database.writing() as session:
        session.execute(update(TenantRow).values(disabled_at=NOW))
    with database.reading() as session:
        assert KeysRepository(session).find_valid("abcdefghjk") is None


def test_the_first_revocation_counts(database: Database) -> None:
    add_key(database)
    for moment in (NOW, NOW + timedelta(days=1)):
        with database.writing() as session:
            KeysRepository(session).revoke("key_1", moment)
    with database.reading() as session:
        assert KeysRepository(session).find("key_1") == replace(KEY, revoked_at=NOW)


def test_use_is_noted_now_and_then(database: Database) -> None:
    add_key(database)
    for minutes in (0, 1, 6):
        with database.writing() as session:
            KeysRepository(session).note_use("key_1", NOW + timedelta(minutes=minutes))
        with database.reading() as session:
            found = KeysRepository(session).find("key_1")
            assert found is not None
            assert found.last_used_at == NOW + timedelta(minutes=6 if minutes == 6 else 0)
