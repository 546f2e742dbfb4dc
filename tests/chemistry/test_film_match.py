"""The functions whose root is the potential of a straight film joint."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.anchoring import anchor
from service.chemistry.arrays import FloatArray
from service.chemistry.branches import flattened, stack
from service.chemistry.film_match import ApproximateMatch, EndRecord, ExactMatch, SharedBracket, crossing
from service.chemistry.film_side import Sides
from tests.factories.random_joints import random_branches

RNG = np.random.default_rng(12)
LANES = 40
ROWS = flattened(
    stack([random_branches(RNG, LANES, -0.9, -0.4), random_branches(RNG, LANES, -0.2, 0.3)]), 2, (LANES,)
)
MIDDLE: FloatArray = np.mean(ROWS.corrosion_potential, axis=0)
LOWER: FloatArray = np.min(ROWS.corrosion_potential, axis=0)
SPAN: FloatArray = np.ptp(ROWS.corrosion_potential, axis=0)


def match(width: float | FloatArray) -> ApproximateMatch:
    sides = Sides(anchor(ROWS), np.full((1, LANES), 1e-4), np.broadcast_to(width, (2, LANES)))
    return ApproximateMatch(sides, np.ones(LANES), has_ends=bool(np.isfinite(width).any()))


@pytest.mark.parametrize("width", [np.inf, 5e-3])
def test_the_approximate_match_rises_as_its_derivative_says(width: float) -> None:
    problem, step = SharedBracket(match(width), LOWER, SPAN), 1e-5
    place = RNG.uniform(-2.0, 2.0, LANES)
    _, slope = problem.evaluate(place)
    above, below = problem.evaluate(place + step)[0], problem.evaluate(place - step)[0]
    assert (above - below) / (2.0 * step) == pytest.approx(slope, rel=1e-3)
    assert (slope > 0.0).all()


def test_the_shares_of_the_bracket_give_its_middle_and_nearly_its_ends() -> None:
    problem = SharedBracket(match(np.inf), LOWER, SPAN)
    assert problem.potential(np.zeros(LANES)) == pytest.approx(MIDDLE)
    assert problem.potential(np.full(LANES, -30.0)) == pytest.approx(LOWER, abs=1e-12)
    assert problem.narrowed(np.array([3])).potential(np.full(1, 30.0)) == pytest.approx(LOWER[3] + SPAN[3])


def test_the_exact_match_rises_as_its_derivative_says_once_theta_has_settled() -> None:
    problem = match(RNG.uniform(1e-3, 2e-2, (2, LANES)))
    with np.errstate(divide="ignore"):
        exact = ExactMatch(problem, EndRecord.begun(problem.sides, MIDDLE), np.arange(LANES))
    assert exact.record.has_end.any()

    def settled(x: FloatArray) -> tuple[FloatArray, FloatArray]:
        for _ in range(20):
            exact.evaluate(x)
        value, slope = exact.evaluate(x)
        return value.copy(), slope.copy()

    _, slope = settled(MIDDLE)
    above, below = settled(MIDDLE + 1e-5)[0], settled(MIDDLE - 1e-5)[0]
    assert (above - below) / 2e-5 == pytest.approx(slope, rel=2e-2)


def test_narrowed_lanes_write_into_the_same_record() -> None:
    problem = match(5e-3)
    with np.errstate(divide="ignore"):
        record = EndRecord.begun(problem.sides, MIDDLE)
    exact = ExactMatch(problem, record, np.arange(LANES))
    before = record.logarithm.copy()
    keep = np.array([4, 30])
    exact.narrowed(keep).evaluate(MIDDLE[keep] + 0.01)
    assert np.flatnonzero((record.logarithm != before).any(axis=0)).tolist() == [4, 30]


def test_the_current_is_where_the_tangents_cross() -> None:
    logarithm, slope = np.array([[-9.0], [-5.0]]), np.array([[1e6], [-20.0]])
    assert crossing(logarithm, slope) == pytest.approx(np.exp([-5.0 - 20.0 * 4.0 / 1e6]), rel=1e-6)
