"""Long work and its pieces."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row, utc_now


class JobRow(Row):
    """One piece of long work, judged under one release and overlay from its beginning to its end.

    ``state`` is queued, running, done, failed or cancelled; ``total`` and ``done`` count items, of
    which a chunk holds many. ``attempts`` counts starts since the last chunk was finished,
    ``heartbeat_at`` tells a dead worker from a slow one. ``dedupe_key`` names work that shall be done
    once, whoever asks for it.
    """

    __tablename__ = "jobs"

    id: Mapped[str] = mapped_column(primary_key=True)
    kind: Mapped[str]
    state: Mapped[str] = mapped_column(index=True)
    tenant_id: Mapped[str | None] = mapped_column(ForeignKey("tenants.id"), index=True)
    created_by: Mapped[str]
    release_label: Mapped[str | None] = mapped_column(ForeignKey("releases.label"), index=True)
    overlay_hash: Mapped[str] = mapped_column(default="")
    dedupe_key: Mapped[str | None] = mapped_column(unique=True)
    request: Mapped[bytes] = mapped_column(deferred=True)
    result: Mapped[bytes | None] = mapped_column(deferred=True)
    error: Mapped[dict[str, Any] | None] = mapped_column(JSON(none_as_null=True))
    chunks: Mapped[int] = mapped_column(default=0)
    total: Mapped[int] = mapped_column(default=0)
    done: Mapped[int] = mapped_column(default=0)
    attempts: Mapped[int] = mapped_column(default=0)
    is_cancel_requested: Mapped[bool] = mapped_column(default=False)
    created_at: Mapped[datetime] = mapped_column(default=utc_now)
    started_at: Mapped[datetime | None]
    heartbeat_at: Mapped[datetime | None]
    finished_at: Mapped[datetime | None]


class JobInputRow(Row):
    """What one chunk has to work on. The row goes when the chunk's result comes."""

    __tablename__ = "job_inputs"

    job_id: Mapped[str] = mapped_column(ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True)
    chunk: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    items: Mapped[int]
    request: Mapped[bytes]


class JobChunkRow(Row):
    """The finished result of one chunk, compressed; there is never a second one."""

    __tablename__ = "job_chunks"

    job_id: Mapped[str] = mapped_column(ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True)
    chunk: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    result: Mapped[bytes]
    finished_at: Mapped[datetime] = mapped_column(default=utc_now)
