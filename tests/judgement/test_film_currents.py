from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.couples import Couple, Geometry
from service.judgement.currents import Array, Currents
from service.judgement.draws import SAMPLE_SIZE, kinetic_arrays
from service.judgement.film_currents import ENDLESS_WIDTH_M, SMALLEST_ZONE_M, film_currents, film_lanes
from service.judgement.lanes import lanes_of, pairings_of
from tests.factories.couples import ALUMINIUM, COAST, COPPER, STAINLESS, coated

FILM_M = 50e-6


def solved(catalogue: Catalogue, *couples: Couple, conductivity: float = 5.0) -> Currents:
    lanes = lanes_of(pairings_of(couples, catalogue.environments[COAST], catalogue)[0], catalogue)
    arrays = kinetic_arrays(catalogue)
    sides = [arrays.branches(lanes.rows[side], lanes.draws[side]) for side in (0, 1)]
    shape = lanes.bores_m.size, SAMPLE_SIZE
    return film_currents(sides, lanes, np.full(shape, conductivity), np.full(shape, FILM_M))


def sized(area_m2: float, **joint: Any) -> Couple:
    return Couple(ALUMINIUM, COPPER, first_area_m2=area_m2, second_area_m2=area_m2, **joint)


def test_like_on_like_carries_no_current(catalogue: Catalogue) -> None:
    currents = solved(catalogue, Couple(COPPER, COPPER))
    for figure in (currents.anodic, currents.peak, currents.cathodic, currents.reach):
        assert np.all(figure == 0.0)
    assert currents.has_converged.all()


def test_the_peak_at_the_joint_is_above_the_mean_of_the_zone(catalogue: Catalogue) -> None:
    currents = solved(catalogue, sized(0.01))
    anodic = currents.anodic[0] > 0.0
    assert np.all(currents.peak[0][anodic] >= 0.9 * currents.anodic[0][anodic])
    assert np.all(currents.reach[0][anodic] > 0.0)


def test_what_leaves_the_engaged_zone_enters_the_other(catalogue: Catalogue) -> None:
    currents = solved(catalogue, sized(0.04))
    wide = currents.reach[0] > SMALLEST_ZONE_M
    out = (currents.anodic[0] * np.maximum(currents.reach[0], SMALLEST_ZONE_M))[wide]
    into = (currents.cathodic[1] * currents.reach[1])[wide]
    np.testing.assert_allclose(out, into, rtol=1e-6)


def test_a_thicker_or_saltier_film_reaches_farther(catalogue: Catalogue) -> None:
    poor, good = (solved(catalogue, sized(0.04), conductivity=kappa) for kappa in (0.05, 5.0))
    assert np.median(good.reach[0]) > 3.0 * np.median(poor.reach[0])


def test_beyond_the_endless_width_area_adds_nothing(catalogue: Catalogue) -> None:
    endless = ENDLESS_WIDTH_M**2
    currents = solved(catalogue, sized(endless), sized(10 * endless))
    np.testing.assert_array_equal(currents.anodic[:, 0], currents.anodic[:, 1])


def test_a_narrow_cathode_does_less(catalogue: Catalogue) -> None:
    narrow = Couple(ALUMINIUM, COPPER, first_area_m2=0.01, second_area_m2=1e-4)
    currents = solved(catalogue, sized(0.01), narrow)
    wide_flux, narrow_flux = (
        np.median(currents.anodic[0, lane] * np.maximum(currents.reach[0, lane], SMALLEST_ZONE_M))
        for lane in (0, 1)
    )
    assert narrow_flux < wide_flux


@pytest.mark.parametrize("area_m2", [1e-5, 0.01])
def test_turning_a_strip_round_turns_its_currents_round(area_m2: float, catalogue: Catalogue) -> None:
    straight = solved(catalogue, sized(area_m2))
    turned = solved(catalogue, Couple(COPPER, ALUMINIUM, first_area_m2=area_m2, second_area_m2=area_m2))
    np.testing.assert_allclose(straight.anodic[0], turned.anodic[1], rtol=1e-12)
    np.testing.assert_allclose(straight.reach[1], turned.reach[0], rtol=1e-12)


def test_turning_two_openings_round_turns_their_currents_round(catalogue: Catalogue) -> None:
    one, other = coated("al-6082-t6", "powder-coat"), coated("steel-s235", "powder-coat")
    straight, turned = solved(catalogue, Couple(one, other)), solved(catalogue, Couple(other, one))
    np.testing.assert_array_equal(straight.anodic[0], turned.anodic[1])


