from __future__ import annotations

import json
from dataclasses import dataclass

import numpy as np
import pytest

from service.judgement.json_values import figure, plain
from service.judgement.severity import Severity


@dataclass(frozen=True, slots=True)
class Pair:
    name: str
    value: float


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (0.0123456, 0.0123),
        (98765.4, 98800.0),
        (-0.5, -0.5),
        (0.0, 0.0),
        (float("inf"), None),
        (float("nan"), None),
    ],
)
def test_figures_have_three_digits_and_what_json_cannot_say_is_null(
    value: float, expected: float | None
) -> None:
    assert figure(value) == expected


def test_everything_that_findings_hold_becomes_plain() -> None:
    held = {
        "words": Severity.SLIGHT,
        "pairs": (Pair("a", 1.23456), Pair("b", np.float64(2.0))),
        "nested": {"list": [True, None, 3, "text"]},
    }
    assert json.loads(json.dumps(plain(held))) == {
        "words": "slight",
        "pairs": [{"name": "a", "value": 1.23}, {"name": "b", "value": 2.0}],
        "nested": {"list": [True, None, 3, "text"]},
    }


def test_rounding_twice_changes_nothing() -> None:
    values = np.geomspace(1e-9, 1e9, 997).tolist()
    once = plain(values)
    assert plain(once) == once
