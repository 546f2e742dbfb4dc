"""Writes that callers may send twice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import delete
from sqlalchemy.orm import Session

from service.storage.errors import IdempotencyConflictError
from service.storage.repositories.conflicts import add_unless_there
from service.storage.tables import IdempotencyKeyRow, utc_now


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the first sending was answered with."""

    status: int
    headers: Mapping[str, str]
    body: bytes


class IdempotencyRepository:
    """Outcomes by tenant and key."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def begin(self, tenant_id: str, key: str, fingerprint: str, expires_at: datetime) -> Outcome | None:
        """Claim a key: ``None`` means do the work, an outcome means it was done.

        Raises
        ------
        IdempotencyConflictError
            If the key belongs to another request, or its first sending is still at work.
        """
        now = utc_now()
        self.purge(now)
        row: dict[str, Any] = {
            "tenant_id": tenant_id,
            "idempotency_key": key,
            "fingerprint": fingerprint,
            "status": None,
            "headers": {},
            "body": None,
            "created_at": now,
            "expires_at": expires_at,
        }
        if add_unless_there(self._session, IdempotencyKeyRow, [row]):
            return None
        stored = self._session.get_one(IdempotencyKeyRow, (tenant_id, key), populate_existing=True)
        if stored.fingerprint != fingerprint:
            raise IdempotencyConflictError(key, is_running=False)
        if stored.status is None or stored.body is None:
            raise IdempotencyConflictError(key, is_running=True)
        return Outcome(stored.status, dict(stored.headers), stored.body)

    def finish(self, tenant_id: str, key: str, outcome: Outcome) -> None:
        """Keep the outcome for the next sending."""
        stored = self._session.get_one(IdempotencyKeyRow, (tenant_id, key))
        stored.status, stored.headers, stored.body = outcome.status, dict(outcome.headers), outcome.body
        self._session.flush()

    def abandon(self, tenant_id: str, key: str) -> None:
        """Free a key whose work failed, so that the caller may try again."""
        self._session.execute(
            delete(IdempotencyKeyRow).where(
                IdempotencyKeyRow.tenant_id == tenant_id, IdempotencyKeyRow.idempotency_key == key
            )
        )

    def purge(self, now: datetime) -> None:
        """Forget what has expired."""
        self._session.execute(delete(IdempotencyKeyRow).where(IdempotencyKeyRow.expires_at <= now))
