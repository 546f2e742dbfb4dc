"""The same answer in under 1 kB: what a gate in another program decides by."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.web.representation import canonical

LIMIT_BYTES = 1000
_MOST_CODES = 6
_MOST_CHARACTERS = (240, 160, 80, 40)
"""Lengths to which texts are cut, tried in this order until the whole is short enough."""


def decision_of(document: Mapping[str, Any]) -> dict[str, Any]:
    """Reduce an answer's document to its decision; only its texts are ever cut."""
    for characters in _MOST_CHARACTERS:
        decision = _decision(document, characters)
        if len(canonical(decision)) < LIMIT_BYTES:
            break
    return decision


def _decision(document: Mapping[str, Any], characters: int) -> dict[str, Any]:
    anode = document["anode"]
    return {
        "address": document["address"],
        "release": document["release"]["label"],
        "engine": document["engine"],
        "verdict": document["verdict"],
        "severity": document["severity"],
        "confidence": document["confidence"],
        "line": _cut(document["summary"]["line"], characters),
        "anode": anode["side"],
        "is_polarity_in_doubt": anode["is_in_doubt"],
        "deciding_witness": document["deciding_witness"],
        "conditions": [condition["code"] for condition in document["conditions"]][:_MOST_CODES],
        "question": _cut(document["question"], characters) if document["question"] else None,
        "warnings": len(document["warnings"]),
    }


def _cut(text: str, characters: int) -> str:
    return text if len(text) <= characters else text[: characters - 1].rstrip() + "…"
