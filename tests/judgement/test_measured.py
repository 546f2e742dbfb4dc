from __future__ import annotations

from typing import Any

import pytest

from service.judgement.measured import best_measurement, figure_of
from tests.factories.knowledge import Values, catalogue_of, row, small_package


def hardness(identifier: str, **figures: Any) -> Values:
    defaults: Values = {"value": 100.0, "unit": "HV", "obtained": "read", "fitness": "exact"}
    return row(
        "measurements",
        id=identifier,
        subject_kind="material",
        subject_id="s235",
        quantity="hardness",
        **(defaults | figures),
    )


def best(*rows: Values, units: frozenset[str] = frozenset()) -> str | None:
    package = small_package()
    package["measurements"].extend(rows)
    found = best_measurement("s235", "hardness", catalogue_of(package), units)
    return found.id if found else None


def test_the_better_grade_goes_first() -> None:
    assert best(hardness("a", obtained="from memory"), hardness("b")) == "b"


@pytest.mark.parametrize(
    "fault",
    [{"quarantine_reason": "sintered"}, {"fitness": "unfit"}, {"plausibility": "failed"}, {"value": None}],
    ids=str,
)
def test_rows_that_may_not_be_used_are_passed_over(fault: Values) -> None:
    assert best(hardness("a", **fault)) is None
    assert best(hardness("a", **fault), hardness("b", obtained="from memory")) == "b"


def test_a_unit_that_cannot_be_used_is_passed_over() -> None:
    rockwell, vickers = hardness("a", unit="HRC"), hardness("b", obtained="from memory")
    assert best(rockwell, vickers, units=frozenset({"HV", "HB"})) == "b"
    assert best(rockwell, units=frozenset({"HV", "HB"})) is None


@pytest.mark.parametrize(
    ("figures", "expected"),
    [
        ({"value": 5.0, "low": 1.0}, 5.0),
        ({"value": None, "low": 1.0, "high": 3.0}, 2.0),
        ({"value": None, "high": 3.0}, 3.0),
        ({"value": None}, None),
    ],
)
def test_the_central_figure(figures: Values, expected: float | None) -> None:
    package = small_package()
    package["measurements"].append(hardness("a", **figures))
    assert figure_of(catalogue_of(package).measurements["a"]) == expected
