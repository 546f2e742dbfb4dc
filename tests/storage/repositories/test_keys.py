"""Tenants and keys are stored without secrets, and never forgotten."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from sqlalchemy import event, update

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


def test_uses_of_many_keys_are_noted_in_one_statement_and_never_put_back(database: Database) -> None:
    add_key(database)
    add_key(database, replace(KEY, id="key_2", prefix="abcdefghjm"))
    later = NOW + timedelta(minutes=6)
    statements: list[bool] = []

    def count(
        _connection: object, _cursor: object, sql: str, _values: object, _context: object, *many: bool
    ) -> None:
        if sql.lstrip().upper().startswith("UPDATE"):
            statements.extend(many)

    event.listen(database.engine, "before_cursor_execute", count)
    for uses in ({"key_1": later, "key_2": NOW, "nobody": NOW}, {"key_1": NOW, "key_2": later}, {}):
        with database.writing() as writing:
            KeysRepository(writing).note_uses(uses)
    assert statements == [True, True]
    with database.reading() as reading:
        assert [key.last_used_at for key in KeysRepository(reading).all()] == [later, later]


def test_a_key_ends_at_the_earlier_moment(database: Database) -> None:
    add_key(database)
    for days, expected in ((3, 3), (5, 3), (1, 1)):
        with database.writing() as session:
            KeysRepository(session).end_at("key_1", NOW + timedelta(days=days))
        with database.reading() as session:
            found = KeysRepository(session).find("key_1")
        assert found is not None
        assert found.expires_at == NOW + timedelta(days=expected)


def test_a_hash_is_replaced_only_where_it_is_the_one_that_was_read(database: Database) -> None:
    add_key(database)
    for old, new, expected in (("11" * 32, "22" * 32, "00" * 32), ("00" * 32, "33" * 32, "33" * 32)):
        with database.writing() as session:
            KeysRepository(session).rehash("key_1", old, new)
        with database.reading() as session:
            found = KeysRepository(session).find("key_1")
        assert found is not None
        assert found.key_hash == expected


def test_a_tenant_is_disabled_and_enabled(database: Database) -> None:
    add_key(database)
    for moment in (NOW, None):
        with database.writing() as session:
            TenantsRepository(session).set_disabled("harbour", moment)
        with database.reading() as reading:
            found = TenantsRepository(reading).find("harbour")
            assert (KeysRepository(reading).find_valid("abcdefghjk") is None) == (moment is not None)
        assert found is not None
        assert found.disabled_at == moment
