"""Issued answers, kept as the bytes that were sent."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row, utc_now


class AnswerRow(Row):
    """One answer under the digest of (engine, release, overlay, policy, canonical request).

    ``request`` is the canonical request, so that the question can be put again to a later release.
    ``tenant_id`` is set on an answer that depends on a private overlay or policy.
    """

    __tablename__ = "answers"

    digest: Mapped[str] = mapped_column(primary_key=True)
    release_label: Mapped[str] = mapped_column(ForeignKey("releases.label"), index=True)
    engine: Mapped[str]
    tenant_id: Mapped[str | None] = mapped_column(ForeignKey("tenants.id"), index=True)
    overlay_hash: Mapped[str]
    policy_hash: Mapped[str]
    request: Mapped[bytes]
    body: Mapped[bytes]
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
