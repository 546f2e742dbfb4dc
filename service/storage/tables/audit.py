"""The audit trail."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import Index
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import SERIAL, Row, utc_now


class AuditRow(Row):
    """Who did what to which subject; triggers forbid changing or deleting a line.

    ``actor`` is the identifier of an API key or the name of a local command.
    """

    __tablename__ = "audit"
    __table_args__ = (Index(None, "subject_kind", "subject_id"),)

    serial: Mapped[int] = mapped_column(SERIAL, primary_key=True, autoincrement=True)
    happened_at: Mapped[datetime] = mapped_column(default=utc_now)
    actor: Mapped[str] = mapped_column(index=True)
    action: Mapped[str]
    subject_kind: Mapped[str]
    subject_id: Mapped[str]
    detail: Mapped[dict[str, Any]]
