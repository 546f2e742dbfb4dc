"""Making, rotating and ending API keys, and shutting callers out; each step is in the audit trail."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from service.access.errors import EndedKeyError, UnknownKeyError, UnknownTenantError
from service.access.keys import LOCAL_TENANT
from service.access.scopes import CALLER, Scope, parse_scopes
from service.access.secrets import hash_secret, new_key_text
from service.storage.engine import ReadSession, WriteSession
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.clients import BlockedClient, BlockedClientsRepository
from service.storage.repositories.keys import ApiKey, KeysRepository, Tenant, TenantsRepository
from service.storage.tables import new_id, utc_now


@dataclass(frozen=True, slots=True)
class NewKey:
    """A key just made. ``text`` is shown once and stored nowhere."""

    key: ApiKey
    text: str

    def __repr__(self) -> str:
        return f"NewKey({self.key.id!r})"


def create_key(
    session: WriteSession,
    name: str,
    *,
    tenant_id: str,
    pepper: str,
    by: str,
    scopes: Iterable[Scope] = CALLER,
    expires_at: datetime | None = None,
) -> NewKey:
    """Make a key for a tenant, which is added if it is new."""
    TenantsRepository(session).ensure(tenant_id, tenant_id)
    text = new_key_text()
    key = ApiKey(
        id=new_id("key"),
        prefix=text.prefix,
        key_hash=hash_secret(text.secret, pepper),
        name=name,
        tenant_id=tenant_id,
        scopes=tuple(sorted(scopes)),
        created_at=utc_now(),
        expires_at=expires_at,
        revoked_at=None,
        last_used_at=None,
    )
    KeysRepository(session).add(key)
    facts = {"name": name, "prefix": key.prefix, "tenant_id": tenant_id, "scopes": list(key.scopes)}
    AuditRepository(session).append(by, "key.created", "key", key.id, **facts)
    return NewKey(key, str(text))


def revoke_key(session: WriteSession, name: str, *, by: str) -> ApiKey:
    """End the key with an identifier or prefix.

    Raises
    ------
    UnknownKeyError
        If there is none.
    """
    keys = KeysRepository(session)
    key = keys.find(name)
    if key is None:
        raise UnknownKeyError(name)
    if key.revoked_at is None:
        keys.revoke(key.id, utc_now())
        AuditRepository(session).append(by, "key.revoked", "key", key.id, prefix=key.prefix)
    return keys.find(name) or key


def rotate_key(session: WriteSession, name: str, *, pepper: str, by: str, overlap: timedelta) -> NewKey:
    """Make a key that may do the same as another one, which ends when the overlap is over.

    Raises
    ------
    UnknownKeyError
        If there is no such key.
    EndedKeyError
        If it has ended already.
    """
    keys, now = KeysRepository(session), utc_now()
    old = keys.find(name)
    if old is None:
        raise UnknownKeyError(name)
    if old.revoked_at is not None or (old.expires_at is not None and old.expires_at <= now):
        raise EndedKeyError(name)
    made = create_key(
        session,
        old.name,
        tenant_id=old.tenant_id,
        pepper=pepper,
        by=by,
        scopes=parse_scopes(old.scopes),
        # A key made for so many days keeps that length of life.
        expires_at=now + (old.expires_at - old.created_at) if old.expires_at else None,
    )
    keys.end_at(old.id, now + overlap)
    facts = {"prefix": old.prefix, "replaced_by": made.key.prefix, "ends_at": (now + overlap).isoformat()}
    AuditRepository(session).append(by, "key.rotated", "key", old.id, **facts)
    return made


def list_keys(session: ReadSession, tenant_id: str | None = None) -> list[ApiKey]:
    """Return all keys, or those of one tenant."""
    return KeysRepository(session).all(tenant_id)


def has_local_tenant(session: ReadSession) -> bool:
    """Tell whether what the development key stores has an owner."""
    return TenantsRepository(session).find(LOCAL_TENANT) is not None


def add_tenant(session: WriteSession, tenant_id: str, name: str, *, by: str) -> Tenant:
    """Make a tenant known, so that access tokens can act for it; one that is known stays as it is."""
    tenants = TenantsRepository(session)
    if (known := tenants.find(tenant_id)) is not None:
        return known
    AuditRepository(session).append(by, "tenant.added", "tenant", tenant_id, name=name)
    return tenants.ensure(tenant_id, name)


def set_tenant_disabled(session: WriteSession, tenant_id: str, *, is_disabled: bool, by: str) -> Tenant:
    """Refuse all keys and tokens of a tenant, or accept them again.

    Raises
    ------
    UnknownTenantError
        If there is no such tenant.
    """
    tenants = TenantsRepository(session)
    known = tenants.find(tenant_id)
    if known is None:
        raise UnknownTenantError(tenant_id)
    if (known.disabled_at is not None) != is_disabled:
        tenants.set_disabled(tenant_id, utc_now() if is_disabled else None)
        action = "tenant.disabled" if is_disabled else "tenant.enabled"
        AuditRepository(session).append(by, action, "tenant", tenant_id)
    return known


def set_client_blocked(session: WriteSession, client_id: str, *, is_blocked: bool, by: str) -> None:
    """Refuse all tokens of a client of the token issuer, or accept them again."""
    clients = BlockedClientsRepository(session)
    is_changed = clients.block(client_id, utc_now()) if is_blocked else clients.unblock(client_id)
    if is_changed:
        action = "client.blocked" if is_blocked else "client.unblocked"
        AuditRepository(session).append(by, action, "client", client_id)


def list_tenants(session: ReadSession) -> list[Tenant]:
    """Return all tenants."""
    return TenantsRepository(session).all()


def list_blocked_clients(session: ReadSession) -> list[BlockedClient]:
    """Return the clients whose tokens are refused."""
    return BlockedClientsRepository(session).all()


def ensure_local_tenant(session: WriteSession) -> None:
    """Make sure that what the development key stores has an owner."""
    TenantsRepository(session).ensure(LOCAL_TENANT, "Local development")