def test_a_fastener_in_a_plate_is_round_whichever_side_it_is(catalogue: Catalogue) -> None:
    joint = Couple(ALUMINIUM, STAINLESS, geometry=Geometry.FASTENER, fastener_radius_m=0.005)
    round_plate, strip = solved(catalogue, joint, Couple(ALUMINIUM, STAINLESS)).anodic[0]
    assert np.median(round_plate) != np.median(strip)
    assert np.median(round_plate) > 0.0


def test_an_opening_on_the_first_side_is_the_disk(catalogue: Catalogue) -> None:
    painted = Couple(coated("al-6082-t6", "powder-coat"), COPPER)
    currents = solved(catalogue, painted, Couple(ALUMINIUM, COPPER))
    assert np.median(currents.anodic[0, 0]) > np.median(currents.anodic[0, 1])
    assert currents.has_converged.all()


def test_openings_on_both_sides_can_be_solved(catalogue: Catalogue) -> None:
    both = Couple(coated("al-6082-t6", "powder-coat"), coated("steel-s235", "powder-coat"))
    assert solved(catalogue, both).has_converged.all()


def test_shapes_of_a_batch_do_not_touch_each_other(catalogue: Catalogue) -> None:
    couples = [
        sized(0.01),
        sized(1e-4),
        Couple(ALUMINIUM, STAINLESS, geometry=Geometry.FASTENER),
        Couple(coated("al-6082-t6", "powder-coat"), COPPER),
    ]
    together = solved(catalogue, *couples)
    for place, couple in enumerate(couples):
        alone = solved(catalogue, couple)
        np.testing.assert_array_equal(together.anodic[:, place], alone.anodic[:, 0])
        np.testing.assert_array_equal(together.reach[:, place], alone.reach[:, 0])


def disk_ring(radius: float, reach: Array) -> Array:
    """Area of the outer ring of a disk, for each metre of its edge."""
    inner = np.maximum(radius - reach, 0.0)
    return (radius**2 - inner**2) / (2.0 * radius)


def plate_ring(radius: float, reach: Array) -> Array:
    """Area of the ring around a disk, for each metre of its edge."""
    return ((radius + reach) ** 2 - radius**2) / (2.0 * radius)


@pytest.mark.parametrize("radius", [0.002, 0.02])
def test_around_a_fastener_the_currents_of_both_rings_are_one(radius: float, catalogue: Catalogue) -> None:
    joint = Couple(ALUMINIUM, COPPER, geometry=Geometry.FASTENER, fastener_radius_m=radius)
    currents = solved(catalogue, joint)
    plate, head = currents.reach[:, 0]
    out = currents.anodic[0, 0] * plate_ring(radius, np.maximum(plate, SMALLEST_ZONE_M))
    into = currents.cathodic[1, 0] * disk_ring(radius, head)
    np.testing.assert_allclose(out, into, rtol=1e-6)


def test_the_smaller_of_two_openings_is_the_disk(catalogue: Catalogue) -> None:
    one, other = coated("al-6082-t6", "powder-coat"), coated("cu-etp", "powder-coat")
    joint = Couple(one, other, first_area_m2=0.001, second_area_m2=0.1)
    currents = solved(catalogue, joint)
    radius = 1e-4
    inner = np.minimum(currents.reach[0, 0], radius)
    np.testing.assert_array_equal(currents.reach[0, 0], inner)
    assert np.median(currents.reach[1, 0]) > radius


def test_a_strip_just_below_the_endless_width_has_an_end(catalogue: Catalogue) -> None:
    areas = [(0.25 * ENDLESS_WIDTH_M) ** 2, ENDLESS_WIDTH_M**2]
    ended, endless = (solved(catalogue, sized(area), conductivity=50.0) for area in areas)
    assert np.median(ended.reach[1]) < np.median(endless.reach[1])


def test_what_does_not_count_under_a_film_is_left_out(catalogue: Catalogue) -> None:
    painted, other = coated("al-6082-t6", "powder-coat"), coated("cu-etp", "powder-coat")
    couples = [sized(0.01), Couple(painted, COPPER), Couple(painted, other)]
    lanes = lanes_of(pairings_of(couples, catalogue.environments[COAST], catalogue)[0], catalogue)
    kept = film_lanes(lanes)
    assert kept.areas_m2[0, :2].tolist() == [1.0, 1.0]
    assert kept.areas_m2[0, 2] == lanes.areas_m2[0, 2]
    assert kept.widths_m[0].tolist() == [lanes.widths_m[0, 0], np.inf, np.inf]
