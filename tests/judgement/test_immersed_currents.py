from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.couples import Couple
from service.judgement.currents import Currents
from service.judgement.draws import SAMPLE_SIZE, kinetic_arrays
from service.judgement.immersed_currents import (
    LARGEST_OPENING_M,
    bulk_resistance,
    immersed_currents,
)
from service.judgement.lanes import Lanes, lanes_of, pairings_of
from tests.factories.couples import ALUMINIUM, COPPER, TAP, coated


def solved(catalogue: Catalogue, conductivity: float, *couples: Couple) -> tuple[Currents, Lanes]:
    lanes = lanes_of(pairings_of(couples, catalogue.environments[TAP], catalogue)[0], catalogue)
    arrays = kinetic_arrays(catalogue)
    shares = [arrays.branches(lanes.rows[side], lanes.draws[side]) for side in (0, 1)]
    sides = [replace(side, limiting_current=0.5 * side.limiting_current) for side in shares]
    return immersed_currents(sides, lanes, np.full(SAMPLE_SIZE, conductivity)), lanes


def test_what_leaves_the_anode_enters_the_cathode(catalogue: Catalogue) -> None:
    currents, lanes = solved(
        catalogue, 5.0, Couple(ALUMINIUM, COPPER, first_area_m2=0.01, second_area_m2=0.05)
    )
    areas = lanes.areas_m2[:, :, None]
    out, into = (currents.anodic * areas).sum(axis=0), (currents.cathodic * areas).sum(axis=0)
    np.testing.assert_allclose(out, into, rtol=1e-6)
    assert currents.has_converged.all()


def test_a_side_is_anode_or_cathode_and_never_both(catalogue: Catalogue) -> None:
    currents, _ = solved(catalogue, 5.0, Couple(ALUMINIUM, COPPER))
    assert np.all(currents.anodic * currents.cathodic == 0.0)


def test_in_a_good_conductor_a_small_couple_is_lumped(catalogue: Catalogue) -> None:
    small = Couple(ALUMINIUM, COPPER, first_area_m2=1e-4, second_area_m2=1e-4)
    currents, _ = solved(catalogue, 5.0, small)
    assert np.all(currents.peak == currents.anodic)
    assert np.all(currents.reach == 0.01)


def test_in_a_poor_conductor_the_attack_is_local(catalogue: Catalogue) -> None:
    large = Couple(ALUMINIUM, COPPER, first_area_m2=0.25, second_area_m2=0.25)
    currents, _ = solved(catalogue, 0.05, large)
    reach, width = currents.reach[0, 0], 0.5
    is_local = reach < 0.9 * width
    assert is_local.mean() > 0.5
    # The zone beside the joint carries nine tenths of what the whole side does.
    of_zone, of_side = currents.peak[0, 0] * reach, currents.anodic[0, 0] * width
    np.testing.assert_allclose(of_zone[is_local], 0.9 * of_side[is_local])


def test_a_poor_conductor_throttles_the_current(catalogue: Catalogue) -> None:
    good, poor = (solved(catalogue, kappa, Couple(ALUMINIUM, COPPER))[0] for kappa in (5.0, 1e-4))
    assert np.median(poor.anodic[0]) < 0.5 * np.median(good.anodic[0])
    assert poor.has_converged.all()


def test_only_hindered_lanes_are_solved_with_their_resistance(catalogue: Catalogue) -> None:
    small = Couple(ALUMINIUM, COPPER, first_area_m2=1e-6, second_area_m2=1e-6)
    large = Couple(ALUMINIUM, COPPER, first_area_m2=1.0, second_area_m2=1.0)
    together, _ = solved(catalogue, 0.05, small, large)
    for place, couple in enumerate((small, large)):
        alone, _ = solved(catalogue, 0.05, couple)
        np.testing.assert_array_equal(together.anodic[:, place], alone.anodic[:, 0])
        np.testing.assert_array_equal(together.potential[place], alone.potential[0])


def test_openings_lie_in_parallel() -> None:
    area, conductivity = np.array([[1e-5]]), np.ones(1)
    radius = np.array([[1e-4]])
    one = 1.0 / (4.0 * 1e-4)
    count = 1e-5 / (np.pi * 1e-8)
    assert bulk_resistance(area, radius, conductivity)[0, 0] == pytest.approx(one / count)


def test_a_side_without_openings_counts_as_one_disk() -> None:
    area = np.array([[np.pi * 0.01]])
    for radius in (np.inf, 10 * LARGEST_OPENING_M):
        found = bulk_resistance(area, np.array([[radius]]), np.ones(1))
        assert found[0, 0] == pytest.approx(1.0 / (4.0 * 0.1))


def test_paint_on_the_anode_gathers_the_current_at_its_openings(catalogue: Catalogue) -> None:
    bare, painted = (
        solved(catalogue, 5.0, Couple(surface, COPPER))[0]
        for surface in (ALUMINIUM, coated("al-6082-t6", "powder-coat"))
    )
    assert np.median(painted.anodic[0]) > 5.0 * np.median(bare.anodic[0])
