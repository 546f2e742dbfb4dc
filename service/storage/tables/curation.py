"""Proposals to change the knowledge base, and private overlays on it."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import SERIAL, Row, utc_now


class ProposalRow(Row):
    """A change to one row.

    ``kind`` is add, change or remove; ``state`` is open, approved, rejected, withdrawn or
    published. ``before`` is the row as its author saw it.
    """

    __tablename__ = "proposals"

    id: Mapped[str] = mapped_column(primary_key=True)
    kind: Mapped[str]
    table_name: Mapped[str] = mapped_column(index=True)
    row_key: Mapped[str]
    before: Mapped[dict[str, Any] | None] = mapped_column(JSON(none_as_null=True))
    after: Mapped[dict[str, Any] | None] = mapped_column(JSON(none_as_null=True))
    reason: Mapped[str]
    state: Mapped[str] = mapped_column(index=True)
    proposed_by: Mapped[str] = mapped_column(index=True)
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    closed_at: Mapped[datetime | None]
    closing_reason: Mapped[str] = mapped_column(default="")
    release_label: Mapped[str | None] = mapped_column(ForeignKey("releases.label"), index=True)


class CommentRow(Row):
    """A remark on a proposal."""

    __tablename__ = "comments"

    id: Mapped[str] = mapped_column(primary_key=True)
    proposal_id: Mapped[str] = mapped_column(ForeignKey("proposals.id"), index=True)
    author: Mapped[str]
    text: Mapped[str]
    created_at: Mapped[datetime] = mapped_column(default=utc_now)


class ReviewRow(Row):
    """The decision (approve or reject) of one reviewer on a proposal."""

    __tablename__ = "reviews"
    __table_args__ = (UniqueConstraint("proposal_id", "reviewer"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    proposal_id: Mapped[str] = mapped_column(ForeignKey("proposals.id"))
    reviewer: Mapped[str]
    decision: Mapped[str]
    text: Mapped[str]
    created_at: Mapped[datetime] = mapped_column(default=utc_now)


class OverlayRow(Row):
    """A tenant's own row, in the shape of the record of ``table_name`` (or a ban)."""

    __tablename__ = "overlay_rows"

    tenant_id: Mapped[str] = mapped_column(ForeignKey("tenants.id"), primary_key=True)
    table_name: Mapped[str] = mapped_column(primary_key=True)
    row_key: Mapped[str] = mapped_column(primary_key=True)
    body: Mapped[dict[str, Any]]
    updated_at: Mapped[datetime] = mapped_column(default=utc_now, onupdate=utc_now)
    updated_by: Mapped[str]


class OverlayVersionRow(Row):
    """What a tenant's overlay was from one change to the next; triggers forbid changing or deleting one.

    ``body`` holds the rows by table; an answer names its overlay by ``overlay_hash``, which is empty where
    a tenant has taken everything away again.
    """

    __tablename__ = "overlay_versions"

    serial: Mapped[int] = mapped_column(SERIAL, primary_key=True, autoincrement=True)
    tenant_id: Mapped[str] = mapped_column(ForeignKey("tenants.id"), index=True)
    overlay_hash: Mapped[str]
    body: Mapped[dict[str, Any]] = mapped_column(deferred=True)
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    created_by: Mapped[str]
