from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import FinishRole
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle
from service.remedies.enumeration import CHECK_DESIGN
from service.remedies.resurfacing import (
    BAKE,
    RENEW_PIECE,
    SEAL_EDGE,
    bimetal_transition,
    replace_surface,
    same_material,
)
from tests.factories.remedies import ALUMINIUM, COPPER, STEEL, arrangement, coated, couple_of, situation


def variants(catalogue: Catalogue, couple: Couple | None = None, **parameters: Any) -> list[Arrangement]:
    given = situation(catalogue, couple)
    return list(replace_surface(arrangement(given), parameters, given))


def outer(after: Arrangement, side: str) -> str:
    return after.surface(side).layers[0].finish_id


def test_both_parts_alike_either_way_round(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    ways = same_material(arrangement(given), {}, given)
    assert [way.couples[0].first for way in ways] == [ALUMINIUM, COPPER]
    assert all(way.couples[0].first == way.couples[0].second for way in ways)
    assert all(CHECK_DESIGN in way.conditions for way in ways)


def test_what_is_alike_stays(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(second=ALUMINIUM))
    with pytest.raises(NotPossibleError) as caught:
        same_material(arrangement(given), {}, given)
    assert caught.value.obstacle is Obstacle.DONE


def test_across_a_transition_each_metal_meets_its_like(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = bimetal_transition(arrangement(given), {}, given)
    assert [(couple.first, couple.second) for couple in after.couples] == [
        (ALUMINIUM, ALUMINIUM),
        (COPPER, COPPER),
    ]
    assert SEAL_EDGE in after.conditions


def test_a_bake_changes_no_surface(catalogue: Catalogue) -> None:
    (after,) = variants(catalogue, scope="process", bake_C=200)
    assert after.couples == (couple_of(),)
    assert after.conditions == (BAKE,)


def test_a_washer_makes_two_joints_of_one(catalogue: Catalogue) -> None:
    (after,) = variants(catalogue, side="washer", material="al-5056-h38")
    washer = Surface("al-5056-h38")
    assert [(couple.first, couple.second) for couple in after.couples] == [
        (ALUMINIUM, washer),
        (washer, COPPER),
    ]
    assert RENEW_PIECE in after.conditions


def test_every_conductive_gasket_is_tried(catalogue: Catalogue) -> None:
    pieces = {
        after.couples[0].second.material_id for after in variants(catalogue, side="gasket", match="anode")
    }
    assert {"emi-ag-al-si", "emi-monel-mesh"} <= pieces


def test_named_materials_take_the_place_of_the_anode(catalogue: Catalogue) -> None:
    found = variants(catalogue, materials=["ti-gr5", "ss-a286"], scope="material", side="anode")
    assert [after.surface("first").material_id for after in found] == ["ti-gr5", "ss-a286"]


def test_a_closer_alloy_is_of_the_family_of_one_of_the_parts(catalogue: Catalogue) -> None:
    found = variants(catalogue, scope="material", side="either")
    changed = {
        catalogue.materials[after.surface(side).material_id or ""].family
        for after in found
        for side in ("first", "second")
    }
    assert changed <= {"wrought aluminium", "copper"}
    assert all(after.couples[0].first != after.couples[0].second for after in found)


def test_where_the_families_offer_nothing_any_common_alloy_is_tried(catalogue: Catalogue) -> None:
    found = variants(catalogue, couple_of(STEEL, COPPER), scope="material", side="either")
    materials = {after.surface(side).material_id for after in found for side in ("first", "second")}
    assert len(materials) > 20


def test_the_named_finish_comes_in_the_nearest_class(catalogue: Catalogue) -> None:
    (after,) = variants(catalogue, finish="sn-matte", side="cathode", thickness_um=8)
    assert after.surface("second").layers[0].thickness_um == 5.0
    (usual,) = variants(catalogue, finish="sn-matte", side="cathode")
    assert usual.surface("second").layers[0].thickness_um == 5.0
    (anode,) = variants(catalogue, finish="tcp-3", side="anode", thickness_um=0.1)
    assert outer(anode, "first") == "tcp-3"


def test_a_finish_for_both_goes_where_it_can(catalogue: Catalogue) -> None:
    (after,) = variants(catalogue, couple_of(STEEL, ALUMINIUM), finish="zn-flake", scope="finish")
    assert outer(after, "first") == "zn-flake"


def test_a_finish_that_fits_nowhere_is_refused(catalogue: Catalogue) -> None:
    with pytest.raises(NotPossibleError) as caught:
        variants(catalogue, finish="zn-flake", side="anode")
    assert caught.value.obstacle is Obstacle.PROCESS


def test_one_metal_on_both(catalogue: Catalogue) -> None:
    found = variants(catalogue, match="each other", scope="finish", side="both")
    assert found
    for after in found:
        assert outer(after, "first") == outer(after, "second")
        assert catalogue.finishes[outer(after, "first")].role is FinishRole.METALLIC


def test_a_contact_is_given_the_finish_of_its_mate(catalogue: Catalogue) -> None:
    contact = Couple(COPPER, coated("cu-etp", "sn-matte", 5.0), functions=(Function.POWER_CONTACT,))
    (after,) = variants(catalogue, contact, match="each other", scope="finish", side="either")
    assert outer(after, "first") == "sn-matte"


def test_the_cathode_is_offered_every_metal_in_its_usual_class(catalogue: Catalogue) -> None:
    found = variants(catalogue, match="anode", scope="finish", side="cathode")
    assert {after.surface("first") for after in found} == {ALUMINIUM}
    names = [outer(after, "second") for after in found]
    assert len(names) == len(set(names))
    assert not any(name.startswith("cd-") for name in names)
