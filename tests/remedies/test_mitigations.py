from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import DEFAULT_POLICY, Couple, Function, Verdict, judge
from service.remedies.arrangement import Obstacle
from service.remedies.constraints import Constraints
from service.remedies.functions import Effect
from service.remedies.mitigations import Mitigations, Remedy, find_mitigations
from tests.factories.remedies import ALUMINIUM, SEA_FRONT, STEEL, couple_of
from tests.seed_catalogue import seed_catalogue

SAMPLE = [
    (couple_of(), SEA_FRONT),
    (couple_of(second=Surface("ss-316")), "splash-and-tidal-zone"),
    (couple_of(functions=(Function.PROTECTIVE_EARTH,)), SEA_FRONT),
    (couple_of(functions=(Function.ELECTRICAL_BOND,)), "urban-atmosphere"),
    (couple_of(STEEL), "seawater-quiescent"),
    (couple_of(STEEL), "soil-corrosive"),
    (Couple(Surface("mg-az91d"), STEEL), "vehicle-underbody"),
    (Couple(Surface("cu-etp"), ALUMINIUM, functions=(Function.POWER_CONTACT,)), "gasketed-enclosure-marine"),
]


@cache
def found(couple: Couple, environment_id: str) -> Mitigations:
    catalogue = seed_catalogue()
    return find_mitigations(couple, catalogue.environments[environment_id], catalogue)


def ids(remedy: Remedy) -> list[str]:
    return [measure.id for measure in remedy.measures]


@pytest.mark.parametrize(("couple", "environment_id"), SAMPLE)
def test_every_verdict_is_that_of_judging_directly_or_worse(
    couple: Couple, environment_id: str, catalogue: Catalogue
) -> None:
    order = ["suitable", "conditional", "undetermined", "unsuitable"]
    for remedy in found(couple, environment_id).ranking:
        direct = [
            judge([each], remedy.after.arrangement.environment, catalogue, DEFAULT_POLICY)[0]
            for each in remedy.after.arrangement.couples
        ]
        assert [each.outcome for each in direct] == [each.outcome for each in remedy.after.judgements]
        worst = max(order.index(each.outcome.verdict.value) for each in direct)
        told = order.index(remedy.after.verdict.value)
        assert told == worst or (told > worst and remedy.after.capped_because)


@pytest.mark.parametrize(("couple", "environment_id"), SAMPLE)
def test_no_option_breaks_a_declared_function(couple: Couple, environment_id: str) -> None:
    for remedy in found(couple, environment_id).ranking:
        assert {effect.function for effect in remedy.functions} == set(couple.functions)
        assert Effect.ENDED not in {effect.effect for effect in remedy.functions}


@pytest.mark.parametrize(("couple", "environment_id"), SAMPLE)
def test_every_option_carries_whole_conditions(couple: Couple, environment_id: str) -> None:
    for remedy in found(couple, environment_id).ranking:
        assert remedy.conditions
        for condition in remedy.conditions:
            assert all((condition.code, condition.action, condition.who, condition.how_verified))


@pytest.mark.parametrize(("couple", "environment_id"), SAMPLE)
def test_a_ranked_option_is_a_way_out_and_the_best_comes_first(couple: Couple, environment_id: str) -> None:
    result = found(couple, environment_id)
    assert result.ranking
    standings = [remedy.after.standing[:2] for remedy in result.ranking]
    assert standings == sorted(standings)
    for remedy in result.ranking:
        assert remedy.after.is_better_than(result.before)
        assert remedy.after.verdict in {Verdict.SUITABLE, Verdict.CONDITIONAL}
        assert len(remedy.mistakes) == len(remedy.measures) <= 3


