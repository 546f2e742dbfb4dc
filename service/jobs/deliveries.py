"""Sending lines of the feed to webhooks: at least once, with patience, and not for ever."""

from __future__ import annotations

import logging
import random
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import datetime, timedelta

import httpx
import orjson

from service.jobs.errors import ForbiddenAddressError
from service.jobs.outbound import Outbound
from service.jobs.signatures import signed_headers
from service.storage.engine import Database
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.storage.repositories.webhooks import (
    DELIVERED,
    DUE,
    GIVEN_UP,
    Delivery,
    Webhook,
    WebhooksRepository,
)
from service.storage.tables import utc_now

logger = logging.getLogger(__name__)

WAITS_S = (5, 30, 300, 1800, 7200, 18_000, 36_000, 50_400, 72_000)
"""Seconds before each further attempt, some two days in all."""

LEASE = timedelta(minutes=2)
"""Time after which a message whose sender has died is due again."""

TOGETHER = 16
"""Messages that one round takes, each sent in a thread of its own."""

GONE = 410
JITTER = 0.2

SKEW = timedelta(minutes=1)
"""By how much the clocks of two processes may differ."""

LONGEST = (
    LEASE + SKEW,
    *(max(LEASE, timedelta(seconds=wait_s * (1 + JITTER))) + SKEW for wait_s in WAITS_S),
)
"""How far ahead a message can be due after none, one, two ... attempts, unless a clock was set back."""


@dataclass(frozen=True, slots=True)
class Attempt:
    """How sending a message went: the status of the answer, or why there was none."""

    status: int | None
    error: str = ""

    @property
    def is_success(self) -> bool:
        """Whether the receiver has it."""
        return self.status is not None and 200 <= self.status < 300  # noqa: PLR2004 - any success


@dataclass(frozen=True, slots=True)
class Deliveries:
    """Takes what is due and sends it. Any number of processes may do so."""

    database: Database
    outbound: Outbound
    clock: Callable[[], datetime] = utc_now

    def round(self) -> int:
        """Address what has happened, send what is due, and return how many messages that were."""
        now = self.clock()
        with self.database.writing() as session:
            webhooks = WebhooksRepository(session)
            webhooks.address(now)
            due = webhooks.lease(now, now + LEASE, TOGETHER, LONGEST)
        if due:
            with ThreadPoolExecutor(len(due), thread_name_prefix="webhook") as threads:
                list(threads.map(lambda entry: self._deliver(*entry), due))
        return len(due)

    def _deliver(self, delivery: Delivery, webhook: Webhook, change: FeedLine) -> None:
        attempt = self._send(delivery, webhook, change)
        now = self.clock()
        attempts = delivery.attempts + 1
        is_over = attempt.status == GONE or attempts > len(WAITS_S)
        state = DELIVERED if attempt.is_success else GIVEN_UP if is_over else DUE
        wait_s = WAITS_S[min(attempts, len(WAITS_S)) - 1] * (1 + JITTER * random.random())  # noqa: S311
        with self.database.writing() as session:
            webhooks = WebhooksRepository(session)
            webhooks.note_attempt(
                delivery.id,
                state=state,
                due_at=now + timedelta(seconds=wait_s),
                status=attempt.status,
                error=attempt.error,
                delivered_at=now if state == DELIVERED else None,
            )
            if state == GIVEN_UP:
                webhooks.disable(webhook.id, now)
                facts = {"url": webhook.url, "status": attempt.status, "error": attempt.error}
                ChangesRepository(session).append("webhook.disabled", webhook.id, webhook.tenant_id, **facts)
        if state != DELIVERED:
            facts = {"webhook_id": webhook.id, "status": attempt.status, "error": attempt.error}
            logger.warning("webhook not delivered", extra={"facts": facts})

    def _send(self, delivery: Delivery, webhook: Webhook, change: FeedLine) -> Attempt:
        body = message_of(change)
        headers = signed_headers(webhook.secret, delivery.id, int(self.clock().timestamp()), body)
        headers |= {"Content-Type": "application/json", "User-Agent": "faying-webhooks"}
        try:
            status = self.outbound.post(webhook.url, headers, body)
        except (ForbiddenAddressError, httpx.HTTPError, OSError) as error:
            return Attempt(None, f"{type(error).__name__}: {error}"[:500])
        return Attempt(status, "" if 200 <= status < 300 else f"answered {status}")  # noqa: PLR2004


def message_of(change: FeedLine) -> bytes:
    """Write a line of the feed as a message; sending it again gives the same bytes."""
    return orjson.dumps(
        {
            "type": change.kind,
            "timestamp": change.happened_at.isoformat(),
            "data": {"serial": change.serial, "subject": change.subject, "detail": dict(change.detail)},
        }
    )
