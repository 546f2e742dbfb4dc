"""Issued answers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from service.storage.tables import AnswerRow, utc_now


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
        if not answers:
            return
        now = utc_now()
        rows = [
            {name: getattr(answer, name) for name in StoredAnswer.__slots__} | {"created_at": now}
            for answer in answers
        ]
        self._session.execute(self._insert_unless_known(), rows)

    def find(self, digest: str) -> StoredAnswer | None:
        """Return an answer, ``None`` if none was issued under this digest."""
        row = self._session.get(AnswerRow, digest)
        if row is None:
            return None
        return StoredAnswer(**{name: getattr(row, name) for name in StoredAnswer.__slots__})

    def _insert_unless_known(self) -> postgresql.Insert | sqlite.Insert:
        is_postgresql = self._session.get_bind().dialect.name == "postgresql"
        build = postgresql.insert if is_postgresql else sqlite.insert
        return build(AnswerRow).on_conflict_do_nothing(index_elements=[AnswerRow.digest])
