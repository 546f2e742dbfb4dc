"""Private rows of tenants. Every method asks for the tenant, so none can mix two."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from service.storage.repositories.copying import copied
from service.storage.tables import OverlayRow, utc_now


@dataclass(frozen=True, slots=True)
class PrivateRow:
    """One row of one tenant, in the shape of the record of its table."""

    tenant_id: str
    table_name: str
    row_key: str
    body: Mapping[str, Any]
    updated_at: datetime
    updated_by: str


class OverlaysRepository:
    """Rows by tenant, table and key."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def put(
        self, tenant_id: str, table_name: str, row_key: str, body: Mapping[str, Any], by: str
    ) -> PrivateRow:
        """Add a row or replace the one under this key."""
        row = self._session.get(OverlayRow, (tenant_id, table_name, row_key))
        if row is None:
            row = OverlayRow(tenant_id=tenant_id, table_name=table_name, row_key=row_key)
            self._session.add(row)
        row.body, row.updated_by, row.updated_at = dict(body), by, utc_now()
        self._session.flush()
        return copied(PrivateRow, row)

    def remove(self, tenant_id: str, table_name: str, row_key: str) -> bool:
        """Take a row away; tell whether there was one."""
        statement = (
            delete(OverlayRow)
            .where(
                OverlayRow.tenant_id == tenant_id,
                OverlayRow.table_name == table_name,
                OverlayRow.row_key == row_key,
            )
            .returning(OverlayRow.row_key)
        )
        return self._session.execute(statement).first() is not None

    def rows(self, tenant_id: str) -> list[PrivateRow]:
        """Return everything that a tenant has added, in a fixed order."""
        statement = (
            select(OverlayRow)
            .where(OverlayRow.tenant_id == tenant_id)
            .order_by(OverlayRow.table_name, OverlayRow.row_key)
        )
        return [copied(PrivateRow, row) for row in self._session.scalars(statement)]
