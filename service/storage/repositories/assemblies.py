"""Assemblies that tenants keep under watch."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError, StaleVersionError
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import AssemblyRow, new_id, utc_now


@dataclass(frozen=True, slots=True)
class StoredAssembly:
    """An assembly with its last report in brief."""

    id: str
    tenant_id: str
    name: str
    version: int
    body: Mapping[str, Any]
    release_label: str | None
    summary: Mapping[str, Any] | None
    created_at: datetime
    updated_at: datetime


class AssembliesRepository:
    """Assemblies by tenant and identifier."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, tenant_id: str, name: str, body: Mapping[str, Any]) -> StoredAssembly:
        """Keep a new assembly."""
        row = AssemblyRow(id=new_id("assembly"), tenant_id=tenant_id, name=name, body=dict(body))
        self._session.add(row)
        self._session.flush()
        return copied(StoredAssembly, row)

    def get(self, tenant_id: str, assembly_id: str) -> StoredAssembly:
        """Return an assembly.

        Raises
        ------
        NotStoredError
            If this tenant has no such assembly.
        """
        return copied(StoredAssembly, self._row(tenant_id, assembly_id))

    def replace(
        self, tenant_id: str, assembly_id: str, body: Mapping[str, Any], *, version: int
    ) -> StoredAssembly:
        """Change an assembly that is still in the version that the caller has seen.

        Raises
        ------
        NotStoredError
            If this tenant has no such assembly.
        StaleVersionError
            If somebody else was quicker.
        """
        row = self._row(tenant_id, assembly_id)
        statement = (
            update(AssemblyRow)
            .where(AssemblyRow.id == assembly_id, AssemblyRow.version == version)
            .values(
                body=dict(body),
                version=version + 1,
                updated_at=utc_now(),
                release_label=None,
                summary=None,
                report=None,
            )
            .returning(AssemblyRow.id)
            .execution_options(synchronize_session=False)
        )
        if self._session.execute(statement).first() is None:
            raise StaleVersionError("assembly", assembly_id, version)
        self._session.refresh(row)
        return copied(StoredAssembly, row)

    def keep_report(
        self, assembly_id: str, *, version: int, release_label: str, summary: Mapping[str, Any], report: bytes
    ) -> bool:
        """Attach the report on one version; a report on an older version is dropped."""
        statement = (
            update(AssemblyRow)
            .where(AssemblyRow.id == assembly_id, AssemblyRow.version == version)
            .values(release_label=release_label, summary=dict(summary), report=report)
            .returning(AssemblyRow.id)
            .execution_options(synchronize_session=False)
        )
        return self._session.execute(statement).first() is not None

    def report(self, tenant_id: str, assembly_id: str) -> bytes | None:
        """Return the last report in full, ``None`` if the assembly was not judged yet."""
        return self._row(tenant_id, assembly_id).report

    def remove(self, tenant_id: str, assembly_id: str) -> None:
        """Take an assembly off the list; its name is free again.

        Raises
        ------
        NotStoredError
            If this tenant has no such assembly.
        """
        self._session.delete(self._row(tenant_id, assembly_id))
        self._session.flush()

    def page(self, tenant_id: str, *, limit: int = DEFAULT_LIMIT, cursor: str = "") -> Page[StoredAssembly]:
        """Return the assemblies of a tenant, oldest first."""
        statement = (
            select(AssemblyRow)
            .where(AssemblyRow.tenant_id == tenant_id, AssemblyRow.id > text_cursor(cursor))
            .order_by(AssemblyRow.id)
        )
        found = [copied(StoredAssembly, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda assembly: assembly.id)

    def outdated(self, release_label: str, *, limit: int = DEFAULT_LIMIT) -> list[StoredAssembly]:
        """Return assemblies whose last report is not from this release, of all tenants."""
        statement = (
            select(AssemblyRow)
            .where(AssemblyRow.release_label.is_distinct_from(release_label))
            .order_by(AssemblyRow.id)
            .limit(limit)
        )
        return [copied(StoredAssembly, row) for row in self._session.scalars(statement)]

    def _row(self, tenant_id: str, assembly_id: str) -> AssemblyRow:
        row = self._session.get(AssemblyRow, assembly_id, populate_existing=True)
        if row is None or row.tenant_id != tenant_id:
            raise NotStoredError("assembly", assembly_id)
        return row
