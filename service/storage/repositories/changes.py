"""The feed of changes that callers poll and webhooks send."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import or_, select, text
from sqlalchemy.orm import Session

from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT
from service.storage.tables import ChangeRow

FEED_LOCK = 7_246_303
"""The advisory lock of whoever appends."""


@dataclass(frozen=True, slots=True)
class FeedLine:
    """Something happened. ``tenant_id`` is ``None`` on what everybody may see."""

    serial: int
    happened_at: datetime
    kind: str
    subject: str
    tenant_id: str | None
    detail: Mapping[str, Any]


class ChangesRepository:
    """Lines in the order in which they happened."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def append(self, kind: str, subject: str, tenant_id: str | None = None, **detail: object) -> FeedLine:
        """Write one line.

        One writer at a time, until it commits: otherwise a reader could see line 8 before line 7
        and never ask for 7 again.
        """
        if self._session.get_bind().dialect.name == "postgresql":
            self._session.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": FEED_LOCK})
        row = ChangeRow(kind=kind, subject=subject, tenant_id=tenant_id, detail=detail)
        self._session.add(row)
        self._session.flush()
        return copied(FeedLine, row)

    def since(
        self,
        serial: int,
        *,
        tenant_id: str | None = None,
        kinds: Collection[str] = (),
        limit: int = DEFAULT_LIMIT,
    ) -> list[FeedLine]:
        """Return the lines after ``serial`` that this tenant may see, oldest first."""
        statement = (
            select(ChangeRow)
            .where(
                ChangeRow.serial > serial,
                or_(ChangeRow.tenant_id.is_(None), ChangeRow.tenant_id == tenant_id),
            )
            .order_by(ChangeRow.serial)
            .limit(limit)
        )
        if kinds:
            statement = statement.where(ChangeRow.kind.in_(kinds))
        return [copied(FeedLine, row) for row in self._session.scalars(statement)]
