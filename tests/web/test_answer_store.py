"""Answers in the database come back with both views."""

from __future__ import annotations

from typing import Any

import orjson
import pytest

from service.storage import Database, publish, seed
from service.web.answer_store import AnswerStore
from service.web.answers import KeptAnswer
from service.web.decision import decision_of
from service.web.representation import canonical
from tests.factories.knowledge import small_package

DOCUMENT: dict[str, Any] = {
    "address": "/v1/answers/d1",
    "release": {"label": "2026.01.01-1"},
    "engine": "1.0.0",
    "verdict": "suitable",
    "severity": "none",
    "confidence": "high",
    "summary": {"line": "Suitable."},
    "anode": {"side": "none", "is_in_doubt": False},
    "deciding_witness": "kinetics",
    "conditions": [],
    "question": None,
    "warnings": [],
}
KEPT = KeptAnswer(
    "d1", "2026.01.01-1", "1.0.0", None, "", "p", b"{}", canonical(DOCUMENT), canonical(decision_of(DOCUMENT))
)


@pytest.fixture
def store(database: Database) -> AnswerStore:
    with database.writing() as session:
        seed(session, small_package())
        publish(session, "2026.01.01-1", by="test")
    return AnswerStore(database)


def test_answers_read_back_with_both_views(store: AnswerStore) -> None:
    store.write([KEPT])
    assert store.read("d1") == KEPT
    assert store.read("d2") is None
    assert orjson.loads(KEPT.decision)["line"] == "Suitable."


def test_writing_again_changes_nothing(store: AnswerStore) -> None:
    store.write([KEPT])
    store.write([KEPT])
    assert store.read("d1") == KEPT
