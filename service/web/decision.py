"""The same answer in under 1 kB: what a gate in another program decides by."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

LIMIT_BYTES = 1000
_MOST_CODES = 6
_MOST_TEXT = 240


def decision_of(document: Mapping[str, Any]) -> dict[str, Any]:
    """Reduce an answer's document to its decision."""
    anode = document["anode"]
    return {
        "address": document["address"],
        "release": document["release"]["label"],
        "engine": document["engine"],
        "verdict": document["verdict"],
        "severity": document["severity"],
        "confidence": document["confidence"],
        "line": _shortened(document["summary"]["line"]),
        "anode": anode["side"],
        "is_polarity_in_doubt": anode["is_in_doubt"],
        "deciding_witness": document["deciding_witness"],
        "conditions": [condition["code"] for condition in document["conditions"]][:_MOST_CODES],
        "question": _shortened(document["question"]) if document["question"] else None,
        "warnings": len(document["warnings"]),
    }


def _shortened(text: str) -> str:
    return text if len(text) <= _MOST_TEXT else text[: _MOST_TEXT - 1].rstrip() + "…"
