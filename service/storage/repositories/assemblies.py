"""Assemblies that tenants keep under watch."""

from __future__ import annotations

import zlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select, update
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError, StaleVersionError
from service.storage.repositories.copying import copied
from service.storage.repositories.jobs import FASTEST
from service.storage.repositories.overlays import newest_overlays
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import AssemblyRow, new_id, utc_now

MOST_TOGETHER = 500
"""Identifiers in one statement."""

View = tuple[str, str]
"""What a report holds under: label of the release, hash of the tenant's overlay on it."""


@dataclass(frozen=True, slots=True)
class StoredAssembly:
    """An assembly without its content and its report."""

    id: str
    tenant_id: str
    name: str
    version: int
    joints: int
    engine: str
    release_label: str | None
    holds_under: str | None
    overlay_hash: str
    created_at: datetime
    updated_at: datetime


@dataclass(frozen=True, slots=True)
class JudgedVersion:
    """The report on one version: in brief, in full, and what it rests on."""

    version: int
    engine: str
    release_label: str
    joints: int
    rests_on: Sequence[str]
    summary: Mapping[str, Any]
    report: bytes
    overlay_hash: str = ""


class AssembliesRepository:
    """Assemblies by tenant and name, which is the caller's; their identifiers are ours."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, tenant_id: str, name: str, body: Mapping[str, Any]) -> StoredAssembly:
        """Keep a new assembly."""
        row = AssemblyRow(id=new_id("assembly"), tenant_id=tenant_id, name=name, body=dict(body))
        self._session.add(row)
        self._session.flush()
        return copied(StoredAssembly, row)

    def find(self, tenant_id: str, name: str) -> StoredAssembly | None:
        """Return the assembly with a name, ``None`` if this tenant has none."""
        statement = select(AssemblyRow).where(AssemblyRow.tenant_id == tenant_id, AssemblyRow.name == name)
        row = self._session.scalars(statement.execution_options(populate_existing=True)).one_or_none()
        return None if row is None else copied(StoredAssembly, row)

    def get(self, assembly_id: str) -> StoredAssembly:
        """Return an assembly by its identifier.

        Raises
        ------
        NotStoredError
            If there is none any more.
        """
        return copied(StoredAssembly, self._row(assembly_id))

    def replace(self, assembly_id: str, body: Mapping[str, Any], *, version: int) -> StoredAssembly:
        """Change an assembly that is still in the version that the caller has seen.

        Its last report stays until the next one is made, so that the two can be compared.

        Raises
        ------
        NotStoredError
            If there is no such assembly.
        StaleVersionError
            If somebody else was quicker.
        """
        row = self._row(assembly_id)
        statement = (
            update(AssemblyRow)
            .where(AssemblyRow.id == assembly_id, AssemblyRow.version == version)
            .values(body=dict(body), version=version + 1, updated_at=utc_now(), holds_under=None)
            .returning(AssemblyRow.id)
            .execution_options(synchronize_session=False)
        )
        if self._session.execute(statement).first() is None:
            raise StaleVersionError("assembly", assembly_id, version)
        self._session.refresh(row)
        return copied(StoredAssembly, row)

    def body(self, assembly_id: str) -> Mapping[str, Any]:
        """Return what the caller has stored."""
        return self._row(assembly_id).body

    def keep_report(
        self, assembly_id: str, judged: JudgedVersion, *, held_under: str | None, held_with: str = ""
    ) -> bool:
        """Attach a report, unless a newer version or the report of another release came in between.

        ``held_under`` and ``held_with`` are the release and the overlay that the assembly named when its
        judging began.
        """
        statement = (
            update(AssemblyRow)
            .where(
                AssemblyRow.id == assembly_id,
                AssemblyRow.version == judged.version,
                AssemblyRow.holds_under.is_not_distinct_from(held_under),
                AssemblyRow.overlay_hash == held_with,
            )
            .values(
                engine=judged.engine,
                release_label=judged.release_label,
                holds_under=judged.release_label,
                overlay_hash=judged.overlay_hash,
                joints=judged.joints,
                rests_on=list(judged.rests_on),
                summary=dict(judged.summary),
                report=zlib.compress(judged.report, FASTEST),
                updated_at=AssemblyRow.updated_at,
            )
            .returning(AssemblyRow.id)
            .execution_options(synchronize_session=False)
        )
        return self._session.execute(statement).first() is not None

    def summary(self, assembly_id: str) -> Mapping[str, Any] | None:
        """Return the last report in brief, ``None`` if there is none yet."""
        return self._session.scalar(select(AssemblyRow.summary).where(AssemblyRow.id == assembly_id))

    def report(self, assembly_id: str) -> bytes | None:
        """Return the last report in full, ``None`` if there is none yet."""
        found = self._session.scalar(select(AssemblyRow.report).where(AssemblyRow.id == assembly_id))
        return None if found is None else zlib.decompress(found)

    def remove(self, assembly_id: str) -> None:
        """Take an assembly off the list; its name is free again.

        Raises
        ------
        NotStoredError
            If there is no such assembly.
        """
        self._session.delete(self._row(assembly_id))
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

    def tenants_behind(self, release_label: str, engine: str) -> list[str]:
        """Return the tenants who have reports that are not known to hold.

        That is: under a release, an engine and the present overlay of the tenant.
        """
        present = newest_overlays().subquery()
        overlay_hash = func.coalesce(present.c.overlay_hash, "")
        is_behind = _is_behind(release_label, engine) | (AssemblyRow.overlay_hash != overlay_hash)
        statement = (
            select(AssemblyRow.tenant_id)
            .outerjoin(present, present.c.tenant_id == AssemblyRow.tenant_id)
            .where(is_behind, AssemblyRow.report.is_not(None))
            .distinct()
        )
        return list(self._session.scalars(statement.order_by(AssemblyRow.tenant_id)))

    def behind(
        self,
        tenant_id: str,
        release_label: str,
        engine: str,
        overlay_hash: str = "",
        *,
        after: str = "",
        limit: int = DEFAULT_LIMIT,
    ) -> list[tuple[StoredAssembly, Sequence[str]]]:
        """Return assemblies that are not known to hold as things are, and what each rests on."""
        statement = (
            select(AssemblyRow, AssemblyRow.rests_on)
            .where(
                AssemblyRow.tenant_id == tenant_id,
                AssemblyRow.id > after,
                _is_behind(release_label, engine) | (AssemblyRow.overlay_hash != overlay_hash),
            )
            .order_by(AssemblyRow.id)
            .limit(limit)
        )
        return [(copied(StoredAssembly, row), keys) for row, keys in self._session.execute(statement)]

    def all_resting(self) -> Iterator[tuple[int, Sequence[str]]]:
        """Give of every report, of whatever tenant, its joints and what it rests on."""
        statement = select(AssemblyRow.joints, AssemblyRow.rests_on).where(AssemblyRow.report.is_not(None))
        for row in self._session.execute(statement.execution_options(yield_per=MOST_TOGETHER)):
            yield row.joints, row.rests_on

    def naming_policy(self, tenant_id: str, name: str) -> list[StoredAssembly]:
        """Return the assemblies that follow a stored policy; those that name a version stay with it."""
        statement = (
            select(AssemblyRow)
            .where(AssemblyRow.tenant_id == tenant_id, AssemblyRow.body["stored_policy"].as_string() == name)
            .order_by(AssemblyRow.id)
        )
        return [copied(StoredAssembly, row) for row in self._session.scalars(statement)]

    def say_doubtful(self, assembly_ids: Sequence[str]) -> None:
        """Note that reports are no longer known to hold, though nobody has edited the assemblies."""
        for start in range(0, len(assembly_ids), MOST_TOGETHER):
            self._session.execute(
                update(AssemblyRow)
                .where(AssemblyRow.id.in_(assembly_ids[start : start + MOST_TOGETHER]))
                .values(holds_under=None, updated_at=AssemblyRow.updated_at)
                .execution_options(synchronize_session=False)
            )

    def say_holding(self, assembly_ids: Sequence[str], *, before: View, after: View) -> None:
        """Note that reports stay true in a later view; one that was edited meanwhile is left alone."""
        for start in range(0, len(assembly_ids), MOST_TOGETHER):
            self._session.execute(
                update(AssemblyRow)
                .where(
                    AssemblyRow.id.in_(assembly_ids[start : start + MOST_TOGETHER]),
                    AssemblyRow.holds_under == before[0],
                    AssemblyRow.overlay_hash == before[1],
                )
                .values(holds_under=after[0], overlay_hash=after[1], updated_at=AssemblyRow.updated_at)
                .execution_options(synchronize_session=False)
            )

    def _row(self, assembly_id: str) -> AssemblyRow:
        row = self._session.get(AssemblyRow, assembly_id, populate_existing=True)
        if row is None:
            raise NotStoredError("assembly", assembly_id)
        return row


def _is_behind(release_label: str, engine: str) -> Any:
    return AssemblyRow.holds_under.is_distinct_from(release_label) | (AssemblyRow.engine != engine)
