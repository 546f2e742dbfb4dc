"""Issued answers."""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass, fields

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.storage.repositories.conflicts import add_unless_there
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import AnswerRow, utc_now

_FASTEST = 1
"""Level of compression: three quarters of the size go at a tenth of the time of the best."""

_PLAIN = b"{"
"""First byte of an answer that was written before answers were compressed."""


@dataclass(frozen=True, slots=True)
class StoredAnswer:
    """One answer under its digest, as the bytes that were sent, with the question that it answers."""

    digest: str
    release_label: str
    engine: str
    tenant_id: str | None
    overlay_hash: str
    policy_hash: str
    request: bytes
    body: bytes


class AnswersRepository:
    """Answers can be added and read; an answer that was issued never changes."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, answers: Sequence[StoredAnswer]) -> None:
        """Keep answers; those whose digest is known stay as they are."""
        now = utc_now()
        rows = [_values(answer) | {"created_at": now} for answer in answers]
        add_unless_there(self._session, AnswerRow, rows)

    def find(self, digest: str) -> StoredAnswer | None:
        """Return an answer, ``None`` if none was issued under this digest."""
        row = self._session.get(AnswerRow, digest)
        return None if row is None else _answer(row)

    def page(self, release_label: str, *, limit: int = DEFAULT_LIMIT, cursor: str = "") -> Page[StoredAnswer]:
        """Return the answers that a release has given, of all tenants, by digest."""
        statement = (
            select(AnswerRow)
            .where(AnswerRow.release_label == release_label, AnswerRow.digest > text_cursor(cursor))
            .order_by(AnswerRow.digest)
            .limit(limit + 1)
        )
        found = [_answer(row) for row in self._session.scalars(statement)]
        return page_of(found, limit, lambda answer: answer.digest)


def _values(answer: StoredAnswer) -> dict[str, object]:
    values = {field.name: getattr(answer, field.name) for field in fields(answer)}
    return values | {"body": zlib.compress(answer.body, _FASTEST)}


def _answer(row: AnswerRow) -> StoredAnswer:
    values = {field.name: getattr(row, field.name) for field in fields(StoredAnswer)}
    body = row.body if row.body.startswith(_PLAIN) else zlib.decompress(row.body)
    return StoredAnswer(**values | {"body": body})
