"""Callers that want to be told of changes."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import SERIAL, Row, utc_now


class WebhookRow(Row):
    """An address that receives the changes whose kind is in ``events``, or all for ``*``.

    ``secret`` signs each delivery and is therefore kept as it is. ``after_serial`` is the last line of
    the feed for which deliveries were made; setting it back sends again.
    """

    __tablename__ = "webhooks"

    id: Mapped[str] = mapped_column(primary_key=True)
    tenant_id: Mapped[str] = mapped_column(ForeignKey("tenants.id"), index=True)
    url: Mapped[str]
    secret: Mapped[str]
    events: Mapped[list[str]]
    after_serial: Mapped[int] = mapped_column(SERIAL, default=0)
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    disabled_at: Mapped[datetime | None]
    failures: Mapped[int] = mapped_column(default=0)


class DeliveryRow(Row):
    """One change on its way to one webhook. ``state`` is due, delivered or given up."""

    __tablename__ = "deliveries"
    __table_args__ = (UniqueConstraint("webhook_id", "change_serial"), Index(None, "state", "due_at"))

    id: Mapped[str] = mapped_column(primary_key=True)
    webhook_id: Mapped[str] = mapped_column(ForeignKey("webhooks.id", ondelete="CASCADE"))
    change_serial: Mapped[int] = mapped_column(SERIAL, ForeignKey("changes.serial"), index=True)
    state: Mapped[str]
    attempts: Mapped[int] = mapped_column(default=0)
    due_at: Mapped[datetime] = mapped_column(default=utc_now)
    last_status: Mapped[int | None]
    last_error: Mapped[str] = mapped_column(default="")
    delivered_at: Mapped[datetime | None]
