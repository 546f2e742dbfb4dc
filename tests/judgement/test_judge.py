from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import is_read
from service.catalogue.records import Obtained
from service.catalogue.surfaces import Surface
from service.judgement import DEFAULT_POLICY, Couple, Function, Geometry, Judgement, Severity, Verdict, judge
from service.judgement.evidence import collect
from service.judgement.findings import Anode, Witness
from service.judgement.judge import BLOCK_COUPLES
from tests.factories.couples import (
    ALUMINIUM,
    COAST,
    COPPER,
    DRY,
    SEA,
    STAINLESS,
    STEEL,
    TAP,
    TOWN,
    ZINC,
    coated,
    judged,
)


def test_every_witness_is_heard_in_a_fixed_order(catalogue: Catalogue) -> None:
    assert tuple(judged(ALUMINIUM, COPPER, COAST, catalogue).findings) == tuple(Witness)


def test_no_couples_give_no_judgements(catalogue: Catalogue) -> None:
    assert judge([], catalogue.environments[SEA], catalogue) == []


def test_judgements_come_in_the_order_of_the_couples(catalogue: Catalogue) -> None:
    couples = [Couple(ALUMINIUM, COPPER), Couple(STEEL, STAINLESS), Couple(ALUMINIUM, COPPER)]
    assert [result.couple for result in judge(couples, catalogue.environments[TOWN], catalogue)] == couples


def test_a_batch_longer_than_a_block_is_judged_like_its_parts(catalogue: Catalogue) -> None:
    metals = [Surface(material) for material in sorted(catalogue.materials)]
    couples = [Couple(metals[place % len(metals)], STAINLESS) for place in range(BLOCK_COUPLES + 20)]
    environment = catalogue.environments[COAST]
    together = judge(couples, environment, catalogue)
    for place in (0, BLOCK_COUPLES - 1, BLOCK_COUPLES, BLOCK_COUPLES + 19):
        alone = judge([couples[place]], environment, catalogue)[0]
        assert together[place].findings == alone.findings
        assert (together[place].outcome, together[place].hits) == (alone.outcome, alone.hits)


@pytest.mark.parametrize("environment_id", [SEA, COAST, TAP, DRY])
def test_like_on_like_is_safe_from_galvanic_attack(environment_id: str, catalogue: Catalogue) -> None:
    result = judged(COPPER, COPPER, environment_id, catalogue)
    assert result.findings[Witness.KINETICS].severity is Severity.NONE
    assert result.outcome.anode is Anode.NONE


@pytest.mark.parametrize("environment_id", [SEA, COAST, TAP])
def test_turning_the_couple_round_turns_the_answer_round(environment_id: str, catalogue: Catalogue) -> None:
    straight = judged(STEEL, ZINC, environment_id, catalogue)
    turned = judged(ZINC, STEEL, environment_id, catalogue)
    assert straight.outcome.verdict is turned.outcome.verdict
    assert straight.outcome.anode is turned.outcome.anode.other
    assert straight.findings[Witness.KINETICS].severity is turned.findings[Witness.KINETICS].severity


def test_a_small_anode_to_a_large_cathode_is_worse_than_the_reverse(catalogue: Catalogue) -> None:
    bad = judged(STEEL, COPPER, SEA, catalogue, first_area_m2=0.001, second_area_m2=0.1)
    good = judged(STEEL, COPPER, SEA, catalogue, first_area_m2=0.1, second_area_m2=0.001)
    ratios = [
        result.findings[Witness.KINETICS].figures["loss_over_allowance"]["median"] for result in (bad, good)
    ]
    assert ratios[0] > 50.0 * ratios[1]


@pytest.mark.parametrize("environment_id", [DRY, SEA])
def test_codes_outvote_kinetics(environment_id: str, catalogue: Catalogue) -> None:
    cadmium = coated("steel-s235", "cd-yellow", 8.0)
    result = judged(cadmium, Surface("ti-gr2"), environment_id, catalogue)
    assert result.findings[Witness.MANDATORY].refuses
    assert result.outcome.deciding is Witness.MANDATORY
    assert result.outcome.verdict is Verdict.UNSUITABLE


def test_isolation_may_not_be_put_into_a_protective_earth(catalogue: Catalogue) -> None:
    earth = (Function.PROTECTIVE_EARTH,)
    joined = judged(COPPER, COPPER, DRY, catalogue, functions=earth)
    isolated = judged(COPPER, COPPER, DRY, catalogue, functions=earth, is_isolated=True)
    assert joined.outcome.verdict is not Verdict.UNSUITABLE
    assert isolated.outcome.verdict is Verdict.UNSUITABLE


METALS = ("al-6082-t6", "steel-s235", "ss-316", "cu-etp", "zn-pure", "ti-gr2", "sn", "ag", "mg-az91d", "cfrp")


def suitable(catalogue: Catalogue, environment_id: str) -> list[Judgement]:
    couples = [
        Couple(Surface(first), Surface(second))
        for place, first in enumerate(METALS)
        for second in METALS[place:]
    ]
    found = judge(couples, catalogue.environments[environment_id], catalogue)
    return [result for result in found if result.outcome.verdict is Verdict.SUITABLE]


@pytest.mark.parametrize("environment_id", [SEA, COAST, TOWN, TAP, DRY, "cabinet-with-condensation"])
def test_nothing_is_suitable_on_memory_alone(environment_id: str, catalogue: Catalogue) -> None:
    for result in suitable(catalogue, environment_id):
        obtained = {Obtained(entry.obtained) for entry in collect(result.findings, catalogue)}
        speaking = [
            witness
            for witness in (Witness.KINETICS, Witness.EXPERIENCE, Witness.SCREENING)
            if result.findings[witness].applies
        ]
        assert any(map(is_read, obtained)) or len(speaking) > 1


def test_what_is_missing_is_gathered_once(catalogue: Catalogue) -> None:
    missing = judged(Surface(None), COPPER, SEA, catalogue).missing
    assert "the metal of a surface" in missing
    assert len(missing) == len(set(missing))


def test_where_screening_alone_knows_the_metals_it_names_the_anode_for_the_rules(
    catalogue: Catalogue,
) -> None:
    result = judged(ALUMINIUM, COPPER, "soil-corrosive", catalogue)
    assert not result.findings[Witness.KINETICS].applies
    assert result.comparisons[0].anode is Anode.FIRST


def test_a_policy_of_the_house_changes_the_words_and_not_the_figures(catalogue: Catalogue) -> None:
    lenient = replace(DEFAULT_POLICY, severity_bounds=(1e6, 1e7, 1e8))
    environment = catalogue.environments[SEA]
    couple = Couple(ALUMINIUM, COPPER, geometry=Geometry.IMMERSED)
    (strict,), (mild,) = (
        judge([couple], environment, catalogue),
        judge([couple], environment, catalogue, lenient),
    )
    one, other = (result.findings[Witness.KINETICS] for result in (strict, mild))
    assert (one.severity, other.severity) == (Severity.SEVERE, Severity.NONE)
    assert one.figures["loss_over_allowance"] == other.figures["loss_over_allowance"]
