"""Blocks of joints under a film."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest

from service.chemistry import film_joint
from service.chemistry.film_joint import FilmJoint, solve_round, solve_straight
from tests.factories.random_joints import lane, logarithmic, random_branches

RNG = np.random.default_rng(17)
LANES = 300
FIRST, SECOND = random_branches(RNG, LANES, -0.9, -0.3), random_branches(RNG, LANES, -0.3, 0.3)
CONDUCTANCE = logarithmic(RNG, 1e-6, 1e-3, LANES)
WIDTHS = logarithmic(RNG, 1e-3, 0.1, LANES), logarithmic(RNG, 1e-3, 0.1, LANES)


@pytest.mark.parametrize("kind", ["straight", "round"])
def test_the_cut_into_blocks_changes_nothing(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def solve() -> FilmJoint:
        if kind == "straight":
            return solve_straight(FIRST, SECOND, CONDUCTANCE, WIDTHS)
        return solve_round(FIRST, SECOND, CONDUCTANCE, (WIDTHS[0], WIDTHS[0] + WIDTHS[1]))

    whole = solve()
    monkeypatch.setattr(film_joint, "_FILM_BLOCK", 64)
    cut = solve()
    for name in ("joint_potential", "current_per_metre", "anodic_reach", "mean_anodic_current_density"):
        assert getattr(whole, name) == pytest.approx(getattr(cut, name), rel=1e-13)


def test_infinite_widths_are_sides_without_end() -> None:
    endless = solve_straight(FIRST, SECOND, CONDUCTANCE, (np.inf, np.inf))
    mixed = solve_straight(FIRST, SECOND, CONDUCTANCE, (np.where(np.arange(LANES) < 5, 1e-3, np.inf), np.inf))
    assert mixed.current_per_metre[5:] == pytest.approx(endless.current_per_metre[5:], rel=1e-12)
    assert (mixed.current_per_metre[:5] < endless.current_per_metre[:5]).all()


def test_a_lane_gives_the_same_bits_whatever_its_neighbours_are() -> None:
    widths = (
        np.where(np.arange(LANES) % 3 == 0, np.inf, WIDTHS[0]),
        np.where(np.arange(LANES) % 2, np.inf, WIDTHS[1]),
    )
    together = solve_straight(FIRST, SECOND, CONDUCTANCE, widths)
    for number in range(0, LANES, 7):
        sides = lane(FIRST, number), lane(SECOND, number)
        alone = solve_straight(*sides, CONDUCTANCE[number], (widths[0][number], widths[1][number]))
        for field in fields(FilmJoint):
            assert getattr(together, field.name)[number] == getattr(alone, field.name), field.name


def test_types_are_those_promised() -> None:
    joint = solve_straight(FIRST, SECOND, CONDUCTANCE, WIDTHS)
    assert joint.iterations.dtype == np.int64
    assert joint.converged.dtype == np.bool_
    assert joint.iterations.mean() < 9.0
