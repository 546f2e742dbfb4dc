"""Issued answers: once stored they are served as they are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from datetime import datetime

from sqlalchemy import func, or_, select
from sqlalchemy.orm import Session

from service.storage.repositories.conflicts import add_unless_there
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import AnswerRow, utc_now


@dataclass(frozen=True, slots=True)
class Answer:
    """The bytes of an answer, the canonical request that it answers, and what it depends on."""

    digest: str
    release_label: str
    engine: str
    request: bytes
    body: bytes
    tenant_id: str | None = None
    overlay_hash: str = ""
    policy_hash: str = ""
    created_at: datetime = field(default_factory=utc_now)


class AnswersRepository:
    """Answers by digest."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def put(self, answers: Iterable[Answer]) -> int:
        """Keep answers, return how many were new. The first bytes under a digest stay for ever."""
        return add_unless_there(self._session, AnswerRow, [asdict(answer) for answer in answers])

    def find(self, digest: str, tenant_id: str | None = None) -> Answer | None:
        """Return an answer that this tenant may see, ``None`` if there is none."""
        statement = select(AnswerRow).where(
            AnswerRow.digest == digest,
            or_(AnswerRow.tenant_id.is_(None), AnswerRow.tenant_id == tenant_id),
        )
        row = self._session.scalar(statement)
        return None if row is None else copied(Answer, row)

    def page(
        self,
        *,
        release_label: str | None = None,
        tenant_id: str | None = None,
        limit: int = DEFAULT_LIMIT,
        cursor: str = "",
    ) -> Page[Answer]:
        """Return the answers under a release that this tenant may see, by digest."""
        statement = (
            select(AnswerRow)
            .where(
                AnswerRow.digest > text_cursor(cursor),
                or_(AnswerRow.tenant_id.is_(None), AnswerRow.tenant_id == tenant_id),
            )
            .order_by(AnswerRow.digest)
        )
        if release_label is not None:
            statement = statement.where(AnswerRow.release_label == release_label)
        found = [copied(Answer, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda answer: answer.digest)

    def count(self, release_label: str) -> int:
        """Return how many answers a release has given."""
        statement = (
            select(func.count()).select_from(AnswerRow).where(AnswerRow.release_label == release_label)
        )
        return self._session.scalar(statement) or 0
