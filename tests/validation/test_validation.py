"""The documented cases as part of the suite: what must never happen, and what must hold on the whole."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import pytest

from tests.validation import scores
from tests.validation.cases import Case, seed_catalogue, sources, usable_cases
from tests.validation.predictions import Prediction
from tests.validation.reports import Judged, score_all, score_table, write_all
from tests.validation.run import judge_cases


@lru_cache(maxsize=1)
def judged() -> list[Judged]:
    return judge_cases(usable_cases(), seed_catalogue())


def service() -> list[tuple[Case, Prediction]]:
    return [(item.case, item.service) for item in judged()]


def kinetics() -> list[tuple[Case, Prediction]]:
    return [(item.case, item.kinetics) for item in judged()]


def baseline() -> list[tuple[Case, Prediction]]:
    return [(item.case, item.baseline) for item in judged()]


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


Scoring = Callable[[scores.Pairs], scores.Score]


def exact_severity(pairs: scores.Pairs) -> scores.Score:
    return scores.severity_within(pairs, 0, "exact")


def check_beaten(score: Scoring, method: Callable[[], scores.Pairs]) -> None:
    ours, theirs = score(method()).value, score(baseline()).value
    assert ours is not None
    assert theirs is not None
    assert ours > theirs


PHYSICS = [scores.right_anode, scores.pairwise_order, scores.spearman, scores.all_figures]


@pytest.mark.parametrize("score", [*PHYSICS, exact_severity])
def test_the_service_beats_the_difference_alone(score: Scoring) -> None:
    check_beaten(score, service)


@pytest.mark.parametrize("score", PHYSICS)
def test_the_computed_loss_alone_beats_it_too(score: Scoring) -> None:
    check_beaten(score, kinetics)


def test_every_figure_is_a_number() -> None:
    for case, word in service():
        for figure in (word.attack, word.rate_um_per_year, word.acceleration, word.cathode_current_A_per_m2):
            assert figure is None or math.isfinite(figure), case.name


def test_the_report_is_written(tmp_path: Path) -> None:
    found = score_all(judged())
    write_all(tmp_path / "validation", judged(), found)
    names = sorted(file.name for file in (tmp_path / "validation").iterdir())
    assert names == ["cases.csv", "scores.json", "scores.md", "scores.png"]
    assert score_table(found).row_count == len(found["service"])
