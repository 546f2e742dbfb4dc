from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import Couple
from service.remedies import enumeration
from service.remedies.constraints import Change, Constraints
from service.remedies.enumeration import CHECK_DESIGN, Effort, Option, candidates_of, options_of
from service.remedies.reasons import Exclusion, Reason
from tests.factories.remedies import ALUMINIUM, COPPER, STEEL, coated, couple_of, place


def options(
    catalogue: Catalogue, couple: Couple, *, is_second: bool, **constraints: Any
) -> tuple[Option, ...]:
    return options_of(couple, place(catalogue), Constraints(**constraints), catalogue, is_second=is_second)


def test_the_present_surface_comes_first_and_alone_where_nothing_may_change(catalogue: Catalogue) -> None:
    couple = couple_of()
    assert options(catalogue, couple, is_second=False, first=Change.NOTHING) == (
        Option(ALUMINIUM, Effort.NONE, 0),
    )
    assert options(catalogue, couple, is_second=True)[0].surface == COPPER


def test_the_present_surface_is_not_offered_again(catalogue: Catalogue) -> None:
    couple = couple_of(second=coated("cu-etp", "sn-matte", 5.0))
    found = options(catalogue, couple, is_second=True)
    assert [option.effort for option in found if option.surface == couple.second] == [Effort.NONE]


def test_effort_tells_thickness_from_finish_from_material(catalogue: Catalogue) -> None:
    couple = couple_of(second=coated("cu-etp", "sn-matte", 5.0))
    house = replace(catalogue, preferences={"ni-electro": "in stock"})
    found = options_of(couple, place(catalogue), Constraints(second=Change.MATERIAL), house, is_second=True)
    efforts = {
        (option.surface.material_id, option.surface.layers[0].finish_id): option.effort
        for option in found
        if option.surface.layers and option.surface != couple.second
    }
    assert efforts["cu-etp", "sn-matte"] is Effort.THICKNESS
    assert efforts["cu-etp", "sn-bright"] is Effort.FINISH
    assert efforts["cu-etp", "ni-electro"] is Effort.PREFERRED_FINISH
    assert efforts["steel-s235", "zn-plain"] is Effort.MATERIAL


def test_another_material_has_its_design_checked(catalogue: Catalogue) -> None:
    found = options(catalogue, couple_of(), is_second=True, second=Change.MATERIAL)
    others = [option for option in found if option.surface.material_id != "cu-etp"]
    assert len({option.surface.material_id for option in others}) > 30
    assert all(CHECK_DESIGN in option.requirements for option in others)
    assert all(option.is_usual for option in others)


def test_rare_and_special_materials_stand_in_only_by_name(catalogue: Catalogue) -> None:
    found = options(catalogue, couple_of(), is_second=True, second=Change.MATERIAL)
    assert {"nitinol", "au", "be"}.isdisjoint(option.surface.material_id for option in found)
    named = options(
        catalogue, couple_of(), is_second=True, second=Change.MATERIAL, materials=("nitinol", "cu-etp")
    )
    assert {option.surface.material_id for option in named} == {"cu-etp", "nitinol"}


def test_an_open_basis_may_become_any_material(catalogue: Catalogue) -> None:
    couple = Couple(Surface(None, basis_family="copper"), ALUMINIUM)
    found = options(catalogue, couple, is_second=False, first=Change.MATERIAL)
    assert "steel-s235" in {option.surface.material_id for option in found}


def test_what_is_there_needs_no_consent_but_obeys_bans(catalogue: Catalogue) -> None:
    cadmium = couple_of(second=coated("steel-s235", "cd-clear", 8.0))
    assert options(catalogue, cadmium, is_second=True)[0].blocked_by == ()
    banned = options(catalogue, cadmium, is_second=True, forbidden_substances=("Cd",))[0]
    assert [exclusion.reason for exclusion in banned.blocked_by] == [Reason.SUBSTANCE]
    kept = options(catalogue, cadmium, is_second=True, forbidden_substances=("Cd",), second=Change.NOTHING)
    assert kept[0].blocked_by == ()


ZINCED = Option(coated("steel-s235", "zn-plain", 8.0), Effort.FINISH, 1)
THICK = replace(ZINCED, surface=coated("steel-s235", "zn-plain", 25.0), is_usual=False)
TINNED = Option(coated("cu-etp", "sn-matte", 5.0), Effort.FINISH, 1)
BLOCKED = replace(TINNED, blocked_by=(Exclusion(Reason.COST, "too dear"),))
IS_STEEL, IS_COPPER = Option(STEEL, Effort.NONE, 0), Option(COPPER, Effort.NONE, 0)


def pairs(first: tuple[Option, ...], second: tuple[Option, ...]) -> list[tuple[Surface, Surface]]:
    couple = Couple(STEEL, COPPER)
    return [(each.couple.first, each.couple.second) for each in candidates_of(couple, first, second)]


def test_single_changes_in_all_classes_and_double_changes_in_the_usual() -> None:
    found = pairs((IS_STEEL, ZINCED, THICK), (IS_COPPER, TINNED))
    assert found == [
        (ZINCED.surface, COPPER),
        (THICK.surface, COPPER),
        (STEEL, TINNED.surface),
        (ZINCED.surface, TINNED.surface),
    ]


def test_blocked_options_and_blocked_presents_are_left_out() -> None:
    assert pairs((IS_STEEL, ZINCED), (IS_COPPER, BLOCKED)) == [(ZINCED.surface, COPPER)]
    barred = replace(IS_COPPER, blocked_by=BLOCKED.blocked_by)
    assert pairs((IS_STEEL, ZINCED), (barred, TINNED)) == [
        (STEEL, TINNED.surface),
        (ZINCED.surface, TINNED.surface),
    ]
    barred_first = replace(IS_STEEL, blocked_by=BLOCKED.blocked_by)
    assert pairs((barred_first, ZINCED), (IS_COPPER,)) == [(ZINCED.surface, COPPER)]


def test_materials_change_on_one_side_at_a_time() -> None:
    other = replace(TINNED, effort=Effort.MATERIAL)
    assert pairs((IS_STEEL, ZINCED), (IS_COPPER, other)) == [
        (ZINCED.surface, COPPER),
        (STEEL, other.surface),
    ]


def test_a_search_has_an_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(enumeration, "MOST_COUPLES", 2)
    assert len(pairs((IS_STEEL, ZINCED, THICK), (IS_COPPER, TINNED))) == 2


def test_a_candidate_sums_its_sides_up() -> None:
    requirement = CHECK_DESIGN
    one = replace(ZINCED, requirements=(requirement,))
    (candidate, *_) = candidates_of(Couple(STEEL, COPPER), (IS_STEEL, one), (IS_COPPER, TINNED))[-1:]
    assert candidate.effort == 6
    assert candidate.cost_tier == 2
    assert candidate.requirements == (requirement,)


def test_a_finish_without_a_tier_costs_nothing_known(catalogue: Catalogue) -> None:
    unpriced = replace(catalogue.finishes["zn-plain"], cost_tier=None)
    finishes = {**catalogue.finishes, "zn-plain": unpriced}
    found = options_of(
        couple_of(first=Surface("steel-s235")),
        place(catalogue),
        Constraints(),
        replace(catalogue, finishes=finishes),
        is_second=False,
    )
    zinc = next(option for option in found if option.surface.layers[:1] == (Layer("zn-plain", 8.0),))
    assert zinc.cost_tier == 0
