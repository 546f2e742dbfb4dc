"""The anchored form that solvers evaluate."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from service.chemistry.anchoring import (
    LARGEST_OXYGEN_USE,
    PASSIVE_SLOPE,
    SMALLEST_SLOPE,
    Anchored,
    anchor,
)
from service.chemistry.arrays import FloatArray
from service.chemistry.branches import Branches
from tests.factories.random_joints import GOLD, STAINLESS, STEEL, random_branches

LANES = 4000
MANY = random_branches(np.random.default_rng(7), LANES, -1.2, 0.4)
POTENTIAL = np.random.default_rng(8).uniform(-1.4, 0.6, LANES)


def at(branches: Branches, potential: float | FloatArray) -> tuple[Anchored, FloatArray]:
    return anchor(branches).flat((LANES,)), np.broadcast_to(potential, (1, LANES))


def test_every_sample_is_at_rest_at_its_corrosion_potential() -> None:
    form, rest = at(MANY, np.asarray(MANY.corrosion_potential))
    anodic, cathodic, _, _ = form.partial_currents(rest)
    assert np.array_equal(anodic, cathodic)
    anodic, cathodic, integral = form.currents_and_integral(rest)
    assert np.array_equal(anodic, cathodic)
    assert not integral.any()


def test_both_evaluations_agree() -> None:
    form, potential = at(MANY, POTENTIAL)
    anodic, cathodic, _, _ = form.partial_currents(potential)
    other_anodic, other_cathodic, _ = form.currents_and_integral(potential)
    scale = anodic + cathodic
    assert np.abs((anodic - other_anodic) / scale).max() < 1e-13
    assert np.abs((cathodic - other_cathodic) / scale).max() < 1e-13


def test_what_is_asked_for_together_is_what_is_asked_for_alone() -> None:
    form, potential = at(MANY, POTENTIAL)
    anodic, cathodic, integral = form.currents_and_integral(potential)
    _, _, rise, fall = form.partial_currents(potential)
    net, slope, area = form.net_slope_and_integral(potential)
    scale = anodic + cathodic
    assert np.abs((anodic - cathodic - net) / scale).max() < 1e-13
    # A limited cathode hardly has a slope; what is left of it keeps fewer digits.
    assert np.abs((rise - fall - slope) / (rise - fall)).max() < 1e-7
    assert np.array_equal(area, integral)
    assert form.integral(potential) == pytest.approx(integral, rel=1e-9, abs=1e-300)


def test_derivatives_are_those_of_the_currents_and_of_the_integral() -> None:
    form, potential = at(MANY, POTENTIAL)
    step = 1e-6
    anodic, cathodic, rise, fall = form.partial_currents(potential)
    above, below = form.partial_currents(potential + step), form.partial_currents(potential - step)
    assert (above[0] - below[0]) / (2.0 * step) == pytest.approx(rise, rel=1e-6)
    noise = 1e-9 * (cathodic / step).max()
    assert (above[1] - below[1]) / (2.0 * step) == pytest.approx(fall, rel=1e-5, abs=noise * 1e-3)
    above_area = form.currents_and_integral(potential + step)[2]
    below_area = form.currents_and_integral(potential - step)[2]
    error = (above_area - below_area) / (2.0 * step) - (anodic - cathodic)
    assert np.abs(error / (anodic + cathodic)).max() < 1e-7
    assert (rise >= 0.0).all()
    assert (fall <= 0.0).all()


def test_corrosion_never_uses_more_than_the_oxygen_that_comes() -> None:
    greedy = anchor(replace(STEEL, corrosion_current=5.0, limiting_current=0.3))
    assert greedy.oxygen_current == pytest.approx(LARGEST_OXYGEN_USE * 0.3)
    still = anchor(replace(STEEL, limiting_current=0.0))
    assert 0.0 < still.oxygen_current < 1e-11


def test_water_reduction_is_folded_into_the_anodic_anchor() -> None:
    magnesium = anchor(Branches(-1.36, 0.2, 0.1, 0.12, 0.3, water_current=1e-3, water_slope=0.12))
    assert magnesium.water_current == pytest.approx(1e-3 * 10.0**3)
    assert magnesium.rest_current == pytest.approx(0.2 + 1.0)


def test_slopes_are_held_above_the_smallest() -> None:
    assert anchor(replace(STEEL, anodic_slope=0.0)).first_rate == pytest.approx(np.log(10.0) / SMALLEST_SLOPE)


def test_a_passive_branch_is_flat_up_to_breakdown_where_it_has_doubled() -> None:
    form = anchor(STAINLESS)
    assert form.has_second
    at_breakdown, far_above = (
        form.flat((1,)).partial_currents(np.array([[potential]]))[0].item() for potential in (0.35, 0.45)
    )
    flat = 0.002 * 10.0 ** (0.35 / PASSIVE_SLOPE)
    assert at_breakdown == pytest.approx(flat + 0.002, rel=1e-9)
    assert far_above == pytest.approx(0.002 * 10.0**5, rel=1e-3)


@pytest.mark.parametrize("breakdown", [np.nan, np.inf])
def test_without_breakdown_there_is_no_second_branch(breakdown: float) -> None:
    assert not anchor(replace(STAINLESS, breakdown_potential=breakdown)).has_second
    assert not anchor(replace(STEEL, breakdown_potential=0.0)).has_second


def test_rest_beyond_breakdown_is_steep() -> None:
    broken = anchor(replace(STAINLESS, breakdown_potential=-0.2)).flat((1,))
    _, _, rise, _ = broken.partial_currents(np.array([[0.0]]))
    assert rise.item() == pytest.approx(0.002 * np.log(10.0) / 0.02, rel=1e-6)


def test_an_inert_cathode_works_up_to_its_limit() -> None:
    gold = anchor(GOLD).flat((1,))
    anodic, cathodic, _, _ = gold.partial_currents(np.array([[-0.6]]))
    assert cathodic.item() == pytest.approx(0.3, rel=1e-2)
    assert anodic.item() < 1e-5


@pytest.mark.parametrize("slope", [0.01, 0.06])
def test_far_potentials_break_nothing(slope: float) -> None:
    form = anchor(replace(STEEL, cathodic_slope=slope)).flat((1,))
    with np.errstate(all="raise", under="ignore"):
        _, cathodic, integral = form.currents_and_integral(np.array([[-3.4]]))
    assert cathodic.item() == pytest.approx(0.3)
    rise = slope / np.log(10.0) * np.log(1.0 / 3.0)
    assert integral.item() == pytest.approx(0.3 * (3.0 + rise) - 0.1 * 0.06 / np.log(10.0), rel=1e-9)


def test_narrowing_keeps_what_all_lanes_share() -> None:
    form = anchor(
        Branches(np.zeros((1, 5)), 0.1, 0.06, np.full((1, 1), 0.12), np.arange(1.0, 6.0).reshape(1, 5))
    )
    part = form.narrowed(np.array([1, 3]))
    assert part.corrosion_potential.shape == (1, 2)
    assert part.oxygen_rate.shape == (1, 1)
    assert part.first_rate.ndim == 0
    assert part.oxygen_use[0].tolist() == [0.1 / 2.0, 0.1 / 4.0]
