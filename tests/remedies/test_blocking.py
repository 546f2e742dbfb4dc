from __future__ import annotations

from dataclasses import replace
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function, Verdict
from service.remedies.blocking import Blocker, find_blockers
from service.remedies.constraints import Change
from service.remedies.reasons import Exclusion, Reason
from service.remedies.search import search
from tests.factories.remedies import ALUMINIUM, COPPER, SEA_FRONT, STAINLESS, STEEL, couple_of, question

_UNKNOWN = (Exclusion(Reason.UNDETERMINED, "nothing is known"),)


def blockers(
    catalogue: Catalogue, couple: Couple, environment_id: str = SEA_FRONT, **constraints: Any
) -> tuple[Blocker, ...]:
    asked = question(catalogue, couple, environment_id, **constraints)
    found = search(asked)
    assert all(trial.shortfalls for trial in found.trials)
    return find_blockers(asked, found)


def test_a_life_that_is_too_long_blocks(catalogue: Catalogue) -> None:
    found = blockers(catalogue, couple_of(STEEL, COPPER), second=Change.NOTHING, min_life_years=500.0)
    names = {blocker.constraint: blocker for blocker in found}
    assert names["minimum life"].options > 0
    assert " and " in names["minimum life"].example


def test_only_suitable_blocks_what_is_conditional(catalogue: Catalogue) -> None:
    isolated = couple_of(second=Surface("mg-az91d"), is_isolated=True)
    found = blockers(catalogue, isolated, first=Change.NOTHING, accept=Verdict.SUITABLE)
    assert "accepted verdict" in {blocker.constraint for blocker in found}


def test_a_ceiling_on_cost_blocks(catalogue: Catalogue) -> None:
    found = blockers(catalogue, couple_of(), first=Change.NOTHING, max_cost_tier=0)
    assert found[0].constraint == "cost tier"
    assert found[0].options > 5


def test_conduction_blocks_paint(catalogue: Catalogue) -> None:
    bonded = Couple(Surface("mg-az91d"), STEEL, functions=(Function.ELECTRICAL_BOND,))
    found = blockers(catalogue, bonded, first=Change.NOTHING)
    assert "conduction that the functions need" in {blocker.constraint for blocker in found}


def test_the_blocked_first_side_is_tried_too(catalogue: Catalogue) -> None:
    found = blockers(catalogue, couple_of(COPPER, ALUMINIUM), second=Change.NOTHING, max_cost_tier=0)
    assert found[0].constraint == "cost tier"


def test_the_scope_of_the_change_blocks(catalogue: Catalogue) -> None:
    magnesium = Couple(Surface("mg-az91d"), STEEL)
    found = blockers(catalogue, magnesium, "seawater-quiescent", second=Change.NOTHING)
    assert {blocker.constraint for blocker in found} == {
        "scope of change: material of the first side",
        "scope of change: finish of the second side",
    }
    assert [blocker.options for blocker in found] == sorted(
        (blocker.options for blocker in found), reverse=True
    )


def test_where_no_constraint_blocks_the_nearest_says_why(catalogue: Catalogue) -> None:
    earth = Couple(STEEL, STAINLESS, functions=(Function.PROTECTIVE_EARTH,), is_isolated=True)
    free = Change.MATERIAL
    (blocker,) = blockers(catalogue, earth, first=free, second=free, materials=("cu-etp",), max_cost_tier=0)
    assert blocker.constraint == "environment and function (mandatory)"
    assert blocker.options == 0
    assert "must conduct" in blocker.example


def test_without_a_witness_the_evidence_is_what_lacks(catalogue: Catalogue) -> None:
    asked = question(
        catalogue, couple_of(), first=Change.MATERIAL, second=Change.MATERIAL, materials=("cu-etp",)
    )
    found = search(asked)
    trial = found.trials[0]
    outcome = replace(trial.judgement.outcome, verdict=Verdict.UNDETERMINED, deciding=None)
    silent = replace(trial, judgement=replace(trial.judgement, outcome=outcome), shortfalls=_UNKNOWN)
    alone = replace(found, first=found.first[:1], second=found.second[:1], trials=(silent,))
    (blocker,) = find_blockers(asked, alone)
    assert blocker.constraint == "environment and function (evidence)"


def test_a_material_that_nothing_is_known_of_has_no_trial(catalogue: Catalogue) -> None:
    free = Change.MATERIAL
    asked = question(catalogue, couple_of(), first=free, second=free, materials=("cu-etp",), max_cost_tier=0)
    found = search(asked)
    empty = replace(found, first=found.first[:1], second=found.second[:1], trials=())
    (blocker,) = find_blockers(asked, empty)
    assert blocker.example == "The catalogue knows no other surface."
