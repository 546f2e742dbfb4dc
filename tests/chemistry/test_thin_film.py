"""Joints under films as callers see them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from service.chemistry import thin_film
from service.chemistry.branches import Branches
from service.chemistry.thin_film import pipe_bore, round_joint, sheet_joint, strip_joint
from tests.factories.random_joints import (
    ALUMINIUM,
    GOLD,
    STAINLESS,
    STEEL,
    ZINC,
    logarithmic,
    random_branches,
)

KAPPA, FILM = 5.0, 30e-6
RNG = np.random.default_rng(31)
LANES = 10_000
ANODES, CATHODES = random_branches(RNG, LANES, -0.9, -0.1), random_branches(RNG, LANES, -0.5, 0.3)
CONDUCTANCES = logarithmic(RNG, 1e-7, 1e-3, LANES)
WIDTHS = [logarithmic(RNG, 1e-4, 0.3, LANES) for _ in range(2)]


def test_the_module_shows_what_it_says() -> None:
    assert sorted(thin_film.__all__) == thin_film.__all__
    assert all(hasattr(thin_film, name) for name in thin_film.__all__)


@pytest.mark.parametrize("kind", ["endless", "ended", "damped", "round", "round with a rim"])
def test_every_random_joint_is_solved(kind: str) -> None:
    if kind.startswith("round"):
        rim = None if kind == "round" else WIDTHS[0] + WIDTHS[1]
        joint = round_joint(ANODES, CATHODES, CONDUCTANCES, 1.0, WIDTHS[0], rim)
    elif kind == "endless":
        joint = sheet_joint(ANODES, CATHODES, CONDUCTANCES)
    else:
        joint = sheet_joint(ANODES, CATHODES, CONDUCTANCES, *WIDTHS, has_exact_ends=kind == "ended")
    assert joint.converged.mean() > 0.9998
    rest = np.stack([ANODES.corrosion_potential, CATHODES.corrosion_potential])
    assert (joint.joint_potential >= rest.min(axis=0) - 1e-9).all()
    assert (joint.joint_potential <= rest.max(axis=0) + 1e-9).all()
    solved = joint.converged
    assert np.array_equal(np.sign(joint.current_per_metre)[solved], np.sign(rest[1] - rest[0])[solved])
    for figures in (joint.anodic_reach, joint.cathodic_reach, joint.mean_anodic_current_density):
        assert np.isfinite(figures[solved]).all()
        assert (figures[solved] >= 0.0).all()


def test_both_directions_of_a_couple_give_the_same_joint() -> None:
    forth = sheet_joint(ANODES, CATHODES, CONDUCTANCES, *WIDTHS)
    back = sheet_joint(CATHODES, ANODES, CONDUCTANCES, *WIDTHS[::-1])
    assert forth.joint_potential == pytest.approx(back.joint_potential, abs=1e-6)
    assert forth.current_per_metre == pytest.approx(-back.current_per_metre, rel=1e-5)
    assert forth.anodic_reach == pytest.approx(back.cathodic_reach, rel=1e-3)
    assert forth.peak_anodic_current_density == pytest.approx(back.cathode_anodic_current_density, rel=1e-4)


def test_lanes_may_have_any_shape() -> None:
    first = replace(ZINC, corrosion_potential=np.array([[-0.8], [-0.7]]))
    joint = strip_joint(first, STEEL, KAPPA, np.array([10e-6, 30e-6, 100e-6]), None, 0.01)
    assert joint.joint_potential.shape == joint.iterations.shape == (2, 3)
    alone = strip_joint(replace(ZINC, corrosion_potential=-0.7), STEEL, KAPPA, 30e-6, None, 0.01)
    assert alone.joint_potential.shape == ()
    assert alone.current_per_metre == pytest.approx(joint.current_per_metre[1, 1], rel=1e-9)


def test_a_small_cathode_limits_the_current_and_a_large_one_does_not() -> None:
    widths = np.array([1e-5, 1e-4, 0.1, 1.0])
    joint = strip_joint(ALUMINIUM, GOLD, KAPPA, FILM, None, widths)
    assert joint.current_per_metre[:2] == pytest.approx(0.3 * widths[:2], rel=0.02)
    endless = strip_joint(ALUMINIUM, GOLD, KAPPA, FILM)
    assert joint.current_per_metre[3] == pytest.approx(endless.current_per_metre, rel=1e-4)


def test_beyond_three_decay_lengths_the_area_of_a_cathode_no_longer_matters() -> None:
    endless = strip_joint(ZINC, STEEL, KAPPA, FILM)
    decay = float(endless.cathodic_reach) / np.log(10.0)
    ended = strip_joint(ZINC, STEEL, KAPPA, FILM, None, np.array([3.0, 4.0, 6.0]) * decay)
    missing = 1.0 - ended.current_per_metre / endless.current_per_metre
    assert (missing < np.array([0.02, 0.005, 5e-4])).all()


def test_damping_alone_comes_close() -> None:
    exact = sheet_joint(ANODES, CATHODES, CONDUCTANCES, *WIDTHS)
    damped = sheet_joint(ANODES, CATHODES, CONDUCTANCES, *WIDTHS, has_exact_ends=False)
    error = np.abs(damped.current_per_metre / exact.current_per_metre - 1.0)[exact.converged]
    assert np.quantile(error, 0.5) < 0.02
    assert np.quantile(error, 0.98) < 0.15


def test_a_pipe_carries_its_current_like_a_film_of_a_quarter_of_its_bore() -> None:
    pipe = pipe_bore(STEEL, STAINLESS, KAPPA, 0.04, 2.0, 0.5)
    film = sheet_joint(STEEL, STAINLESS, KAPPA * 0.01, 2.0, 0.5)
    assert pipe.current_per_metre == film.current_per_metre
    assert pipe_bore(STEEL, STAINLESS, KAPPA, 0.04).anodic_reach > 0.0
    quick = pipe_bore(STEEL, STAINLESS, KAPPA, 0.04, 2.0, 0.5, has_exact_ends=False)
    assert quick.current_per_metre == pytest.approx(pipe.current_per_metre, rel=0.15)


def test_a_large_disk_is_a_straight_joint() -> None:
    disk = round_joint(STAINLESS, ALUMINIUM, KAPPA, FILM, 20.0)
    strip = strip_joint(STAINLESS, ALUMINIUM, KAPPA, FILM)
    for name in ("joint_potential", "current_per_metre", "anodic_reach", "cathodic_reach"):
        assert getattr(disk, name) == pytest.approx(getattr(strip, name), rel=0.01)


def test_a_small_plate_with_a_rim_carries_its_area() -> None:
    joint = round_joint(GOLD, replace(ZINC, corrosion_current=0.01), KAPPA, FILM, 0.03, 0.03001)
    ring = (0.03001**2 - 0.03**2) / 0.06
    zinc = joint.cathode_anodic_current_density - 0.3
    assert -joint.current_per_metre == pytest.approx(zinc * ring, rel=0.02)


def test_like_on_like_carries_nothing() -> None:
    for joint in (
        strip_joint(STEEL, STEEL, KAPPA, FILM),
        strip_joint(STEEL, STEEL, KAPPA, FILM, 0.01, 0.01),
        round_joint(STEEL, STEEL, KAPPA, FILM, 0.01),
    ):
        assert joint.converged
        assert joint.current_per_metre == pytest.approx(0.0, abs=1e-12)
        assert joint.anodic_reach == joint.cathodic_reach == 0.0
        assert joint.mean_anodic_current_density == pytest.approx(0.1)


def test_couples_that_hardly_differ_are_solved_in_proportion() -> None:
    close = replace(STEEL, corrosion_potential=-0.40 + np.array([1e-3, 1e-4, 1e-5]))
    joint = strip_joint(STEEL, close, KAPPA, FILM, 0.01, 0.01)
    scaled = joint.current_per_metre * np.array([1.0, 10.0, 100.0])
    assert scaled == pytest.approx(np.full(3, scaled[1]), rel=0.02)


def test_no_film_no_answer() -> None:
    starved = Branches(-0.8, 0.1, 0.04, 0.12, np.array([0.3, np.nan]))
    for joint in (
        strip_joint(starved, STEEL, KAPPA, FILM),
        strip_joint(starved, STEEL, KAPPA, FILM, 0.01, 0.01),
        round_joint(starved, STEEL, KAPPA, FILM, 0.01),
    ):
        assert joint.converged.tolist() == [True, False]
        assert np.isnan(joint.current_per_metre[1])


def test_without_the_mean_everything_else_is_the_same() -> None:
    for kind in ("endless", "ended", "round"):
        whole, short = (_random_joint(kind, has_mean=has_mean) for has_mean in (True, False))
        for name in ("joint_potential", "current_per_metre", "anodic_reach", "cathodic_reach", "converged"):
            assert np.array_equal(getattr(whole, name), getattr(short, name), equal_nan=True)
        assert np.isnan(short.mean_anodic_current_density).all()


def _random_joint(kind: str, *, has_mean: bool) -> thin_film.FilmJoint:
    if kind == "round":
        return round_joint(ANODES, CATHODES, CONDUCTANCES, 1.0, WIDTHS[0], has_mean=has_mean)
    widths = WIDTHS if kind == "ended" else (None, None)
    return sheet_joint(ANODES, CATHODES, CONDUCTANCES, *widths, has_mean=has_mean)
