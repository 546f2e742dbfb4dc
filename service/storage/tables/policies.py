"""House policies: what wraps an answer and is never inside it."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row, utc_now


class PolicyRow(Row):
    """One version of a tenant's policy. A version is never edited; a new one follows it."""

    __tablename__ = "policies"
    __table_args__ = (UniqueConstraint("tenant_id", "name", "version"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    tenant_id: Mapped[str] = mapped_column(ForeignKey("tenants.id"))
    name: Mapped[str]
    version: Mapped[int]
    content_hash: Mapped[str]
    body: Mapped[dict[str, Any]]
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    created_by: Mapped[str]
