"""The safeguarded search for roots."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from service.chemistry.arrays import FloatArray, IntArray
from service.chemistry.roots import find_roots

Pair = tuple[FloatArray, FloatArray]


class Shifted:
    """A function of ``x - place`` for each lane, counting the lanes that are evaluated."""

    def __init__(self, formula: Callable[[FloatArray], Pair], place: FloatArray, seen: list[int]) -> None:
        self.formula, self.place, self.seen = formula, place, seen

    def evaluate(self, x: FloatArray) -> Pair:
        self.seen.append(x.size)
        return self.formula(x - self.place)

    def narrowed(self, keep: IntArray) -> Shifted:
        return Shifted(self.formula, self.place[keep], self.seen)


FORMULAS: dict[str, Callable[[FloatArray], Pair]] = {
    "straight": lambda x: (2.0 * x, np.full_like(x, 2.0)),
    "steep on one side": lambda x: (np.expm1(30.0 * x), 30.0 * np.exp(30.0 * x)),
    "nearly flat": lambda x: (np.arctan(1e3 * x), 1e3 / (1.0 + 1e6 * x**2)),
    "with a corner": lambda x: (np.where(x < 0.0, x, 1e4 * x), np.where(x < 0.0, 1.0, 1e4)),
    "cubic": lambda x: (x**3, 3.0 * x**2),
}


@pytest.mark.parametrize("name", FORMULAS)
def test_every_lane_finds_its_root(name: str) -> None:
    place = np.linspace(-0.9, 0.9, 101)
    seen: list[int] = []
    bound = np.ones_like(place)
    roots = find_roots(Shifted(FORMULAS[name], place, seen), -bound, bound, 0.0 * bound, 1e-9)
    assert roots.converged.all()
    assert np.abs(roots.x - place).max() < 1e-8
    assert roots.iterations.max() <= 60
    assert seen[-1] <= 101


def test_a_root_at_the_bound_is_found() -> None:
    place = np.array([-1.0, 1.0])
    bound = np.ones(2)
    roots = find_roots(Shifted(FORMULAS["straight"], place, []), -bound, bound, 0.5 * bound, 1e-9)
    assert roots.converged.all()
    assert roots.x.tolist() == pytest.approx([-1.0, 1.0])


def test_finished_lanes_are_dropped() -> None:
    seen: list[int] = []
    place = np.concatenate([np.zeros(90), np.full(10, 0.77)])
    bound = np.ones_like(place)
    find_roots(Shifted(FORMULAS["nearly flat"], place, seen), -bound, bound, 0.0 * bound, 1e-9)
    assert seen[0] == 100
    assert seen[-1] == 10


def test_a_lane_without_an_answer_is_flagged_and_does_not_hold_up_the_others() -> None:
    place = np.array([0.3, np.nan])
    bound = np.ones(2)
    roots = find_roots(Shifted(FORMULAS["straight"], place, []), -bound, bound, 0.0 * bound, 1e-9)
    assert roots.converged.tolist() == [True, False]
    assert np.isnan(roots.x[1])
    assert roots.iterations[1] == 1


def test_a_lane_that_runs_out_of_iterations_is_flagged() -> None:
    place = np.array([0.3, 0.0])
    bound = np.ones(2)
    roots = find_roots(Shifted(FORMULAS["cubic"], place, []), -bound, bound, 0.0 * bound, 1e-9, 5)
    assert roots.converged.tolist() == [False, True]
    assert roots.iterations.tolist() == [5, 1]


def test_a_closed_bracket_is_its_own_root() -> None:
    point = np.array([0.4])
    roots = find_roots(Shifted(FORMULAS["straight"], np.array([np.nan]), []), point, point, point, 1e-9)
    assert roots.converged.tolist() == [True]
    assert roots.x.tolist() == [0.4]
