from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Surface
from service.judgement import DEFAULT_POLICY, Couple, Function, Verdict, judge
from service.remedies.alternatives import Alternatives, find_alternatives
from service.remedies.constraints import Change, Constraints, Objective, Weights
from service.remedies.errors import InvalidConstraintError
from tests.factories.remedies import COPPER, SEA_FRONT, STEEL, coated, couple_of, place
from tests.seed_catalogue import seed_catalogue

ONE_SIDE = Constraints(first=Change.NOTHING)


@cache
def found(
    couple: Couple, constraints: Constraints = ONE_SIDE, environment_id: str = SEA_FRONT
) -> Alternatives:
    catalogue = seed_catalogue()
    return find_alternatives(couple, catalogue.environments[environment_id], constraints, catalogue)


def test_ways_out_are_ranked_front_first_then_by_score() -> None:
    rows = found(couple_of()).ranking
    keys = [(not row.is_on_front, row.score) for row in rows]
    assert keys == sorted(keys)
    assert rows[0].is_on_front
    assert {row.judgement.outcome.verdict for row in rows} <= {Verdict.SUITABLE, Verdict.CONDITIONAL}


def test_every_verdict_is_that_of_judging_it_directly(catalogue: Catalogue) -> None:
    result = found(couple_of())
    for row in result.ranking:
        alone = judge([row.candidate.couple], place(catalogue), catalogue, DEFAULT_POLICY)[0]
        assert row.judgement.outcome == alone.outcome
        for couple in row.alike:
            other = judge([couple], place(catalogue), catalogue, DEFAULT_POLICY)[0]
            assert other.outcome.verdict is row.judgement.outcome.verdict
            assert other.outcome.severity is row.judgement.outcome.severity


def test_the_side_that_may_not_change_stays() -> None:
    assert {row.candidate.couple.first for row in found(couple_of()).ranking} == {couple_of().first}


def test_a_finish_is_shown_once_in_its_best_thickness() -> None:
    stacks = [
        tuple(layer.finish_id for layer in couple.second.layers)
        for row in found(couple_of()).ranking
        for couple in (row.candidate.couple, *row.alike)
    ]
    assert len(stacks) == len(set(stacks))


def test_rows_differ_in_what_the_electrolyte_sees() -> None:
    result = found(couple_of())
    assert result.found == sum(1 + len(row.alike) for row in result.ranking)
    assert any(row.alike for row in result.ranking)


def test_wear_is_judged_and_told_where_it_turns_the_verdict() -> None:
    rows = found(couple_of(STEEL, COPPER), Constraints(second=Change.NOTHING)).ranking
    bare = [
        row
        for row in rows
        if not any((row.candidate.couple.first.layers, row.candidate.couple.second.layers))
    ]
    assert all(row.worn is None for row in bare)
    worn = [row for row in rows if row.worn is not None]
    assert {side.condition for row in worn if row.worn for side in (row.worn.couple.first,)} == {
        Condition.WORN
    }
    turned = [row for row in worn if row.worn and row.worn.outcome.verdict is Verdict.UNSUITABLE]
    assert turned
    assert all(row.comparison.worse[-1].startswith("Worn, it becomes unsuitable: ") for row in turned)


def test_bare_metal_has_no_wear(catalogue: Catalogue) -> None:
    wanted = Constraints(first=Change.NOTHING, second=Change.MATERIAL, materials=("al-5083-h116",))
    result = find_alternatives(couple_of(), place(catalogue), wanted, catalogue)
    bare = next(row for row in result.ranking if not row.candidate.couple.second.layers)
    assert bare.worn is None


def test_exclusions_are_counted_once_each() -> None:
    result = found(couple_of())
    judged = sum(group.count for group in result.excluded if group.unit == "couple")
    assert 0 < judged < result.judged
    assert judged + result.found <= result.judged
    assert all(group.count and group.example and group.constraint for group in result.excluded)
    assert "substance-needs-opt-in" in {group.reason for group in result.excluded}


def test_a_limit_shortens_what_is_shown_not_what_is_found(catalogue: Catalogue) -> None:
    short = find_alternatives(couple_of(), place(catalogue), ONE_SIDE, catalogue, limit=2)
    assert [row.candidate for row in short.ranking] == [
        row.candidate for row in found(couple_of()).ranking[:2]
    ]
    assert short.found == found(couple_of()).found


def test_weights_order_the_ranking(catalogue: Catalogue) -> None:
    cheap = replace(ONE_SIDE, weights=Weights(((Objective.COST, 1.0),)))
    result = find_alternatives(couple_of(), place(catalogue), cheap, catalogue)
    front = [row.measures.cost_tier for row in result.ranking if row.is_on_front]
    assert front == sorted(front)


def test_consent_brings_cadmium_in(catalogue: Catalogue) -> None:
    consent = replace(ONE_SIDE, allowed_substances=("Cd",))
    steel = couple_of(second=Surface("steel-s235"))
    result = find_alternatives(steel, place(catalogue), consent, catalogue, limit=1000)

    def names(rows: Alternatives) -> set[str]:
        return {
            layer.finish_id
            for row in rows.ranking
            for couple in (row.candidate.couple, *row.alike)
            for layer in couple.second.layers
        }

    assert any(name.startswith("cd-") for name in names(result))
    assert not any(name.startswith("cd-") for name in names(found(steel)))


def test_the_least_life_is_kept(catalogue: Catalogue) -> None:
    steel = couple_of(STEEL, Surface("ss-316"))
    wanted = Constraints(second=Change.NOTHING, min_life_years=15.0)
    result = find_alternatives(steel, place(catalogue), wanted, catalogue)
    lives = [row.measures.life for row in result.ranking]
    assert all(life is not None and life.low_years >= 15.0 for life in lives)


def test_hidden_traps_are_told(catalogue: Catalogue) -> None:
    """Plating hardened steel is offered with its hydrogen, and a coat without a bath is offered too."""
    hardened = couple_of(first=Surface("steel-12-9"), second=Surface("al-6082-t6"))
    rows = find_alternatives(
        hardened, place(catalogue), Constraints(second=Change.NOTHING), catalogue, limit=1000
    ).ranking
    plated = [
        row
        for row in rows
        if row.candidate.couple.first.layers
        and row.candidate.couple.first.layers[0].finish_id.startswith(("zn-pass", "znni"))
    ]
    assert all(
        any(hit.rule.id.startswith("hazard-he-plating") for hit in row.measures.hazards)
        for row in plated
        if row.candidate.couple.first.layers[0].finish_id != "znni-low-embrittlement"
    )
    flake = [row for row in rows if row.candidate.couple.first.layers[:1] and "zn-flake" in repr(row)]
    assert flake


def test_nothing_left_says_what_blocks(catalogue: Catalogue) -> None:
    magnesium = Couple(Surface("mg-az91d"), STEEL, functions=(Function.ELECTRICAL_BOND,))
    result = find_alternatives(magnesium, place(catalogue), Constraints(second=Change.NOTHING), catalogue)
    assert result.ranking == ()
    assert result.found == 0
    assert result.blockers


def test_constraints_are_checked_first(catalogue: Catalogue) -> None:
    with pytest.raises(InvalidConstraintError):
        find_alternatives(couple_of(), place(catalogue), Constraints(materials=("unobtainium",)), catalogue)


def test_the_thicker_of_equals_comes_first() -> None:
    tinned = [
        row.candidate.couple.second.layers[0]
        for row in found(couple_of()).ranking
        if row.candidate.couple.second.layers
    ]
    assert tinned
    assert coated("cu-etp", "imm-sn", 1.0).layers[0] not in tinned
