"""Waivers: somebody accepts a joint for a time."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import WaiverRow, new_id


@dataclass(frozen=True, slots=True)
class Waiver:
    """Who accepted what, why, under which conditions and until when."""

    id: str
    tenant_id: str
    subject: str
    answer_digest: str | None
    reason: str
    conditions: tuple[str, ...]
    granted_by: str
    granted_at: datetime
    expires_at: datetime
    revoked_at: datetime | None
    revoked_reason: str


class WaiversRepository:
    """Waivers by tenant; they wrap answers and are never inside them."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def grant(
        self,
        tenant_id: str,
        subject: str,
        *,
        reason: str,
        granted_by: str,
        expires_at: datetime,
        conditions: Iterable[str] = (),
        answer_digest: str | None = None,
    ) -> Waiver:
        """Keep a new waiver."""
        row = WaiverRow(
            id=new_id("waiver"),
            tenant_id=tenant_id,
            subject=subject,
            answer_digest=answer_digest,
            reason=reason,
            conditions=list(conditions),
            granted_by=granted_by,
            expires_at=expires_at,
        )
        self._session.add(row)
        self._session.flush()
        return copied(Waiver, row)

    def revoke(self, tenant_id: str, waiver_id: str, reason: str, at: datetime) -> Waiver:
        """End a waiver before its day; the first revocation counts.

        Raises
        ------
        NotStoredError
            If this tenant has no such waiver.
        """
        row = self._session.get(WaiverRow, waiver_id)
        if row is None or row.tenant_id != tenant_id:
            raise NotStoredError("waiver", waiver_id)
        if row.revoked_at is None:
            row.revoked_at, row.revoked_reason = at, reason
            self._session.flush()
        return copied(Waiver, row)

    def in_force(self, tenant_id: str, subjects: Iterable[str], now: datetime) -> dict[str, Waiver]:
        """Return for each subject the waiver that holds longest at ``now``, if any does."""
        statement = (
            select(WaiverRow)
            .where(
                WaiverRow.tenant_id == tenant_id,
                WaiverRow.subject.in_(list(subjects)),
                WaiverRow.revoked_at.is_(None),
                WaiverRow.expires_at > now,
            )
            .order_by(WaiverRow.expires_at, WaiverRow.id)
        )
        return {row.subject: copied(Waiver, row) for row in self._session.scalars(statement)}

    def page(self, tenant_id: str, *, limit: int = DEFAULT_LIMIT, cursor: str = "") -> Page[Waiver]:
        """Return a tenant's waivers, oldest first."""
        statement = (
            select(WaiverRow)
            .where(WaiverRow.tenant_id == tenant_id, WaiverRow.id > text_cursor(cursor))
            .order_by(WaiverRow.id)
        )
        found = [copied(Waiver, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda waiver: waiver.id)