@pytest.mark.parametrize(("couple", "environment_id"), SAMPLE)
def test_every_measure_is_accounted_for(couple: Couple, environment_id: str, catalogue: Catalogue) -> None:
    result = found(couple, environment_id)
    singles = [ids(remedy)[0] for remedy in result.ranking if len(remedy.measures) == 1]
    others = [entry.measures[0].id for entry in (*result.insufficient, *result.infeasible)]
    hidden = sum(count for _, count in result.hidden)
    assert len(singles) + len(others) + hidden == len(catalogue.mitigations)
    assert len(set(singles) | set(others)) == len(singles) + len(others)


@pytest.mark.parametrize(("couple", "environment_id"), SAMPLE)
def test_unsourced_measures_are_never_suitable(couple: Couple, environment_id: str) -> None:
    for remedy in found(couple, environment_id).ranking:
        is_sourced = all(measure.has_sourced_efficacy for measure in remedy.measures)
        assert is_sourced or remedy.after.verdict is Verdict.CONDITIONAL


def test_a_protective_earth_is_never_isolated() -> None:
    result = found(*SAMPLE[2])
    couples = [couple for remedy in result.ranking for couple in remedy.after.arrangement.couples]
    assert not any(couple.is_isolated for couple in couples)
    assert "isolate" not in {measure.transform for remedy in result.ranking for measure in remedy.measures}
    washer = next(entry for entry in result.infeasible if entry.measures[0].id == "isolating-washer")
    assert washer.obstacle is Obstacle.REFUSED


def test_toxic_measures_appear_only_with_consent(catalogue: Catalogue) -> None:
    couple = couple_of(second=Surface("steel-s235"))

    def named(result: Mitigations) -> set[str]:
        ranked = [entry.measures for entry in result.ranking]
        others = [entry.measures for entry in (*result.insufficient, *result.infeasible)]
        return {measure.id for measures in (*ranked, *others) for measure in measures}

    without = find_mitigations(couple, catalogue.environments[SEA_FRONT], catalogue)
    assert {"cadmium-finish", "chromate-primer"}.isdisjoint(named(without))
    assert without.hidden == (("Cd;CrVI", 1), ("CrVI", 1))
    consent = Constraints(allowed_substances=("Cd", "CrVI"))
    given = find_mitigations(couple, catalogue.environments[SEA_FRONT], catalogue, constraints=consent)
    assert given.hidden == ()
    assert {"cadmium-finish", "chromate-primer"} <= named(given)


def test_a_prohibition_outweighs_a_consent(catalogue: Catalogue) -> None:
    both = Constraints(allowed_substances=("CrVI",), forbidden_substances=("CrVI",))
    result = find_mitigations(couple_of(), catalogue.environments[SEA_FRONT], catalogue, constraints=both)
    assert dict(result.hidden)["CrVI"] == 1


def test_what_helps_too_little_says_so() -> None:
    details = [entry for entry in found(*SAMPLE[0]).insufficient if entry.obstacle is Obstacle.NOT_ENOUGH]
    assert details
    assert all(entry.detail.startswith("It helps, and the joint is unsuitable still") for entry in details)


def test_the_life_is_that_of_the_measure_that_fails_first() -> None:
    package = next(remedy for remedy in found(*SAMPLE[6]).ranking if len(remedy.measures) > 1)
    low, high = package.life_years
    assert low == min(measure.life_years_low or 99.0 for measure in package.measures)
    assert high == min(measure.life_years_high or 99.0 for measure in package.measures)


def test_a_measure_without_a_stated_life_has_none() -> None:
    remedy = found(*SAMPLE[0]).ranking[0]
    bare = replace(remedy, measures=(replace(remedy.measures[0], life_years_low=None, life_years_high=None),))
    assert bare.life_years == (None, None)


def test_a_compound_of_the_callers_own_that_attacks_is_told(catalogue: Catalogue) -> None:
    smeared: Any = couple_of(compound_id="jc-nickel-filled", second=Surface("ss-316"))
    result = find_mitigations(smeared, catalogue.environments["urban-atmosphere"], catalogue)
    attacked = {pair for remedy in result.ranking for pair in remedy.attacked}
    assert ("jc-nickel-filled", "wrought aluminium") in attacked
