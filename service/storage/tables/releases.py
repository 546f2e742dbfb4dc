"""Published releases, what seeding has put in, and the feed of changes."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import SERIAL, Row, utc_now


class ReleaseRow(Row):
    """An immutable state of the knowledge base; triggers forbid changing or deleting one.

    ``blob`` is the gzip-compressed export, ``content_hash`` the SHA-256 of the export itself.
    """

    __tablename__ = "releases"

    serial: Mapped[int] = mapped_column(SERIAL, primary_key=True, autoincrement=True)
    label: Mapped[str] = mapped_column(unique=True)
    content_hash: Mapped[str] = mapped_column(unique=True)
    published_at: Mapped[datetime] = mapped_column(index=True)
    published_by: Mapped[str]
    note: Mapped[str]
    engine: Mapped[str]
    size_bytes: Mapped[int]
    blob: Mapped[bytes] = mapped_column(deferred=True)


class SeededRow(Row):
    """What the seed package last put under a key.

    So a later seeding can tell its own rows from those that curation made or changed.
    """

    __tablename__ = "seeded_rows"

    table_name: Mapped[str] = mapped_column(primary_key=True)
    row_key: Mapped[str] = mapped_column(primary_key=True)
    row_hash: Mapped[str]


class ChangeRow(Row):
    """One line of the feed of changes, in the order in which they happened.

    ``tenant_id`` is set on what only one tenant may see.
    """

    __tablename__ = "changes"

    serial: Mapped[int] = mapped_column(SERIAL, primary_key=True, autoincrement=True)
    happened_at: Mapped[datetime] = mapped_column(default=utc_now)
    kind: Mapped[str] = mapped_column(index=True)
    subject: Mapped[str]
    tenant_id: Mapped[str | None] = mapped_column(ForeignKey("tenants.id"), index=True)
    detail: Mapped[dict[str, Any]]
