"""Couples on which engineers agree: what the service must not miss, and what must hold on the whole."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, partial

import pytest

from tests.validation import scores
from tests.validation.agreed import FILE, agreed_cases
from tests.validation.cases import Case, inquiry_of, rows_of, seed_catalogue
from tests.validation.predictions import Prediction
from tests.validation.run import judge_cases


@lru_cache(maxsize=1)
def answered() -> list[tuple[Case, Prediction, Prediction]]:
    judged = judge_cases(agreed_cases(), seed_catalogue())
    return [(item.case, item.service, item.kinetics) for item in judged]


def service() -> list[tuple[Case, Prediction]]:
    return [(case, word) for case, word, _ in answered()]


def kinetics() -> list[tuple[Case, Prediction]]:
    return [(case, word) for case, _, word in answered()]


def test_every_couple_says_what_is_expected_and_on_what_ground() -> None:
    rows = rows_of(FILE)
    assert len(rows) >= 60
    assert len({row["id"] for row in rows}) == len(rows)
    for row in rows:
        assert row["statement"], row["id"]
        assert row["basis"], row["id"]
        assert row["anode"] or row["severity_low"], row["id"]


def test_every_couple_can_be_asked() -> None:
    catalogue = seed_catalogue()
    for case in agreed_cases():
        inquiry = inquiry_of(case, catalogue)
        for side in (inquiry.first, inquiry.second):
            assert side.material in catalogue.materials, case.name
            assert not side.finish or side.finish in catalogue.finishes, case.name


def test_no_known_ruin_is_called_suitable() -> None:
    missed = scores.dangerous_misses(service())
    assert missed.n > 0
    assert missed.wrong == ()


def within(steps: int) -> Callable[[scores.Pairs], scores.Score]:
    return partial(scores.severity_within, steps=steps, name=f"within {steps}")


@pytest.mark.parametrize(
    ("score", "method", "least"),
    [
        (scores.right_anode, service, 0.95),
        (within(1), service, 0.95),
        (within(0), service, 0.75),
        (scores.right_anode, kinetics, 0.95),
        (within(1), kinetics, 0.90),
    ],
    ids=["anode", "one step", "exact", "anode by kinetics", "one step by kinetics"],
)
def test_what_engineers_agree_on_is_found(
    score: Callable[[scores.Pairs], scores.Score], method: Callable[[], scores.Pairs], least: float
) -> None:
    found = score(method())
    assert found.value is not None
    assert found.value >= least, found.wrong
