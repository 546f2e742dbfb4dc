"""Webhooks and the deliveries that are due to them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import func, or_, select, update
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.storage.repositories.conflicts import add_unless_there
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import ChangeRow, DeliveryRow, WebhookRow, new_id, utc_now

DUE, DELIVERED, GIVEN_UP = "due", "delivered", "given up"
ALL_EVENTS = "*"
"""The kind by which a webhook asks for every change."""


@dataclass(frozen=True, slots=True)
class Webhook:
    """An address that wants to be told."""

    id: str
    tenant_id: str
    url: str
    secret: str
    events: tuple[str, ...]
    after_serial: int
    created_at: datetime
    disabled_at: datetime | None
    failures: int

    def __repr__(self) -> str:
        """Leave the secret out of logs and tracebacks."""
        return f"Webhook({self.id!r})"


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

    def add(
        self, tenant_id: str, url: str, secret: str, events: Iterable[str], *, after_serial: int | None = None
    ) -> Webhook:
        """Keep a new webhook; unless told otherwise it hears of what happens from now on."""
        if after_serial is None:
            after_serial = self._session.scalar(select(func.max(ChangeRow.serial))) or 0
        row = WebhookRow(
            id=new_id("webhook"),
            tenant_id=tenant_id,
            url=url,
            secret=secret,
            events=list(events),
            after_serial=after_serial,
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

    def address(self, now: datetime | None = None, limit: int = DEFAULT_LIMIT) -> int:
        """Make deliveries, due ``now``, of what has happened since each webhook last heard; return how many.

        A webhook that another worker is addressing is left to that worker.
        """
        statement = (
            select(WebhookRow)
            .where(WebhookRow.disabled_at.is_(None))
            .where(WebhookRow.after_serial < select(func.max(ChangeRow.serial)).scalar_subquery())
            .order_by(WebhookRow.id)
            .with_for_update(skip_locked=True)
            .execution_options(populate_existing=True)
        )
        due_at = now or utc_now()
        return sum(
            self._address(webhook, due_at, limit) for webhook in self._session.scalars(statement).all()
        )

    def lease(
        self, now: datetime, until: datetime, limit: int, longest: Sequence[timedelta] = ()
    ) -> tuple[tuple[Delivery, Webhook, FeedLine], ...]:
        """Take what is due; should the taker die, it is due again at ``until``.

        ``longest`` is how far ahead a message can be due, by the number of its attempts: one that is due
        later was timed by a clock that has been set back since, and is due now.
        """
        misdated = [
            (DeliveryRow.attempts == attempts) & (DeliveryRow.due_at > now + wait)
            for attempts, wait in enumerate(longest)
        ]
        is_due = or_(DeliveryRow.due_at <= now, *misdated)
        statement = (
            select(DeliveryRow, WebhookRow, ChangeRow)
            .join(WebhookRow, WebhookRow.id == DeliveryRow.webhook_id)
            .join(ChangeRow, ChangeRow.serial == DeliveryRow.change_serial)
            .where(DeliveryRow.state == DUE, is_due, WebhookRow.disabled_at.is_(None))
            .order_by(DeliveryRow.due_at, DeliveryRow.id)
            .limit(limit)
            .with_for_update(of=DeliveryRow, skip_locked=True)
        )
        taken = []
        for delivery, webhook, change in self._session.execute(statement).all():
            delivery.due_at = until
            taken.append((copied(Delivery, delivery), copied(Webhook, webhook), copied(FeedLine, change)))
        self._session.flush()
        return tuple(taken)

    def note_attempt(
        self,
        delivery_id: str,
        *,
        state: str,
        due_at: datetime,
        status: int | None = None,
        error: str = "",
        delivered_at: datetime | None = None,
    ) -> Delivery | None:
        """Write down how an attempt went and when the next is due; ``None`` if it is no longer wanted."""
        row = self._session.get(DeliveryRow, delivery_id, with_for_update=True, populate_existing=True)
        if row is None:
            return None
        row.attempts += 1
        row.state, row.due_at, row.delivered_at = state, due_at, delivered_at
        row.last_status, row.last_error = status, error
        failures = 0 if state == DELIVERED else WebhookRow.failures + 1
        self._session.execute(
            update(WebhookRow)
            .where(WebhookRow.id == row.webhook_id)
            .values(failures=failures)
            .execution_options(synchronize_session=False)
        )
        self._session.flush()
        return copied(Delivery, row)

    def deliveries(
        self, webhook_id: str, *, state: str = "", limit: int = DEFAULT_LIMIT, cursor: str = ""
    ) -> Page[Delivery]:
        """Return the deliveries to a webhook, newest first."""
        statement = select(DeliveryRow).where(DeliveryRow.webhook_id == webhook_id)
        if cursor:
            statement = statement.where(DeliveryRow.id < text_cursor(cursor))
        if state:
            statement = statement.where(DeliveryRow.state == state)
        statement = statement.order_by(DeliveryRow.id.desc()).limit(limit + 1)
        found = [copied(Delivery, row) for row in self._session.scalars(statement)]
        return page_of(found, limit, lambda delivery: delivery.id)

    def replay(self, tenant_id: str, webhook_id: str, after_serial: int) -> Webhook:
        """Send again whatever happened after a line of the feed, and take a disabled webhook up again.

        Raises
        ------
        NotStoredError
            If this tenant has no such webhook.
        """
        row = self._row(tenant_id, webhook_id)
        self._session.execute(
            update(DeliveryRow)
            .where(DeliveryRow.webhook_id == webhook_id, DeliveryRow.change_serial > after_serial)
            .values(state=DUE, attempts=0, due_at=utc_now(), delivered_at=None, last_error="")
            .execution_options(synchronize_session=False)
        )
        row.after_serial = min(row.after_serial, after_serial)
        row.disabled_at, row.failures = None, 0
        self._session.flush()
        return copied(Webhook, row)

    def disable(self, webhook_id: str, at: datetime) -> None:
        """Stop sending to an address that does not answer, or asks not to be told any more."""
        row = self._session.get(WebhookRow, webhook_id)
        if row is not None:
            row.disabled_at = at
            self._session.flush()

    def _address(self, webhook: WebhookRow, due_at: datetime, limit: int) -> int:
        changes = ChangesRepository(self._session)
        lines = changes.since(webhook.after_serial, tenant_id=webhook.tenant_id, limit=limit)
        rows = [
            {
                "id": new_id("delivery"), "webhook_id": webhook.id, "change_serial": line.serial,
                "state": DUE, "attempts": 0, "due_at": due_at, "last_error": "",
            }
            for line in lines
            if ALL_EVENTS in webhook.events or line.kind in webhook.events
        ]  # fmt: skip
        if lines:
            webhook.after_serial = lines[-1].serial
            self._session.flush()
        return add_unless_there(self._session, DeliveryRow, rows)

    def _row(self, tenant_id: str, webhook_id: str) -> WebhookRow:
        row = self._session.get(WebhookRow, webhook_id, populate_existing=True)
        if row is None or row.tenant_id != tenant_id:
            raise NotStoredError("webhook", webhook_id)
        return row
