"""Webhooks and the deliveries that are due to them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.changes import FeedLine
from service.storage.repositories.copying import copied
from service.storage.tables import ChangeRow, DeliveryRow, WebhookRow, new_id

DUE, DELIVERED, GIVEN_UP = "due", "delivered", "given up"


@dataclass(frozen=True, slots=True)
class Webhook:
    """An address that wants to be told."""

    id: str
    tenant_id: str
    url: str
    secret: str
    events: tuple[str, ...]
    created_at: datetime
    disabled_at: datetime | None
    failures: int


@dataclass(frozen=True, slots=True)
class Delivery:
    """One change on its way to one webhook."""

    id: str
    webhook_id: str
    change_serial: int
    state: str
    attempts: int
    due_at: datetime
    last_status: int | None
    last_error: str
    delivered_at: datetime | None


class WebhooksRepository:
    """Webhooks by tenant, deliveries by the moment when they are due."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, tenant_id: str, url: str, secret: str, events: Iterable[str]) -> Webhook:
        """Keep a new webhook."""
        row = WebhookRow(
            id=new_id("webhook"), tenant_id=tenant_id, url=url, secret=secret, events=list(events)
        )
        self._session.add(row)
        self._session.flush()
        return copied(Webhook, row)

    def get(self, tenant_id: str, webhook_id: str) -> Webhook:
        """Return a webhook.

        Raises
        ------
        NotStoredError
            If this tenant has no such webhook.
        """
        return copied(Webhook, self._row(tenant_id, webhook_id))

    def list(self, tenant_id: str) -> tuple[Webhook, ...]:
        """Return a tenant's webhooks, oldest first."""
        statement = select(WebhookRow).where(WebhookRow.tenant_id == tenant_id).order_by(WebhookRow.id)
        return tuple(copied(Webhook, row) for row in self._session.scalars(statement))

    def remove(self, tenant_id: str, webhook_id: str) -> None:
        """Forget a webhook and what was due to it.

        Raises
        ------
        NotStoredError
            If this tenant has no such webhook.
        """
        self._session.delete(self._row(tenant_id, webhook_id))
        self._session.flush()

    def address(self, change: FeedLine) -> tuple[Delivery, ...]:
        """Make a delivery for every webhook that wants this change and may see it."""
        statement = select(WebhookRow).where(WebhookRow.disabled_at.is_(None))
        if change.tenant_id is not None:
            statement = statement.where(WebhookRow.tenant_id == change.tenant_id)
        rows = [
            DeliveryRow(id=new_id("delivery"), webhook_id=webhook.id, change_serial=change.serial, state=DUE)
            for webhook in self._session.scalars(statement.order_by(WebhookRow.id))
            if change.kind in webhook.events
        ]
        self._session.add_all(rows)
        self._session.flush()
        return tuple(copied(Delivery, row) for row in rows)

    def take_due(self, now: datetime, limit: int) -> tuple[tuple[Delivery, Webhook, FeedLine], ...]:
        """Return what is due with its address and content; other workers skip it until the commit."""
        statement = (
            select(DeliveryRow, WebhookRow, ChangeRow)
            .join(WebhookRow, WebhookRow.id == DeliveryRow.webhook_id)
            .join(ChangeRow, ChangeRow.serial == DeliveryRow.change_serial)
            .where(DeliveryRow.state == DUE, DeliveryRow.due_at <= now, WebhookRow.disabled_at.is_(None))
            .order_by(DeliveryRow.due_at, DeliveryRow.id)
            .limit(limit)
            .with_for_update(of=DeliveryRow, skip_locked=True)
        )
        return tuple(
            (copied(Delivery, delivery), copied(Webhook, webhook), copied(FeedLine, change))
            for delivery, webhook, change in self._session.execute(statement)
        )

    def note_attempt(
        self,
        delivery_id: str,
        *,
        state: str,
        due_at: datetime,
        status: int | None = None,
        error: str = "",
        delivered_at: datetime | None = None,
    ) -> Delivery:
        """Write down how an attempt went and when the next is due."""
        row = self._session.get_one(DeliveryRow, delivery_id)
        row.attempts += 1
        row.state, row.due_at, row.delivered_at = state, due_at, delivered_at
        row.last_status, row.last_error = status, error
        webhook = self._session.get_one(WebhookRow, row.webhook_id)
        webhook.failures = 0 if state == DELIVERED else webhook.failures + 1
        self._session.flush()
        return copied(Delivery, row)

    def disable(self, webhook_id: str, at: datetime) -> None:
        """Stop sending to an address that does not answer."""
        self._session.get_one(WebhookRow, webhook_id).disabled_at = at
        self._session.flush()

    def _row(self, tenant_id: str, webhook_id: str) -> WebhookRow:
        row = self._session.get(WebhookRow, webhook_id)
        if row is None or row.tenant_id != tenant_id:
            raise NotStoredError("webhook", webhook_id)
        return row
