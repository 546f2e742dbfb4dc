"""Tenants and their API keys."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import bindparam, or_, select, update
from sqlalchemy.orm import Session

from service.storage.tables import ApiKeyRow, TenantRow


@dataclass(frozen=True, slots=True)
class Tenant:
    """An organisation whose overlay, policies, assemblies and answers are its own."""

    id: str
    name: str
    created_at: datetime
    disabled_at: datetime | None


@dataclass(frozen=True, slots=True)
class ApiKey:
    """A key as the database knows it: without its secret."""

    id: str
    prefix: str
    key_hash: str
    name: str
    tenant_id: str
    scopes: tuple[str, ...]
    created_at: datetime
    expires_at: datetime | None
    revoked_at: datetime | None
    last_used_at: datetime | None


class TenantsRepository:
    """Tenants by identifier."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def ensure(self, tenant_id: str, name: str) -> Tenant:
        """Return a tenant, adding it if there is none."""
        if (known := self.find(tenant_id)) is not None:
            return known
        row = TenantRow(id=tenant_id, name=name)
        self._session.add(row)
        self._session.flush()
        return _tenant(row)

    def find(self, tenant_id: str) -> Tenant | None:
        """Return a tenant, ``None`` if there is none."""
        row = self._session.get(TenantRow, tenant_id)
        return None if row is None else _tenant(row)

    def set_disabled(self, tenant_id: str, moment: datetime | None) -> None:
        """Disable a tenant, or with no moment take it up again."""
        self._session.execute(update(TenantRow).where(TenantRow.id == tenant_id).values(disabled_at=moment))

    def all(self) -> list[Tenant]:
        """Return all tenants."""
        return [_tenant(row) for row in self._session.scalars(select(TenantRow).order_by(TenantRow.id))]


class KeysRepository:
    """API keys by prefix; none is ever deleted, so that the audit trail keeps its actors."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, key: ApiKey) -> None:
        """Keep a new key."""
        values = {name: getattr(key, name) for name in ApiKey.__slots__}
        self._session.add(ApiKeyRow(**{**values, "scopes": list(key.scopes)}))
        self._session.flush()

    def find_valid(self, prefix: str) -> ApiKey | None:
        """Return the key with a prefix, ``None`` if there is none or its tenant is disabled."""
        statement = (
            select(ApiKeyRow)
            .join(TenantRow, TenantRow.id == ApiKeyRow.tenant_id)
            .where(ApiKeyRow.prefix == prefix, TenantRow.disabled_at.is_(None))
        )
        row = self._session.scalar(statement)
        return None if row is None else _key(row)

    def find(self, name: str) -> ApiKey | None:
        """Return the key with an identifier or prefix, ``None`` if there is none."""
        row = self._session.scalar(
            select(ApiKeyRow).where(or_(ApiKeyRow.id == name, ApiKeyRow.prefix == name))
        )
        return None if row is None else _key(row)

    def all(self, tenant_id: str | None = None) -> list[ApiKey]:
        """Return all keys, or those of one tenant, the newest last."""
        statement = select(ApiKeyRow).order_by(ApiKeyRow.created_at, ApiKeyRow.id)
        if tenant_id is not None:
            statement = statement.where(ApiKeyRow.tenant_id == tenant_id)
        return [_key(row) for row in self._session.scalars(statement)]

    def revoke(self, key_id: str, moment: datetime) -> None:
        """End a key; one that is revoked already keeps its moment."""
        self._session.execute(
            update(ApiKeyRow)
            .where(ApiKeyRow.id == key_id, ApiKeyRow.revoked_at.is_(None))
            .values(revoked_at=moment)
        )

    def end_at(self, key_id: str, moment: datetime) -> None:
        """Let a key expire at a moment, unless it does so earlier."""
        self._session.execute(
            update(ApiKeyRow)
            .where(
                ApiKeyRow.id == key_id,
                or_(ApiKeyRow.expires_at.is_(None), ApiKeyRow.expires_at > moment),
            )
            .values(expires_at=moment)
        )

    def rehash(self, key_id: str, old_hash: str, new_hash: str) -> None:
        """Replace the hash of a key, unless somebody else has done so."""
        self._session.execute(
            update(ApiKeyRow)
            .where(ApiKeyRow.id == key_id, ApiKeyRow.key_hash == old_hash)
            .values(key_hash=new_hash)
        )

    def note_uses(self, uses: Mapping[str, datetime]) -> None:
        """Note when keys were last used, all of them in one go; a later note stays as it is."""
        if not uses:
            return
        is_older = or_(ApiKeyRow.last_used_at.is_(None), ApiKeyRow.last_used_at < bindparam("moment"))
        statement = (
            update(ApiKeyRow)
            .where(ApiKeyRow.id == bindparam("key_id"), is_older)
            .values(last_used_at=bindparam("moment"))
        )
        rows = [{"key_id": key_id, "moment": moment} for key_id, moment in uses.items()]
        self._session.connection().execute(statement, rows)


def _tenant(row: TenantRow) -> Tenant:
    return Tenant(row.id, row.name, row.created_at, row.disabled_at)


def _key(row: ApiKeyRow) -> ApiKey:
    values = {name: getattr(row, name) for name in ApiKey.__slots__}
    return ApiKey(**{**values, "scopes": tuple(row.scopes)})
