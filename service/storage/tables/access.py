"""Tenants, their keys, and writes that may be repeated."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row, utc_now


class TenantRow(Row):
    """An organisation whose overlay, policies, assemblies and answers are its own."""

    __tablename__ = "tenants"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    disabled_at: Mapped[datetime | None]


class ApiKeyRow(Row):
    """An API key, without its secret.

    ``prefix`` is the part that a person may read out, ``key_hash`` proves the rest.
    """

    __tablename__ = "api_keys"

    id: Mapped[str] = mapped_column(primary_key=True)
    prefix: Mapped[str] = mapped_column(unique=True)
    key_hash: Mapped[str]
    name: Mapped[str]
    tenant_id: Mapped[str] = mapped_column(ForeignKey("tenants.id"), index=True)
    scopes: Mapped[list[str]]
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    expires_at: Mapped[datetime | None]
    revoked_at: Mapped[datetime | None]
    last_used_at: Mapped[datetime | None]


class BlockedClientRow(Row):
    """A client of the token issuer whose tokens are refused, whatever they say."""

    __tablename__ = "blocked_clients"

    client_id: Mapped[str] = mapped_column(primary_key=True)
    blocked_at: Mapped[datetime] = mapped_column(default=utc_now)


class IdempotencyKeyRow(Row):
    """A write that a caller may send twice.

    ``status`` and ``body`` are empty while the first sending is still at work; ``fingerprint`` is
    the digest of the request.
    """

    __tablename__ = "idempotency_keys"

    tenant_id: Mapped[str] = mapped_column(ForeignKey("tenants.id"), primary_key=True)
    idempotency_key: Mapped[str] = mapped_column(primary_key=True)
    fingerprint: Mapped[str]
    status: Mapped[int | None]
    headers: Mapped[dict[str, Any]]
    body: Mapped[bytes | None]
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    expires_at: Mapped[datetime] = mapped_column(index=True)
