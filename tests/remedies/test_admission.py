"""Constraints are obeyed, and every reason is told."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function, Geometry
from service.remedies.admission import Demands, exclusions, substances_of
from service.remedies.constraints import Constraints, Regulation
from service.remedies.feasibility import FeasibleSurface, feasible_surfaces
from service.remedies.reasons import Reason
from tests.factories.remedies import couple_of, place


def option(material_id: str, finish_id: str, catalogue: Catalogue, place: int = 0) -> FeasibleSurface:
    found = [
        each
        for each in feasible_surfaces(Surface(material_id), catalogue)
        if (each.finish.id if each.finish else "") == finish_id
    ]
    return found[place]


def reasons(
    given: FeasibleSurface,
    catalogue: Catalogue,
    couple: Couple | None = None,
    *,
    is_second: bool = False,
    is_new: bool = False,
    **constraints: Any,
) -> list[Reason]:
    demands = Demands(
        couple or couple_of(), place(catalogue), Constraints(**constraints), is_second=is_second
    )
    found = exclusions(given, demands, catalogue, is_new_material=is_new)
    assert all(exclusion.detail for exclusion in found)
    return [exclusion.reason for exclusion in found]


def test_cadmium_needs_consent(catalogue: Catalogue) -> None:
    cadmium = option("steel-s235", "cd-clear", catalogue)
    assert reasons(cadmium, catalogue) == [Reason.OPT_IN]
    assert reasons(cadmium, catalogue, allowed_substances=("Cd",)) == []
    assert reasons(cadmium, catalogue, allowed_substances=("Cd",), forbidden_substances=("Cd",)) == [
        Reason.SUBSTANCE
    ]


def test_a_substance_of_the_underplate_counts(catalogue: Catalogue) -> None:
    tin = option("cu-etp", "sn-over-ni", catalogue)
    assert reasons(tin, catalogue) == []
    assert reasons(tin, catalogue, forbidden_substances=("Ni",)) == [Reason.SUBSTANCE]


def test_the_alloy_itself_counts_where_it_is_proposed(catalogue: Catalogue) -> None:
    beryllium = option("cu-be2", "", catalogue)
    assert substances_of(beryllium, catalogue, with_material=False) == frozenset()
    assert substances_of(beryllium, catalogue, with_material=True) == {"Be"}
    assert reasons(beryllium, catalogue) == []
    assert reasons(beryllium, catalogue, is_new=True) == [Reason.OPT_IN]
    assert substances_of(option("al-6082-t6", "", catalogue), catalogue, with_material=True) == frozenset()


def test_an_open_basis_holds_nothing_known(catalogue: Catalogue) -> None:
    bare = FeasibleSurface(Surface(None, basis_family="copper"), None, (), ())
    assert substances_of(bare, catalogue, with_material=True) == frozenset()


def test_house_bans(catalogue: Catalogue) -> None:
    zinc = option("steel-s235", "zn-plain", catalogue)
    banned = replace(catalogue, bans=MappingProxyType({"zn-plain": "white rust in store"}))
    demands = Demands(couple_of(), place(catalogue), Constraints(), is_second=False)
    assert exclusions(zinc, demands, banned)[0].detail.endswith("white rust in store")


def test_regulations_are_read_from_the_record(catalogue: Catalogue) -> None:
    yellow = option("steel-s235", "zn-chromate-yellow", catalogue)
    both = (Regulation.ROHS, Regulation.REACH)
    assert reasons(yellow, catalogue, allowed_substances=("CrVI",), regulations=both) == [
        Reason.REGULATION,
        Reason.REGULATION,
    ]
    chromium = option("steel-s235", "cr-hard", catalogue)
    assert reasons(chromium, catalogue, regulations=(Regulation.ROHS,)) == []
    assert reasons(chromium, catalogue, regulations=(Regulation.REACH,)) == [Reason.REGULATION]
    nickel = option("steel-s235", "ni-electro", catalogue)
    assert reasons(nickel, catalogue, regulations=both) == []


def test_the_cost_tier_has_a_ceiling(catalogue: Catalogue) -> None:
    gold = option("cu-etp", "au-soft", catalogue)
    assert reasons(gold, catalogue, max_cost_tier=2) == [Reason.COST]
    assert reasons(gold, catalogue, max_cost_tier=4) == []
    assert reasons(option("cu-etp", "", catalogue), catalogue, max_cost_tier=0) == []
    assert gold.finish is not None
    unknown = replace(gold, finish=replace(gold.finish, cost_tier=None))
    assert reasons(unknown, catalogue, max_cost_tier=5) == [Reason.COST]


def test_a_finish_that_burns_off_is_out(catalogue: Catalogue) -> None:
    tin = option("cu-etp", "sn-matte", catalogue)
    assert reasons(tin, catalogue, couple_of(joint_temperature_C=150.0)) == [Reason.TEMPERATURE]
    assert reasons(tin, catalogue, couple_of(joint_temperature_C=100.0)) == []


def test_without_any_temperature_none_is_asked(catalogue: Catalogue) -> None:
    somewhere = place(catalogue, temperature_C=None)
    demands = Demands(couple_of(), somewhere, Constraints(), is_second=False)
    assert demands.temperature_C is None
    assert exclusions(option("cu-etp", "sn-matte", catalogue), demands, catalogue) == ()


@pytest.mark.parametrize(
    ("finish_id", "cycles", "expected"),
    [
        ("sn-matte", 40.0, []),
        ("sn-matte", 60.0, [Reason.WEAR]),
        ("ag-electro", 400.0, []),
        ("ag-electro", 600.0, [Reason.WEAR]),
        ("en-low", 9_000.0, []),
        ("pd-ni", 1e6, []),
    ],
)
def test_wear_classes(finish_id: str, cycles: float, expected: list[Reason], catalogue: Catalogue) -> None:
    given = option("cu-etp", finish_id, catalogue)
    assert reasons(given, catalogue, couple_of(wear_cycles=cycles)) == expected


def test_bare_metal_has_no_coat_to_wear(catalogue: Catalogue) -> None:
    assert reasons(option("cu-etp", "", catalogue), catalogue, couple_of(wear_cycles=1e6)) == []


def test_strip_is_not_made_into_fasteners(catalogue: Catalogue) -> None:
    sheet = option("steel-s235", "zn-hdg-sheet", catalogue)
    fastened = couple_of(geometry=Geometry.FASTENER)
    assert reasons(sheet, catalogue, fastened, is_second=True) == [Reason.FORM]
    assert reasons(sheet, catalogue, fastened) == []


def test_a_joint_that_must_conduct_takes_no_insulator(catalogue: Catalogue) -> None:
    anodised = option("al-6082-t6", "anod-ii-clear", catalogue)
    bonded = couple_of(functions=(Function.ELECTRICAL_BOND,))
    assert reasons(anodised, catalogue, bonded) == [Reason.CONDUCTION]
    assert reasons(anodised, catalogue, needs_conduction=True) == [Reason.CONDUCTION]
    assert reasons(anodised, catalogue) == []


def test_a_material_that_does_not_conduct_is_out_and_an_open_one_is_not(catalogue: Catalogue) -> None:
    insulator = next(material for material in catalogue.materials.values() if not material.is_conductive)
    bare = FeasibleSurface(Surface(insulator.id), None, (), ())
    assert reasons(bare, catalogue, needs_conduction=True) == [Reason.CONDUCTION]
    open_basis = FeasibleSurface(Surface(None, basis_family="copper"), None, (), ())
    assert reasons(open_basis, catalogue, needs_conduction=True) == []


def test_signals_need_a_contact_finish_or_a_noble_metal(catalogue: Catalogue) -> None:
    signal = couple_of(functions=(Function.SIGNAL_CONTACT,))
    assert reasons(option("cu-etp", "sn-matte", catalogue), catalogue, signal) == []
    assert reasons(option("steel-s235", "zn-plain", catalogue), catalogue, signal) == [Reason.CONTACT]
    assert reasons(option("cu-etp", "", catalogue), catalogue, signal) == [Reason.CONTACT]
    noble = FeasibleSurface(Surface("au"), None, (), ())
    assert reasons(noble, catalogue, signal) == []


def test_solder_wets_some_and_is_embrittled_by_thick_gold(catalogue: Catalogue) -> None:
    assert reasons(option("cu-etp", "sn-matte", catalogue), catalogue, needs_solder=True) == []
    assert reasons(option("cu-etp", "", catalogue), catalogue, needs_solder=True) == []
    assert reasons(option("al-6082-t6", "", catalogue), catalogue, needs_solder=True) == [Reason.SOLDER]
    assert reasons(option("steel-s235", "cr-hard", catalogue), catalogue, needs_solder=True) == [
        Reason.SOLDER
    ]
    thin, usual, thick = (option("cu-etp", "au-soft", catalogue, place) for place in range(3))
    assert reasons(thin, catalogue, needs_solder=True) == []
    assert reasons(usual, catalogue, needs_solder=True) == [Reason.SOLDER]
    assert reasons(thick, catalogue, needs_solder=True) == [Reason.SOLDER]


def test_without_a_known_solder_only_wetting_is_asked(catalogue: Catalogue) -> None:
    without = replace(
        catalogue,
        materials=MappingProxyType(
            {name: material for name, material in catalogue.materials.items() if material.family != "solder"}
        ),
    )
    thick = option("cu-etp", "au-soft", catalogue, 2)
    demands = Demands(couple_of(), place(catalogue), Constraints(needs_solder=True), is_second=False)
    assert exclusions(thick, demands, without) == ()
