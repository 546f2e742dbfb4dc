from __future__ import annotations

import itertools

import pytest

from service.catalogue.grading import GRADES, grade, is_read, worst
from service.catalogue.records import Fitness, Obtained, Plausibility


@pytest.mark.parametrize(
    ("obtained", "fitness", "plausibility", "letter"),
    [
        (Obtained.READ, Fitness.EXACT, Plausibility.PASSED, "A"),
        (Obtained.READ, Fitness.CLOSE, Plausibility.PASSED, "B"),
        (Obtained.READ_IN_REPRODUCTION, Fitness.EXACT, Plausibility.PASSED, "B"),
        (Obtained.COMPUTED, Fitness.EXACT, Plausibility.PASSED, "C"),
        (Obtained.READ, Fitness.CLASS_DEFAULT, Plausibility.PASSED, "C"),
        (Obtained.FROM_MEMORY, Fitness.EXACT, Plausibility.PASSED, "D"),
        (Obtained.COMMON_PRACTICE, Fitness.EXACT, Plausibility.PASSED, "D"),
        (Obtained.READ, Fitness.EXACT, Plausibility.DOUBTFUL, "E"),
    ],
)
def test_the_weakest_of_the_three_decides(
    obtained: Obtained, fitness: Fitness, plausibility: Plausibility, letter: str
) -> None:
    assert grade(obtained, fitness, plausibility) == letter


def test_read_does_not_outrank_right() -> None:
    for obtained in Obtained:
        assert grade(obtained, Fitness.UNFIT) is None
        assert grade(obtained, plausibility=Plausibility.FAILED) is None


def test_every_usable_combination_has_a_letter() -> None:
    for obtained, fitness, plausibility in itertools.product(Obtained, Fitness, Plausibility):
        letter = grade(obtained, fitness, plausibility)
        is_usable = fitness is not Fitness.UNFIT and plausibility is not Plausibility.FAILED
        assert (letter is not None and letter in GRADES) == is_usable


def test_what_was_remembered_or_assumed_was_not_read() -> None:
    assert {obtained for obtained in Obtained if not is_read(obtained)} == {
        Obtained.FROM_MEMORY,
        Obtained.COMMON_PRACTICE,
    }


def test_the_worst_of_some_letters() -> None:
    assert worst(["A", "C", "B"]) == "C"
    assert worst([]) is None
