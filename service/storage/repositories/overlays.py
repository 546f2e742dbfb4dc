"""Private rows of tenants. Every method asks for the tenant, so none can mix two."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Select, delete, func, select
from sqlalchemy.orm import Session

from service.storage.notices import announce
from service.storage.repositories.copying import copied
from service.storage.tables import OverlayRow, OverlayVersionRow, TenantRow, utc_now

Rows = Mapping[str, list[Mapping[str, Any]]]
"""Rows by table."""


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

    def lock(self, tenant_id: str) -> None:
        """Let one writer at a time change this overlay; on SQLite the write lock does the same."""
        self._session.execute(select(TenantRow.id).where(TenantRow.id == tenant_id).with_for_update())

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

    def keep_version(self, tenant_id: str, overlay_hash: str, rows: Rows, by: str) -> None:
        """Keep what an overlay is from now on, unless that is what it is already."""
        if self.in_force(tenant_id) != overlay_hash:
            body = {table: [dict(row) for row in held] for table, held in rows.items()}
            row = OverlayVersionRow(tenant_id=tenant_id, overlay_hash=overlay_hash, body=body, created_by=by)
            self._session.add(row)
            self._session.flush()
            announce(self._session)

    def version(self, tenant_id: str, overlay_hash: str) -> Rows | None:
        """Return what an overlay was under a hash, ``None`` if it never was."""
        return self._session.scalar(
            select(OverlayVersionRow.body)
            .where(OverlayVersionRow.tenant_id == tenant_id, OverlayVersionRow.overlay_hash == overlay_hash)
            .order_by(OverlayVersionRow.serial)
            .limit(1)
        )

    def in_force(self, tenant_id: str) -> str:
        """Return the hash of a tenant's present overlay, empty where there is none."""
        statement = newest_overlays().where(OverlayVersionRow.tenant_id == tenant_id)
        row = self._session.execute(statement).one_or_none()
        return row.overlay_hash if row else ""

    def editions(self) -> dict[str, int]:
        """Return the serial of each tenant's present overlay: it grows with every change."""
        serial = func.max(OverlayVersionRow.serial).label("serial")
        statement = select(OverlayVersionRow.tenant_id, serial).group_by(OverlayVersionRow.tenant_id)
        return {row.tenant_id: row.serial for row in self._session.execute(statement)}

    def all_in_force(self) -> dict[str, str]:
        """Return the hashes of all present overlays by tenant."""
        rows = self._session.execute(newest_overlays())
        return {row.tenant_id: row.overlay_hash for row in rows if row.overlay_hash}


def newest_overlays() -> Select[str, str]:
    """Write the query for each tenant's present overlay."""
    newest = select(func.max(OverlayVersionRow.serial)).group_by(OverlayVersionRow.tenant_id)
    return select(OverlayVersionRow.tenant_id, OverlayVersionRow.overlay_hash).where(
        OverlayVersionRow.serial.in_(newest)
    )
