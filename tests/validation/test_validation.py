"""The documented cases as part of the suite: what must never happen, and what must hold on the whole."""

from __future__ import annotations

from functools import lru_cache

import pytest

from tests.validation import scores
from tests.validation.cases import Case, seed_catalogue, sources, usable_cases
from tests.validation.predictions import Prediction
from tests.validation.reports import score_table, write_all
from tests.validation.run import judge_cases


@lru_cache(maxsize=1)
def judged() -> list[tuple[Case, Prediction, Prediction]]:
    return judge_cases(usable_cases(), seed_catalogue())


def service() -> list[tuple[Case, Prediction]]:
    return [(case, ours) for case, ours, _ in judged()]


def baseline() -> list[tuple[Case, Prediction]]:
    return [(case, theirs) for case, _, theirs in judged()]


def test_nothing_documented_as_severe_is_called_suitable() -> None:
    missed = scores.dangerous_misses(service())
    assert missed.n > 0
    assert missed.wrong == ()


def reversals() -> list[str]:
    known = {name for name, row in sources().items() if row["polarity_reversal"] not in {"", "no"}}
    return [case.name for case in usable_cases() if case.row["case_id"] in known and case.documented.anode]


@pytest.mark.parametrize("name", reversals())
def test_a_documented_reversal_is_reversed_or_in_doubt(name: str) -> None:
    case, word = next((case, word) for case, word in service() if case.name == name)
    assert word.anode == case.documented.anode or word.is_in_doubt


@pytest.mark.parametrize("score", [scores.right_anode, scores.pairwise_order, scores.all_figures])
def test_the_service_beats_the_difference_alone(score: object) -> None:
    assert callable(score)
    assert score(service()).value > score(baseline()).value


def test_the_severity_beats_the_difference_alone() -> None:
    ours, theirs = (scores.severity_within(pairs, 0, "exact").value for pairs in (service(), baseline()))
    assert ours is not None
    assert theirs is not None
    assert ours > theirs


def test_the_report_is_written(tmp_path: object) -> None:
    from pathlib import Path

    folder = Path(str(tmp_path)) / "validation"
    both = scores.all_scores(service()), scores.all_scores(baseline())
    write_all(folder, judged(), *both)
    assert sorted(file.name for file in folder.iterdir()) == [
        "cases.csv",
        "scores.json",
        "scores.md",
        "scores.png",
    ]
    assert score_table(*both).row_count == len(both[0])
