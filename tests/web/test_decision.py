"""The decision is the same answer in under 1 kB, whatever the answer says."""

from __future__ import annotations

from typing import Any

from service.web.decision import LIMIT_BYTES, decision_of
from service.web.representation import canonical
from service.web.schemas.answers import Decision


def document(text: str, conditions: int) -> dict[str, Any]:
    return {
        "address": "/v1/answers/" + "f" * 64,
        "release": {"label": "2026.11.25-1", "content_hash": "f" * 64},
        "engine": "1.0.0",
        "verdict": "conditional",
        "severity": "moderate",
        "confidence": "medium",
        "summary": {"line": text, "paragraph": text, "chain": []},
        "anode": {"side": "first", "name": text, "is_in_doubt": True, "probability": 0.5},
        "deciding_witness": "kinetics",
        "conditions": [{"code": f"condition-number-{number}"} for number in range(conditions)],
        "question": text or None,
        "warnings": [{}] * 100,
    }


def test_the_decision_says_the_same() -> None:
    decision = decision_of(document("Short.", 2))
    assert Decision.model_validate(decision).model_dump(exclude_unset=True)
    assert (decision["line"], decision["question"]) == ("Short.", "Short.")
    assert decision["conditions"] == ["condition-number-0", "condition-number-1"]


def test_the_longest_decision_is_under_the_limit() -> None:
    longest = canonical(decision_of(document("ü" * 10_000, 100)))
    assert len(longest) < LIMIT_BYTES


def test_no_question_is_null() -> None:
    assert decision_of(document("", 0))["question"] is None
