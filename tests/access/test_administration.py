"""Keys are made, listed and ended with a trail, and open the service until then."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from service.access.administration import (
    NewKey,
    add_tenant,
    create_key,
    ensure_local_tenant,
    list_blocked_clients,
    list_keys,
    list_tenants,
    revoke_key,
    rotate_key,
    set_client_blocked,
    set_tenant_disabled,
)
from service.access.errors import (
    EndedKeyError,
    InvalidCredentialsError,
    UnknownKeyError,
    UnknownTenantError,
)
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
    secret = made.text.split("_", 2)[2]
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


def rotated(database: Database, name: str, overlap: timedelta = timedelta(hours=1)) -> NewKey:
    with database.writing() as session:
        return rotate_key(session, name, pepper="white", by="test", overlap=overlap)


def test_both_keys_are_valid_during_the_overlap_and_only_the_new_one_after_it(database: Database) -> None:
    old = make(database)
    new = rotated(database, old.key.prefix)
    before, after = ring(database).verify(old.text), ring(database).verify(new.text)
    assert (before.tenant_id, before.scopes) == (after.tenant_id, after.scopes)
    assert before.key_id != after.key_id
    last = make(database)
    rotated(database, last.key.id, timedelta(0))
    with pytest.raises(InvalidCredentialsError):
        ring(database).verify(last.text)


def test_a_new_key_lives_as_long_as_the_old_one_was_made_for(database: Database) -> None:
    now = datetime.now(UTC)
    old = make(database, now + timedelta(days=90))
    new = rotated(database, old.key.prefix)
    assert new.key.expires_at is not None
    assert abs(new.key.expires_at - now - timedelta(days=90)) < timedelta(minutes=1)
    with database.reading() as session:
        kept, _ = list_keys(session)
    assert kept.expires_at is not None
    assert kept.expires_at < now + timedelta(hours=2)


def test_a_key_that_has_ended_is_not_rotated(database: Database) -> None:
    revoked, expired = make(database), make(database, datetime.now(UTC) - timedelta(seconds=1))
    with database.writing() as session:
        revoke_key(session, revoked.key.prefix, by="test")
    for name in (revoked.key.prefix, expired.key.prefix):
        with pytest.raises(EndedKeyError):
            rotated(database, name)
    with pytest.raises(UnknownKeyError):
        rotated(database, "nobody")


def test_a_tenant_is_added_disabled_and_enabled_with_a_trail(database: Database) -> None:
    with database.writing() as session:
        add_tenant(session, "quay", "Old quay", by="test")
        assert add_tenant(session, "quay", "again", by="test").name == "Old quay"
        for is_disabled in (True, True, False, False):
            set_tenant_disabled(session, "quay", is_disabled=is_disabled, by="test")
        with pytest.raises(UnknownTenantError):
            set_tenant_disabled(session, "nowhere", is_disabled=True, by="test")
    with database.reading() as session:
        assert [tenant.id for tenant in list_tenants(session)] == ["quay"]
        trail = AuditRepository(session).page(subject_id="quay").items
    assert [line.action for line in trail] == ["tenant.enabled", "tenant.disabled", "tenant.added"]


def test_a_client_is_blocked_and_unblocked_with_a_trail(database: Database) -> None:
    with database.writing() as session:
        for is_blocked in (True, True, False):
            set_client_blocked(session, "plm", is_blocked=is_blocked, by="test")
        set_client_blocked(session, "portal", is_blocked=True, by="test")
    with database.reading() as session:
        assert [client.client_id for client in list_blocked_clients(session)] == ["portal"]
        trail = AuditRepository(session).page(subject_id="plm").items
    assert [line.action for line in trail] == ["client.unblocked", "client.blocked"]
