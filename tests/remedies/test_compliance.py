"""The checker stands alone: plain values in, a reason out."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import Any

import pytest

from service.remedies import compliance
from service.remedies.compliance import complies

ENVELOPE: dict[str, Any] = {
    "kind": "acceptance-envelope",
    "format": 1,
    "release": {"label": "2026.11.25-1", "content_hash": "a" * 64},
    "members": [
        {
            "side": "second",
            "material_id": "steel-s235",
            "verdict": "conditional",
            "layers": [
                {"finish_id": "ag-electro", "thickness_min_um": 2.0, "thickness_max_um": 25.0},
                {"finish_id": "ni-sulfamate", "thickness_min_um": 5.0, "thickness_max_um": None},
            ],
        },
        {
            "side": "second",
            "material_id": "steel-s235",
            "verdict": "suitable",
            "layers": [{"finish_id": "powder-coat", "thickness_min_um": None, "thickness_max_um": None}],
        },
    ],
}


def surface(*layers: tuple[str, float | None], **changes: Any) -> dict[str, Any]:
    stack = [{"finish_id": name, "thickness_um": thickness} for name, thickness in layers]
    return {"material_id": "steel-s235", "layers": stack, **changes}


SILVERED = surface(("ag-electro", 5.0), ("ni-sulfamate", 5.0))


@pytest.mark.parametrize(
    ("given", "verdict"), [(SILVERED, "conditional"), (surface(("powder-coat", None)), "suitable")]
)
def test_members_are_inside_with_their_verdict(given: dict[str, Any], verdict: str) -> None:
    found = complies(ENVELOPE, given, "second", "a" * 64)
    assert found.is_inside
    assert found.verdict == verdict


@pytest.mark.parametrize(
    ("given", "side", "words"),
    [
        (surface(("ag-electro", 1.9), ("ni-sulfamate", 5.0)), "second", "thinner than 2 µm"),
        (surface(("ag-electro", 26.0), ("ni-sulfamate", 5.0)), "second", "thicker than 25 µm"),
        (surface(("ag-electro", 5.0), ("ni-sulfamate", 4.0)), "second", "ni-sulfamate is thinner"),
        (surface(("ag-electro", None), ("ni-sulfamate", 5.0)), "second", "not stated"),
        (surface(("ag-electro", 5.0)), "second", "finish is not in the envelope"),
        (surface(), "second", "finish is not in the envelope"),
        (SILVERED, "first", "no member for the first side"),
        ({**SILVERED, "material_id": "cu-etp"}, "second", "another than the envelope's"),
        ({**SILVERED, "condition": "worn"}, "second", "worn or damaged"),
    ],
)
def test_what_is_outside_says_why(given: dict[str, Any], side: str, words: str) -> None:
    found = complies(ENVELOPE, given, side)
    assert not found.is_inside
    assert words in found.reason


def test_an_envelope_of_another_release_is_refused() -> None:
    assert "another release" in complies(ENVELOPE, SILVERED, "second", "b" * 64).reason


@pytest.mark.parametrize("broken", [{}, {**ENVELOPE, "format": 2}, {**ENVELOPE, "kind": "waiver"}])
def test_what_is_no_envelope_is_refused(broken: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="not an acceptance envelope"):
        complies(broken, SILVERED, "second")


def test_the_file_stands_alone() -> None:
    tree = ast.parse(Path(compliance.__file__).read_text(encoding="utf-8"))
    imported = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert imported == {"__future__", "collections.abc", "dataclasses", "typing"}
