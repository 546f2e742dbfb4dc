"""Issued answers in the database, as the answer book reads and writes them."""

from __future__ import annotations

from collections.abc import Sequence

import orjson

from service.storage.engine import Database
from service.storage.repositories.answers import AnswersRepository, StoredAnswer
from service.web.answers import KeptAnswer
from service.web.decision import decision_of
from service.web.representation import canonical


class AnswerStore:
    """Answers of one database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def write(self, answers: Sequence[KeptAnswer]) -> None:
        """Keep answers; those that are stored already stay as they are."""
        with self._database.writing() as session:
            AnswersRepository(session).add([_stored(answer) for answer in answers])

    def read(self, digest: str) -> KeptAnswer | None:
        """Return an answer, ``None`` if none was issued under this digest."""
        with self._database.reading() as session:
            found = AnswersRepository(session).find(digest)
        return None if found is None else _kept(found)


def _stored(answer: KeptAnswer) -> StoredAnswer:
    return StoredAnswer(**{name: getattr(answer, name) for name in StoredAnswer.__slots__})


def _kept(stored: StoredAnswer) -> KeptAnswer:
    values = {name: getattr(stored, name) for name in StoredAnswer.__slots__}
    return KeptAnswer(**values, decision=canonical(decision_of(orjson.loads(stored.body))))
