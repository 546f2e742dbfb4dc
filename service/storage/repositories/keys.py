"""Tenants and their API keys."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import or_, select, update
from sqlalchemy.orm import Session

from service.storage.tables import ApiKeyRow, TenantRow

USE_NOTED_EVERY = timedelta(minutes=5)
"""How exactly the last use of a key is known; noting every use would make each lookup a write."""


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

    def note_use(self, key_id: str, moment: datetime) -> None:
        """Note that a key was used, unless that was noted shortly before."""
        self._session.execute(
            update(ApiKeyRow)
            .where(
                ApiKeyRow.id == key_id,
                or_(ApiKeyRow.last_used_at.is_(None), ApiKeyRow.last_used_at < moment - USE_NOTED_EVERY),
            )
            .values(last_used_at=moment)
        )


def _tenant(row: TenantRow) -> Tenant:
    return Tenant(row.id, row.name, row.created_at, row.disabled_at)


def _key(row: ApiKeyRow) -> ApiKey:
    values = {name: getattr(row, name) for name in ApiKey.__slots__}
    return ApiKey(**{**values, "scopes": tuple(row.scopes)})
