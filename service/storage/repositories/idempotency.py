"""Writes that may be sent twice and happen once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import and_, delete, or_
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from service.storage.errors import IdempotencyConflictError
from service.storage.tables import IdempotencyKeyRow, utc_now

ABANDONED_AFTER = timedelta(minutes=5)
"""A claim without an outcome this old belongs to a process that died."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the first sending was answered."""

    status: int
    headers: Mapping[str, Any]
    body: bytes


class IdempotencyRepository:
    """Keys of writes, each tenant's own."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def begin(self, tenant_id: str, key: str, fingerprint: str, expires_at: datetime) -> Outcome | None:
        """Claim a key for a request, or return the outcome that the same request had.

        Raises
        ------
        IdempotencyConflictError
            If the key was used for another request, or its first request is still at work.
        """
        self._forget_expired()
        row = self._session.get(IdempotencyKeyRow, (tenant_id, key))
        if row is None:
            self._claim(tenant_id, key, fingerprint, expires_at)
            return None
        if row.fingerprint != fingerprint:
            raise IdempotencyConflictError(key, is_running=False)
        if row.status is None or row.body is None:
            raise IdempotencyConflictError(key, is_running=True)
        return Outcome(row.status, row.headers, row.body)

    def finish(self, tenant_id: str, key: str, outcome: Outcome) -> None:
        """Keep the outcome of a claimed key."""
        row = self._session.get_one(IdempotencyKeyRow, (tenant_id, key))
        row.status, row.headers, row.body = outcome.status, dict(outcome.headers), outcome.body
        self._session.flush()

    def release(self, tenant_id: str, key: str) -> None:
        """Give a claimed key back because its request failed and may be sent again."""
        row = self._session.get(IdempotencyKeyRow, (tenant_id, key))
        if row is not None and row.status is None:
            self._session.delete(row)
            self._session.flush()

    def _claim(self, tenant_id: str, key: str, fingerprint: str, expires_at: datetime) -> None:
        self._session.add(
            IdempotencyKeyRow(
                tenant_id=tenant_id,
                idempotency_key=key,
                fingerprint=fingerprint,
                status=None,
                headers={},
                body=None,
                expires_at=expires_at,
            )
        )
        try:
            self._session.flush()
        except IntegrityError as error:  # another process claimed it at the same moment
            raise IdempotencyConflictError(key, is_running=True) from error

    def _forget_expired(self) -> None:
        now = utc_now()
        is_abandoned = and_(
            IdempotencyKeyRow.status.is_(None), IdempotencyKeyRow.created_at < now - ABANDONED_AFTER
        )
        self._session.execute(
            delete(IdempotencyKeyRow).where(or_(IdempotencyKeyRow.expires_at < now, is_abandoned))
        )
