"""What must hold for every couple of the knowledge base, wherever it is put."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from service.catalogue.records import Environment
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement import Couple, Function, Geometry, Inquiry, Judgement, Severity, Side, answer, judge
from service.judgement.findings import Anode, Witness
from service.judgement.lane_results import LaneResult
from service.judgement.regimes import reason_to_abstain
from tests.seed_catalogue import seed_catalogue

CATALOGUE = seed_catalogue()
ENVIRONMENTS = st.sampled_from(list(CATALOGUE.environments.values()))
COMPUTED = st.sampled_from(
    [place for place in CATALOGUE.environments.values() if not reason_to_abstain(place)]
)
WATERS = st.sampled_from(
    [CATALOGUE.environments[place] for place in ("seawater-quiescent", "tap-water-hard")]
)
MATERIALS = st.sampled_from(sorted(CATALOGUE.materials))
LAYERS = st.builds(
    Layer,
    st.sampled_from(sorted(CATALOGUE.finishes)),
    st.one_of(st.none(), st.floats(0.1, 200.0)),
)
SURFACES = st.builds(
    Surface, MATERIALS, st.lists(LAYERS, max_size=2).map(tuple), condition=st.sampled_from(Condition)
)
AREAS = st.floats(-5.0, 1.0).map(lambda exponent: 10.0**exponent)
COUPLES = st.builds(
    Couple,
    SURFACES,
    SURFACES,
    first_area_m2=st.one_of(st.none(), AREAS),
    second_area_m2=st.one_of(st.none(), AREAS),
    geometry=st.sampled_from([Geometry.STRIP, Geometry.IMMERSED]),
    functions=st.lists(st.sampled_from(Function), min_size=1, max_size=3, unique=True).map(tuple),
    design_life_years=st.floats(0.1, 50.0),
)

fewer = settings(max_examples=25, deadline=None)


def judged(couple: Couple, environment: Environment) -> Judgement:
    return judge([couple], environment, CATALOGUE)[0]


def turned(couple: Couple) -> Couple:
    return replace(
        couple,
        first=couple.second,
        second=couple.first,
        first_area_m2=couple.second_area_m2,
        second_area_m2=couple.first_area_m2,
    )


@fewer
@given(ENVIRONMENTS, COUPLES)
def test_any_couple_anywhere_gets_an_answer_that_can_be_written_down(
    environment: Environment, couple: Couple
) -> None:
    inquiry = Inquiry(
        Side(surface=couple.first),
        Side(surface=couple.second),
        environment.id,
        first_area_m2=couple.first_area_m2,
        functions=couple.functions,
        design_life_years=couple.design_life_years,
    )
    document = answer([inquiry], CATALOGUE)[0].document()
    assert json.loads(json.dumps(document, allow_nan=False)) == document
    assert document["verdict"] in {"suitable", "conditional", "unsuitable", "undetermined"}
    assert document["conditions"] or document["verdict"] != "conditional"
    assert document["missing"] or document["verdict"] != "undetermined"


@fewer
@given(ENVIRONMENTS, COUPLES)
def test_turning_a_couple_round_turns_its_answer_round(environment: Environment, couple: Couple) -> None:
    one, other = judged(couple, environment), judged(turned(couple), environment)
    assert one.outcome.verdict is other.outcome.verdict
    assert one.outcome.severity is other.outcome.severity
    assert one.outcome.anode is other.outcome.anode.other
    assert one.outcome.is_polarity_in_doubt is other.outcome.is_polarity_in_doubt


def ratios(judgement: Judgement) -> list[float]:
    return [lane.figures["loss_over_allowance"]["high"] for lane in judgement.kinetics.lanes]


@fewer
@given(COMPUTED, COUPLES, st.floats(1.01, 5.0))
def test_a_longer_life_never_loses_less(environment: Environment, couple: Couple, factor: float) -> None:
    years = couple.design_life_years or 10.0
    longer = replace(couple, design_life_years=years * factor)
    short, long = judged(couple, environment), judged(longer, environment)
    assert all(one <= other for one, other in zip(ratios(short), ratios(long), strict=True))
    severities = [result.findings[Witness.KINETICS].severity for result in (short, long)]
    if severities[0] is not None and severities[1] is not None:
        assert severities[0].rank <= severities[1].rank


def rate_of_first(lane: LaneResult) -> float:
    assume(lane.side == 0)
    return float(lane.figures["galvanic_rate_um_per_year"]["median"])


@fewer
@given(WATERS, MATERIALS, MATERIALS, AREAS, st.floats(1.1, 10.0))
def test_a_larger_cathode_never_attacks_less(
    environment: Environment, anode: str, cathode: str, area: float, factor: float
) -> None:
    couples = [
        Couple(Surface(anode), Surface(cathode), first_area_m2=0.01, second_area_m2=area * scale)
        for scale in (1.0, factor)
    ]
    small, large = (judged(couple, environment).kinetics.lanes for couple in couples)
    assume(small and all(lane.probability_of_first == 1.0 for lane in (*small, *large)))
    for one, other in zip(small, large, strict=True):
        # three digits of rounding, and the step at which the ohmic drop starts to count
        assert rate_of_first(other) >= 0.97 * rate_of_first(one)


@fewer
@given(ENVIRONMENTS, st.lists(COUPLES, min_size=2, max_size=6))
def test_a_batch_is_judged_like_its_couples_alone(environment: Environment, couples: list[Couple]) -> None:
    for together, couple in zip(judge(couples, environment, CATALOGUE), couples, strict=True):
        alone = judged(couple, environment)
        assert together.findings == alone.findings
        assert together.outcome == alone.outcome


@fewer
@given(ENVIRONMENTS, SURFACES)
def test_like_on_like_makes_no_galvanic_couple(environment: Environment, surface: Surface) -> None:
    bare = replace(surface, layers=())
    finding = judged(Couple(bare, bare), environment).findings[Witness.KINETICS]
    if finding.applies:
        assert (finding.severity, finding.anode) == (Severity.NONE, Anode.NONE)


@fewer
@given(COMPUTED, COUPLES)
def test_shares_are_shares(environment: Environment, couple: Couple) -> None:
    for lane in judged(couple, environment).kinetics.lanes:
        assert sum(lane.severity_shares) == pytest.approx(1.0)
        assert 0.0 <= lane.probability_of_first <= 1.0
        assert lane.is_solved
        for entry in lane.figures.values():
            if isinstance(entry, dict) and "median" in entry:
                assert entry["low"] <= entry["median"] <= entry["high"]


@fewer
@given(ENVIRONMENTS, COUPLES)
def test_isolation_leaves_no_galvanic_loss(environment: Environment, couple: Couple) -> None:
    finding = judged(replace(couple, is_isolated=True), environment).findings[Witness.KINETICS]
    assert finding.severity in {None, Severity.NONE}
    assert finding.anode in {None, Anode.NONE}


@fewer
@given(ENVIRONMENTS, COUPLES)
def test_evidence_can_always_be_looked_up(environment: Environment, couple: Couple) -> None:
    for finding in judged(couple, environment).findings.values():
        for table, identifier in finding.evidence:
            assert CATALOGUE.record(table, identifier).source_id in CATALOGUE.sources
