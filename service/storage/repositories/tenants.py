"""Tenants."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.conflicts import add_unless_there
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import TenantRow, utc_now


@dataclass(frozen=True, slots=True)
class Tenant:
    """An organisation."""

    id: str
    name: str
    created_at: datetime
    disabled_at: datetime | None


class TenantsRepository:
    """Tenants by identifier."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def ensure(self, tenant_id: str, name: str) -> Tenant:
        """Return a tenant, adding it if it is not there."""
        row = {"id": tenant_id, "name": name, "created_at": utc_now(), "disabled_at": None}
        add_unless_there(self._session, TenantRow, [row])
        return copied(Tenant, self._session.get_one(TenantRow, tenant_id))

    def find(self, tenant_id: str) -> Tenant | None:
        """Return a tenant, ``None`` if there is none."""
        row = self._session.get(TenantRow, tenant_id)
        return None if row is None else copied(Tenant, row)

    def disable(self, tenant_id: str, at: datetime | None) -> Tenant:
        """Lock a tenant out, or with ``None`` let it in again.

        Raises
        ------
        NotStoredError
            If there is no such tenant.
        """
        row = self._session.get(TenantRow, tenant_id)
        if row is None:
            raise NotStoredError("tenant", tenant_id)
        row.disabled_at = at
        self._session.flush()
        return copied(Tenant, row)

    def page(self, *, limit: int = DEFAULT_LIMIT, cursor: str = "") -> Page[Tenant]:
        """Return tenants by identifier."""
        statement = select(TenantRow).where(TenantRow.id > text_cursor(cursor)).order_by(TenantRow.id)
        found = [copied(Tenant, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda tenant: tenant.id)
