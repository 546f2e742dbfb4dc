from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import DEFAULT_POLICY, Contact, Function, Judgement, Severity, Verdict
from service.remedies.constraints import Objective
from service.remedies.measures import LONGEST_YEARS, Measures, hazards_of, life_of, measure
from tests.factories.remedies import COPPER, STAINLESS, STEEL, coated, couple_of, judged

PLACE = {objective: place for place, objective in enumerate(Objective)}


def measured(catalogue: Catalogue, judgement: Judgement, cost: int = 0, effort: int = 0) -> Measures:
    return measure(judgement, cost, effort, catalogue, DEFAULT_POLICY)


def value(measures: Measures, objective: Objective) -> float:
    return float(measures.vector[PLACE[objective]])


def test_objectives_lie_between_nought_and_one(catalogue: Catalogue) -> None:
    for environment_id in ("seawater-quiescent", "heated-indoor", "soil-corrosive"):
        vector = measured(catalogue, judged(catalogue, environment_id=environment_id), 99, 99).vector
        assert ((vector >= 0.0) & (vector <= 1.0)).all()


def test_a_better_joint_is_smaller_in_verdict_and_severity(catalogue: Catalogue) -> None:
    bad = measured(catalogue, judged(catalogue))
    good = measured(catalogue, judged(catalogue, couple_of(second=Surface("al-5083-h116"))))
    assert bad.verdict is Verdict.UNSUITABLE
    for objective in (Objective.VERDICT, Objective.SEVERITY_95, Objective.SEVERITY_MEDIAN, Objective.LIFE):
        assert value(good, objective) < value(bad, objective)


def test_cost_and_effort_are_taken_as_given(catalogue: Catalogue) -> None:
    measures = measured(catalogue, judged(catalogue), 5, 3)
    assert (measures.cost_tier, measures.effort) == (5, 3)
    assert value(measures, Objective.COST) == 0.5
    assert value(measures, Objective.EFFORT) == 0.25


def test_what_nobody_knows_is_worst(catalogue: Catalogue) -> None:
    unknown = measured(
        catalogue, judged(catalogue, couple_of(first=Surface("ga-ebe")), "alkaline-wash-water")
    )
    assert unknown.severity is None
    assert value(unknown, Objective.SEVERITY_95) == 1.0


def test_a_word_stands_in_where_no_loss_is_computed(catalogue: Catalogue) -> None:
    measures = measured(catalogue, judged(catalogue, couple_of(STEEL, COPPER), "soil-corrosive"))
    assert measures.ratio_95 is None
    assert measures.severity is Severity.MODERATE
    assert 0.5 < value(measures, Objective.SEVERITY_95) < 0.7


def test_the_life_of_a_coat_is_that_of_the_kinetic_witness(catalogue: Catalogue) -> None:
    zinced = judged(catalogue, couple_of(coated("steel-s235", "zn-plain", 8.0), STAINLESS))
    life = life_of(zinced, catalogue, DEFAULT_POLICY)
    assert life is not None
    assert life.basis == "thickness of the coat"
    assert 0.0 < life.low_years <= life.high_years < 10.0


def test_a_thicker_coat_lasts_longer(catalogue: Catalogue) -> None:
    lives = [
        life_of(
            judged(catalogue, couple_of(coated("steel-s235", "zn-plain", um), STAINLESS)),
            catalogue,
            DEFAULT_POLICY,
        )
        for um in (5.0, 25.0)
    ]
    assert lives[0] is not None
    assert lives[1] is not None
    assert lives[0].low_years < lives[1].low_years


def test_a_section_that_loses_its_allowance_in_the_design_life_lasts_it(catalogue: Catalogue) -> None:
    base = judged(catalogue, couple_of())
    ratio = base.findings[next(iter(base.findings))] and base.kinetics.lanes[0].figures["loss_over_allowance"]
    allowance = base.kinetics.lanes[0].figures["allowance_um"] * ratio["high"]
    exact = judged(catalogue, couple_of(section_allowance_um=allowance))
    life = life_of(exact, catalogue, DEFAULT_POLICY)
    assert life is not None
    assert life.basis == "section allowance"
    assert life.low_years == pytest.approx(10.0, rel=0.02)


def test_without_loss_there_is_no_end(catalogue: Catalogue) -> None:
    alike = judged(catalogue, couple_of(second=couple_of().first))
    isolated = judged(catalogue, couple_of(is_isolated=True))
    for judgement in (alike, isolated):
        life = life_of(judgement, catalogue, DEFAULT_POLICY)
        assert life is not None
        assert life.low_years == LONGEST_YEARS


def test_no_loss_at_all_is_endless(catalogue: Catalogue) -> None:
    judgement = judged(catalogue)
    lane = judgement.kinetics.lanes[0]
    nothing = {"median": 0.0, "low": 0.0, "high": 0.0}
    spared = replace(lane, figures={**lane.figures, "loss_over_allowance": nothing})
    life = life_of(
        replace(judgement, kinetics=replace(judgement.kinetics, lanes=(spared,))), catalogue, DEFAULT_POLICY
    )
    assert life is not None
    assert life.low_years == life.high_years == LONGEST_YEARS


def test_where_kinetics_abstains_the_life_is_not_known(catalogue: Catalogue) -> None:
    measures = measured(catalogue, judged(catalogue, environment_id="soil-corrosive"))
    assert measures.life is None
    assert value(measures, Objective.LIFE) == 1.0


def test_hazards_are_certain_rules_and_weigh_by_severity(catalogue: Catalogue) -> None:
    signal = (Function.SIGNAL_CONTACT,)
    tin, gold = coated("cu-etp", "sn-matte", 5.0), coated("cu-etp", "au-soft", 1.3)
    judgement = judged(catalogue, couple_of(tin, gold, functions=signal), "vehicle-cabin")
    names = {hit.rule.id for hit in hazards_of(judgement)}
    assert {"hazard-tin-gold-mate-vibration", "hazard-tin-whiskers"} <= names
    assert measured(catalogue, judgement).hazard_points > 9.0


def test_an_insulated_or_common_contact_surface_costs_function(catalogue: Catalogue) -> None:
    bond = (Function.ELECTRICAL_BOND,)
    anodised = judged(catalogue, couple_of(coated("al-6082-t6", "anod-ii-clear", 15.0), functions=bond))
    assert measured(catalogue, anodised).function_points == 2.0
    contact = judged(catalogue, couple_of(functions=(Function.POWER_CONTACT,)))
    assert measured(catalogue, contact).function_points == 2.0
    tinned = Surface("cu-etp", (Layer("sn-matte", 5.0),))
    half = judged(catalogue, couple_of(second=tinned, functions=(Function.POWER_CONTACT,)))
    assert measured(catalogue, half).function_points == 1.0


def test_a_missed_bond_limit_costs_most(catalogue: Catalogue) -> None:
    duty = Contact(force_N=1.0, bond_limit_ohm=1e-9)
    judgement = judged(catalogue, couple_of(functions=(Function.ELECTRICAL_BOND,), contact=duty))
    assert measured(catalogue, judgement).function_points == 5.0
