"""The portfolio of assemblies that a tenant keeps under watch."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row, utc_now


class AssemblyRow(Row):
    """A bill of materials with its joints.

    ``version`` counts its edits; ``summary`` is the last report in brief, made by ``engine`` under
    ``release_label``, and ``report`` that report in full, compressed. ``rests_on`` names what in the
    knowledge base the report can depend on; ``holds_under`` is the newest release that is known to
    give the same verdicts, ``overlay_hash`` the tenant's overlay on it.
    """

    __tablename__ = "assemblies"
    __table_args__ = (UniqueConstraint("tenant_id", "name"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    tenant_id: Mapped[str] = mapped_column(ForeignKey("tenants.id"))
    name: Mapped[str]
    version: Mapped[int] = mapped_column(default=1)
    body: Mapped[dict[str, Any]] = mapped_column(deferred=True)
    joints: Mapped[int] = mapped_column(default=0)
    release_label: Mapped[str | None] = mapped_column(ForeignKey("releases.label"), index=True)
    engine: Mapped[str] = mapped_column(default="")
    holds_under: Mapped[str | None] = mapped_column(ForeignKey("releases.label"), index=True)
    overlay_hash: Mapped[str] = mapped_column(default="")
    rests_on: Mapped[list[str]] = mapped_column(default=list, deferred=True)
    summary: Mapped[dict[str, Any] | None] = mapped_column(JSON(none_as_null=True), deferred=True)
    report: Mapped[bytes | None] = mapped_column(deferred=True)
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    updated_at: Mapped[datetime] = mapped_column(default=utc_now, onupdate=utc_now)
