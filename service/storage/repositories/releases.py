"""Published releases."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import datetime

from sqlalchemy import desc, select, text, tuple_
from sqlalchemy.orm import Session

from service.storage.errors import BadCursorError
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import ReleaseRow

PUBLISHING_LOCK = 7_246_302
"""The advisory lock that publishers queue for; on SQLite the write lock does the same."""


@dataclass(frozen=True, slots=True)
class ReleaseInfo:
    """A release without its content. ``size_bytes`` is that of the export before compression."""

    label: str
    content_hash: str
    published_at: datetime
    published_by: str
    note: str
    engine: str
    size_bytes: int


class ReleasesRepository:
    """Releases by label, and which one is current."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def lock(self) -> None:
        """Let one publisher at a time go on, until its transaction ends."""
        if self._session.get_bind().dialect.name == "postgresql":
            self._session.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": PUBLISHING_LOCK})

    def add(self, info: ReleaseInfo, blob: bytes) -> None:
        """Keep a release for ever."""
        self._session.add(ReleaseRow(**asdict(info), blob=blob))
        self._session.flush()

    def find(self, label: str) -> ReleaseInfo | None:
        """Return a release, ``None`` if there is none."""
        row = self._session.scalar(select(ReleaseRow).where(ReleaseRow.label == label))
        return None if row is None else copied(ReleaseInfo, row)

    def current(self) -> ReleaseInfo | None:
        """Return the newest release, ``None`` before the first."""
        newest = select(ReleaseRow).order_by(desc(ReleaseRow.published_at), desc(ReleaseRow.label))
        row = self._session.scalar(newest.limit(1))
        return None if row is None else copied(ReleaseInfo, row)

    def blob(self, label: str) -> bytes | None:
        """Return the compressed export, ``None`` if there is no such release."""
        return self._session.scalar(select(ReleaseRow.blob).where(ReleaseRow.label == label))

    def labels_like(self, start: str) -> list[str]:
        """Return the labels that begin with ``start``."""
        return list(
            self._session.scalars(
                select(ReleaseRow.label).where(ReleaseRow.label.startswith(start, autoescape=True))
            )
        )

    def page(self, *, limit: int = DEFAULT_LIMIT, cursor: str = "") -> Page[ReleaseInfo]:
        """Return releases, newest first."""
        statement = select(ReleaseRow).order_by(desc(ReleaseRow.published_at), desc(ReleaseRow.label))
        if cursor:
            last = self.find(text_cursor(cursor))
            if last is None:
                raise BadCursorError(cursor)
            place = tuple_(ReleaseRow.published_at, ReleaseRow.label)
            statement = statement.where(place < tuple_(last.published_at, last.label))
        found = [copied(ReleaseInfo, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda info: info.label)
