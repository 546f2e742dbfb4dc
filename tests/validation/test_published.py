"""Couples with a published outcome: the blind result is kept, and what must hold since."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from functools import lru_cache, partial

import pytest

from tests.validation import scores
from tests.validation.cases import Case, inquiry_of, rows_of, seed_catalogue
from tests.validation.predictions import Prediction
from tests.validation.published import (
    BLIND,
    FILE,
    IN_THE_CATALOGUE,
    headline,
    published_cases,
    said_blind,
    untouched,
)
from tests.validation.run import judge_cases

CONTENT = {FILE: "a56750616cc4", BLIND: "67a32a9c4236"}
"""Neither the bands nor what was said of them blind may change after the fact."""


@lru_cache(maxsize=1)
def service() -> list[tuple[Case, Prediction]]:
    return [(item.case, item.service) for item in judge_cases(published_cases(), seed_catalogue())]


def test_what_was_written_down_first_stays() -> None:
    assert {path: hashlib.sha256(path.read_bytes()).hexdigest()[:12] for path in CONTENT} == CONTENT


def test_every_couple_names_its_source_and_was_judged_blind() -> None:
    rows = rows_of(FILE)
    assert all(row["basis"] and row["statement"] for row in rows)
    assert [row["id"] for row in rows] == [row["id"] for row in rows_of(BLIND)]
    assert {row["id"] for row in rows} > IN_THE_CATALOGUE


def test_the_blind_result_is_what_the_readme_says() -> None:
    anode, near, exact, dangerous = (score.text for score in headline(said_blind(published_cases())))
    assert (anode, near, exact, dangerous) == ("100%", "88%", "72%", "4%")


def test_every_couple_can_be_asked() -> None:
    catalogue = seed_catalogue()
    for case in published_cases():
        inquiry = inquiry_of(case, catalogue)
        for side in (inquiry.first, inquiry.second):
            assert side.material in catalogue.materials, case.name
            assert not side.finish or side.finish in catalogue.finishes, case.name


def within(steps: int) -> Callable[[scores.Pairs], scores.Score]:
    return partial(scores.severity_within, steps=steps, name=f"within {steps}")


@pytest.mark.parametrize("some", [list, untouched], ids=["all", "source not in the catalogue"])
@pytest.mark.parametrize(
    ("score", "least"),
    [(scores.right_anode, 0.95), (within(1), 0.85), (within(0), 0.75)],
    ids=["anode", "one step", "exact"],
)
def test_what_is_published_is_found(
    score: Callable[[scores.Pairs], scores.Score],
    least: float,
    some: Callable[[scores.Pairs], scores.Pairs],
) -> None:
    found = score(some(service()))
    assert found.value is not None
    assert found.value >= least, found.wrong


def test_the_one_ruin_that_is_called_suitable_is_rust_staining_zinc() -> None:
    assert scores.dangerous_misses(service()).wrong == ("PC-006",)
