"""Disks in plates: the match and the zones."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq  # type: ignore[import-untyped]
from scipy.special import iv, kv  # type: ignore[import-untyped]

from service.chemistry.anchoring import anchor
from service.chemistry.arrays import FloatArray
from service.chemistry.branches import flattened, stack
from service.chemistry.film_side import Sides
from service.chemistry.round_match import RoundMatch, round_zone
from tests.factories.random_joints import linear, random_branches

RNG = np.random.default_rng(9)
LANES = 30
ROWS = flattened(
    stack([random_branches(RNG, LANES, -0.9, -0.4), random_branches(RNG, LANES, -0.2, 0.3)]), 2, (LANES,)
)
MIDDLE: FloatArray = np.mean(ROWS.corrosion_potential, axis=0)


def match(rim: float) -> RoundMatch:
    sides = Sides(anchor(ROWS), np.full((1, LANES), 1e-4), np.full((2, 1), np.inf))
    radius = np.geomspace(1e-3, 3e-2, LANES)
    return RoundMatch(sides, radius, np.full(LANES, rim), np.ones(LANES), has_rim=bool(np.isfinite(rim)))


@pytest.mark.parametrize(("rim", "exactness"), [(np.inf, 1e-3), (0.05, 0.5)])
def test_the_match_rises_as_its_derivative_says(rim: float, exactness: float) -> None:
    problem, step = match(rim), 1e-6
    _, slope = problem.logarithms(MIDDLE)
    above, below = problem.logarithms(MIDDLE + step)[0], problem.logarithms(MIDDLE - step)[0]
    rise = np.array([1.0, -1.0]) @ (above - below)
    assert (rise > 0.0).all()
    assert rise / (2.0 * step) == pytest.approx(slope[0] - slope[1], rel=exactness)


def test_ratios_to_the_straight_joint_are_those_of_the_logarithms() -> None:
    problem = match(0.05)
    logarithm, _, net, _ = problem.sides.endless_and_steepness(MIDDLE)
    bent = problem.bent(logarithm, net, MIDDLE - problem.sides.electrodes.corrosion_potential[1])
    assert logarithm + np.log(bent) == pytest.approx(problem.logarithms(MIDDLE)[0])


def test_narrowing_keeps_the_lanes_asked_for() -> None:
    keep = np.array([2, 11])
    whole, part = match(0.05).logarithms(MIDDLE)[0], match(0.05).narrowed(keep).logarithms(MIDDLE[keep])[0]
    assert part == pytest.approx(whole[:, keep])


@pytest.mark.parametrize(("radius", "rim"), [(0.002, np.inf), (0.02, np.inf), (0.01, 0.03)])
def test_linear_kinetics_follow_the_bessel_functions(radius: float, rim: float) -> None:
    resistances, conductance = (1.0, 3.0), 1.5e-4
    rows = flattened(stack([linear(-0.6, resistances[0]), linear(-0.2, resistances[1])]), 2, (1,))
    sides = Sides(anchor(rows), np.array([[conductance]]), np.full((2, 1), np.inf))
    problem = RoundMatch(sides, np.array([radius]), np.array([rim]), np.ones(1), has_rim=rim < 1.0)
    logarithm, _ = problem.logarithms(np.array([-0.4]))
    decay = [np.sqrt(conductance * resistance) for resistance in resistances]
    x, y = radius / decay[1], rim / decay[1]
    mirrored = kv(1, y) / iv(1, y) if rim < 1.0 else 0.0
    disk = iv(1, radius / decay[0]) / iv(0, radius / decay[0])
    plate = (kv(1, x) - mirrored * iv(1, x)) / (kv(0, x) + mirrored * iv(0, x))
    expected = [
        0.2 * conductance / length * ratio for length, ratio in zip(decay, (disk, plate), strict=True)
    ]
    assert np.exp(logarithm[:, 0]) == pytest.approx(np.array(expected), rel=2e-3)


@pytest.mark.parametrize("edge", [0.2, 1.0, 6.0])
def test_zones_hold_nine_tenths_of_the_current(edge: float) -> None:
    decay = 0.01
    radius, straight = edge * decay, decay * np.log(10.0)
    reach, area = round_zone(np.full((2, 1), straight), np.array([radius]), np.array([np.inf]), 0.9)
    inner = brentq(lambda r: r * iv(1, r) - 0.1 * edge * iv(1, edge), 1e-9, edge)
    outer = brentq(lambda r: r * kv(1, r) - 0.1 * edge * kv(1, edge), edge, edge + 20.0)
    assert reach[:, 0] == pytest.approx(np.array([edge - inner, outer - edge]) * decay, rel=1e-3)
    assert area[0, 0] == pytest.approx((radius**2 - (radius - reach[0, 0]) ** 2) / (2.0 * radius))
    assert area[1, 0] == pytest.approx(((radius + reach[1, 0]) ** 2 - radius**2) / (2.0 * radius))


def test_no_zone_reaches_beyond_the_rim() -> None:
    reach, _ = round_zone(np.full((2, 1), 0.1), np.array([0.01]), np.array([0.012]), 0.9)
    assert reach[1, 0] == pytest.approx(0.002)
