"""Making, listing and ending API keys; every step leaves a line in the audit trail."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from service.access.errors import UnknownKeyError
from service.access.keys import LOCAL_TENANT
from service.access.scopes import CALLER, Scope
from service.access.secrets import hash_secret, new_key_text
from service.storage.engine import ReadSession, WriteSession
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.keys import ApiKey, KeysRepository, TenantsRepository
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


def list_keys(session: ReadSession, tenant_id: str | None = None) -> list[ApiKey]:
    """Return all keys, or those of one tenant."""
    return KeysRepository(session).all(tenant_id)


def has_local_tenant(session: ReadSession) -> bool:
    """Tell whether what the development key stores has an owner."""
    return TenantsRepository(session).find(LOCAL_TENANT) is not None


def ensure_local_tenant(session: WriteSession) -> None:
    """Make sure that what the development key stores has an owner."""
    TenantsRepository(session).ensure(LOCAL_TENANT, "Local development")
