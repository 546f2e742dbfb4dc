from __future__ import annotations

import math

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Surface
from service.judgement.areas import DEFAULT_FASTENER_RADIUS_M
from service.judgement.couples import Couple, Geometry
from service.judgement.lanes import Pairing, kinetics_of, lanes_of, pairings_of
from tests.factories.couples import ALUMINIUM, COAST, COPPER, SEA, STAINLESS, STEEL, coated


def paired(couple: Couple, environment_id: str, catalogue: Catalogue) -> list[Pairing]:
    pairings, gaps = pairings_of([couple], catalogue.environments[environment_id], catalogue)
    assert gaps == []
    return pairings


def test_two_bare_metals_make_one_pairing(catalogue: Catalogue) -> None:
    (pairing,) = paired(Couple(ALUMINIUM, COPPER), COAST, catalogue)
    first, second = kinetics_of(pairing, catalogue)
    assert (first.electrode_id, second.electrode_id) == ("aluminium-6xxx", "copper")
    assert pairing.is_primary
    assert pairing.weight == 1.0
    assert pairing.radii_m == (math.inf, math.inf)


def test_every_credible_state_is_paired(catalogue: Catalogue) -> None:
    pairings = paired(Couple(STEEL, STAINLESS), SEA, catalogue)
    states = {kinetics_of(pairing, catalogue)[1].state.value for pairing in pairings}
    assert states == {"passive", "ennobled"}
    assert sum(pairing.weight for pairing in pairings) == pytest.approx(1.0)


def test_states_of_both_sides_are_paired_with_the_weight_of_both(catalogue: Catalogue) -> None:
    pairings = paired(Couple(STAINLESS, Surface("ss-304")), SEA, catalogue)
    assert [pairing.weight for pairing in pairings] == [0.25] * 4


def test_like_metals_in_one_place_are_in_one_state(catalogue: Catalogue) -> None:
    pairings = paired(Couple(STAINLESS, STAINLESS), SEA, catalogue)
    assert [pairing.weight for pairing in pairings] == [0.5, 0.5]
    assert all(pairing.rows[0] == pairing.rows[1] for pairing in pairings)


def test_what_an_opening_lays_bare_is_paired_with_the_outer_metal_of_the_other_side(
    catalogue: Catalogue,
) -> None:
    worn = coated("steel-s235", "zn-plain", 8.0, Condition.WORN)
    pairings = paired(Couple(worn, COPPER), COAST, catalogue)
    assert [pairing.is_primary for pairing in pairings] == [True, False]
    beneath = pairings[1]
    assert beneath.electrodes[0].electrode_id == "steel-carbon"
    assert beneath.radii_m[0] == beneath.electrodes[0].defect_radius_m
    assert beneath.areas_m2[0] < 0.1 * beneath.areas_m2[1]


def test_two_openings_are_not_expected_to_face_each_other(catalogue: Catalogue) -> None:
    worn = coated("steel-s235", "zn-plain", 8.0, Condition.WORN)
    pairings = paired(Couple(worn, worn), COAST, catalogue)
    assert len(pairings) == 3


def test_two_painted_sides_meet_at_their_openings(catalogue: Catalogue) -> None:
    painted = coated("steel-s235", "powder-coat"), coated("al-6082-t6", "powder-coat")
    (pairing,) = paired(Couple(*painted), COAST, catalogue)
    assert not pairing.is_primary
    assert all(math.isfinite(radius) for radius in pairing.radii_m)


def test_a_fastener_is_a_disk_in_a_plate(catalogue: Catalogue) -> None:
    (pairing,) = paired(Couple(ALUMINIUM, STAINLESS, geometry=Geometry.FASTENER), COAST, catalogue)
    assert pairing.radii_m == (math.inf, DEFAULT_FASTENER_RADIUS_M)


def test_the_joint_line_follows_from_the_smaller_side(catalogue: Catalogue) -> None:
    (pairing,) = paired(Couple(ALUMINIUM, COPPER, first_area_m2=0.01, second_area_m2=0.04), COAST, catalogue)
    assert pairing.widths_m == pytest.approx((0.1, 0.4))


def test_what_is_missing_is_named(catalogue: Catalogue) -> None:
    couples = [Couple(ALUMINIUM, COPPER), Couple(Surface(None), COPPER), Couple(ALUMINIUM, Surface("wc-co"))]
    pairings, gaps = pairings_of(couples, catalogue.environments[COAST], catalogue)
    assert {pairing.couple for pairing in pairings}.isdisjoint(gap.couple for gap in gaps)
    assert gaps[0].couple == 1
    assert gaps[0].missing == ("the metal of a surface",)


def test_an_electrode_without_kinetics_is_named_with_the_electrolyte(catalogue: Catalogue) -> None:
    known = {(row.electrode_id, row.electrolyte_class.value) for row in catalogue.kinetics.values()}
    material = next(
        entry for entry in catalogue.materials.values()
        if entry.electrode_id and (entry.electrode_id, "acid") not in known
    )  # fmt: skip
    acid = next(entry for entry in catalogue.environments.values() if entry.electrolyte_class.value == "acid")
    _, gaps = pairings_of([Couple(Surface(material.id), Surface(material.id))], acid, catalogue)
    assert f"kinetics of {material.electrode_id} in acid electrolyte" in gaps[0].missing


def test_like_electrodes_share_their_draw_and_others_do_not(catalogue: Catalogue) -> None:
    environment = catalogue.environments[COAST]
    couples = [Couple(COPPER, COPPER), Couple(STEEL, COPPER), Couple(COPPER, STEEL)]
    lanes = lanes_of(pairings_of(couples, environment, catalogue)[0], catalogue)
    assert lanes.draws.tolist() == [[0, 1, 0], [0, 0, 1]]
    assert lanes.rows.shape == lanes.areas_m2.shape == lanes.radii_m.shape == lanes.widths_m.shape == (2, 3)
    assert np.all(lanes.areas_m2 > 0.0)
