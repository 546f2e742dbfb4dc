"""Keys are made, listed and ended with a trail, and open the service until then."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from service.access.administration import (
    NewKey,
    create_key,
    ensure_local_tenant,
    list_keys,
    revoke_key,
)
from service.access.errors import InvalidCredentialsError, UnknownKeyError
from service.access.keys import KeyRing
from service.access.scopes import CALLER, Scope
from service.storage import Database
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.keys import ApiKey, KeysRepository, TenantsRepository


def make(database: Database, expires_at: datetime | None = None) -> NewKey:
    with database.writing() as session:
        return create_key(
            session, "PLM", tenant_id="harbour", pepper="white", by="test", expires_at=expires_at
        )


def ring(database: Database) -> KeyRing:
    def find(prefix: str) -> ApiKey | None:
        with database.reading() as session:
            return KeysRepository(session).find_valid(prefix)

    return KeyRing(find, pepper="white")


def test_a_new_key_opens_the_service_with_the_scopes_of_a_caller(database: Database) -> None:
    made = make(database)
    principal = ring(database).verify(made.text)
    assert (principal.key_id, principal.tenant_id, principal.scopes) == (made.key.id, "harbour", CALLER)


def test_the_secret_is_stored_and_shown_nowhere(database: Database) -> None:
    made = make(database)
    secret = made.text.rpartition("_")[2]
    with database.reading() as session:
        assert list_keys(session, "harbour") == [made.key]
        trail = AuditRepository(session).page(subject_id=made.key.id).items
    assert secret not in repr(made) + repr(made.key) + repr(trail)
    assert [line.action for line in trail] == ["key.created"]


def test_a_revoked_key_opens_nothing_and_is_revoked_once(database: Database) -> None:
    made = make(database)
    for _ in range(2):
        with database.writing() as session:
            assert revoke_key(session, made.key.prefix, by="test").revoked_at
    with pytest.raises(InvalidCredentialsError):
        ring(database).verify(made.text)
    with database.reading() as session:
        trail = AuditRepository(session).page(subject_id=made.key.id).items
    assert [line.action for line in trail] == ["key.revoked", "key.created"]


def test_an_expired_key_opens_nothing(database: Database) -> None:
    made = make(database, datetime.now(UTC) - timedelta(seconds=1))
    with pytest.raises(InvalidCredentialsError):
        ring(database).verify(made.text)


def test_an_unknown_key_cannot_be_revoked(database: Database) -> None:
    with database.writing() as session, pytest.raises(UnknownKeyError):
        revoke_key(session, "nobody", by="test")


def test_scopes_are_those_asked_for(database: Database) -> None:
    with database.writing() as session:
        made = create_key(session, "b", tenant_id="t", pepper="", by="test", scopes={Scope.PUBLISH})
    assert made.key.scopes == ("releases:publish",)


def test_the_local_tenant_is_made_once(database: Database) -> None:
    for _ in range(2):
        with database.writing() as session:
            ensure_local_tenant(session)
    with database.reading() as session:
        assert [tenant.id for tenant in TenantsRepository(session).all()] == ["local"]
