from __future__ import annotations

import pytest

from service.judgement.combination import CONFIRM, PROTECT, SETTLE, combine
from service.judgement.findings import Anode, Condition, Confidence, Finding, Witness
from service.judgement.severity import Severity, Verdict

SEAL = Condition("seal", "Seal it.", "assembler", "inspection")


def finding(witness: Witness, severity: Severity | None, **fields: object) -> Finding:
    defaults: dict[str, object] = {"grade": "D", "anode": Anode.FIRST}
    return Finding(witness, f"{witness.value} speaks", severity=severity, **(defaults | fields))  # type: ignore[arg-type]


def test_a_refusing_code_outvotes_everything() -> None:
    outcome = combine(
        {
            Witness.MANDATORY: finding(Witness.MANDATORY, None, refuses=True),
            Witness.KINETICS: finding(Witness.KINETICS, Severity.NONE, grade="A"),
        }
    )
    assert outcome.verdict is Verdict.UNSUITABLE
    assert outcome.deciding is Witness.MANDATORY


def test_nothing_to_go_by_is_undetermined() -> None:
    outcome = combine({Witness.KINETICS: Finding(Witness.KINETICS, "", abstains="no figures")})
    assert outcome.verdict is Verdict.UNDETERMINED
    assert outcome.severity is None


def test_the_worse_decides_when_a_step_apart() -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.SLIGHT),
            Witness.EXPERIENCE: finding(Witness.EXPERIENCE, Severity.MODERATE),
        }
    )
    assert outcome.deciding is Witness.EXPERIENCE
    assert outcome.severity is Severity.MODERATE


def loss(high: float) -> dict[str, object]:
    return {"loss_over_allowance": {"median": high / 3.0, "low": 0.0, "high": high}}


@pytest.mark.parametrize(
    ("high", "grade", "deciding"),
    [
        (0.9, "B", Witness.EXPERIENCE),
        (0.9, "D", Witness.KINETICS),
        (1.5, "B", Witness.KINETICS),
    ],
)
def test_loss_within_the_allowance_gives_way_to_experience_that_was_read(
    high: float, grade: str, deciding: Witness
) -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.MODERATE, figures=loss(high)),
            Witness.EXPERIENCE: finding(Witness.EXPERIENCE, Severity.SLIGHT, grade=grade),
        }
    )
    assert outcome.deciding is deciding


def test_suitable_against_a_loss_above_the_allowance_has_to_be_settled() -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.SEVERE, figures=loss(9.0)),
            Witness.EXPERIENCE: finding(
                Witness.EXPERIENCE, Severity.SLIGHT, grade="A", confidence=Confidence.HIGH
            ),
        }
    )
    assert outcome.verdict is Verdict.CONDITIONAL
    assert outcome.conditions == (SETTLE,)
    assert outcome.dissenting == (Witness.KINETICS,)
    assert outcome.confidence is Confidence.MEDIUM


def test_witnesses_that_agree_keep_the_confidence_of_the_deciding_one() -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.SLIGHT, confidence=Confidence.MEDIUM),
            Witness.EXPERIENCE: finding(Witness.EXPERIENCE, Severity.NONE, confidence=Confidence.HIGH),
        }
    )
    assert outcome.confidence is Confidence.MEDIUM


def test_the_better_graded_decides_when_further_apart() -> None:
    pair = {
        Witness.KINETICS: finding(Witness.KINETICS, Severity.SEVERE, grade="D"),
        Witness.EXPERIENCE: finding(Witness.EXPERIENCE, Severity.NONE, grade="B"),
    }
    assert combine(pair).deciding is Witness.EXPERIENCE
    pair[Witness.EXPERIENCE] = finding(Witness.EXPERIENCE, Severity.NONE, grade="E")
    assert combine(pair).deciding is Witness.KINETICS


def test_screening_decides_where_nobody_else_speaks() -> None:
    outcome = combine({Witness.SCREENING: finding(Witness.SCREENING, Severity.SEVERE)})
    assert outcome.deciding is Witness.SCREENING
    assert outcome.verdict is Verdict.UNSUITABLE


def test_a_reversal_sets_polarity_and_severity() -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.SEVERE),
            Witness.REVERSAL: finding(Witness.REVERSAL, Severity.MODERATE, anode=Anode.SECOND),
        }
    )
    assert outcome.deciding is Witness.REVERSAL
    assert outcome.anode is Anode.SECOND
    assert outcome.is_polarity_in_doubt


@pytest.mark.parametrize("witness", [Witness.CATHODE_DAMAGE, Witness.CREVICE, Witness.HAZARDS])
def test_aggravating_witnesses_only_make_it_worse(witness: Witness) -> None:
    base = {Witness.KINETICS: finding(Witness.KINETICS, Severity.SLIGHT)}
    worse = combine({**base, witness: finding(witness, Severity.SEVERE)})
    assert worse.deciding is witness
    milder = combine({**base, witness: finding(witness, Severity.NONE)})
    assert milder.deciding is Witness.KINETICS


def test_memory_alone_is_never_suitable() -> None:
    outcome = combine({Witness.KINETICS: finding(Witness.KINETICS, Severity.NONE, grade="D")})
    assert outcome.verdict is Verdict.CONDITIONAL
    assert outcome.conditions == (CONFIRM,)


def test_two_independent_witnesses_that_agree_suffice() -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.NONE),
            Witness.SCREENING: finding(Witness.SCREENING, Severity.SLIGHT),
        }
    )
    assert outcome.verdict is Verdict.SUITABLE


def test_a_better_figure_alone_suffices() -> None:
    outcome = combine({Witness.KINETICS: finding(Witness.KINETICS, Severity.NONE, grade="B")})
    assert outcome.verdict is Verdict.SUITABLE


def test_a_conditional_verdict_carries_its_conditions() -> None:
    outcome = combine({Witness.KINETICS: finding(Witness.KINETICS, Severity.MODERATE, conditions=(SEAL,))})
    assert outcome.verdict is Verdict.CONDITIONAL
    assert outcome.conditions == (SEAL,)


def test_those_who_disagree_are_named() -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.SEVERE, grade="B"),
            Witness.SCREENING: finding(Witness.SCREENING, Severity.NONE),
        }
    )
    assert outcome.dissenting == (Witness.SCREENING,)


def test_polarity_is_in_doubt_where_witnesses_name_different_sides() -> None:
    outcome = combine(
        {
            Witness.KINETICS: finding(Witness.KINETICS, Severity.SLIGHT, anode=Anode.FIRST),
            Witness.SCREENING: finding(Witness.SCREENING, Severity.SLIGHT, anode=Anode.SECOND),
        }
    )
    assert outcome.anode is Anode.FIRST
    assert outcome.is_polarity_in_doubt


def test_a_witness_without_an_anode_leaves_none() -> None:
    outcome = combine(
        {Witness.EXPERIENCE: finding(Witness.EXPERIENCE, Severity.SLIGHT, anode=None, grade="B")}
    )
    assert outcome.anode is Anode.NONE


def test_a_conditional_verdict_is_never_without_a_condition() -> None:
    outcome = combine({Witness.SCREENING: finding(Witness.SCREENING, Severity.MODERATE)})
    assert outcome.verdict is Verdict.CONDITIONAL
    assert outcome.conditions == (PROTECT,)


def test_the_general_condition_gives_way_to_a_particular_one() -> None:
    condition = Condition("seal", "Seal it.", "designer", "drawing")
    outcome = combine(
        {Witness.EXPERIENCE: finding(Witness.EXPERIENCE, Severity.MODERATE, conditions=(condition,))}
    )
    assert outcome.conditions == (condition,)


def kinetics(severity: Severity | None, **fields: object) -> dict[Witness, Finding]:
    return {Witness.KINETICS: finding(Witness.KINETICS, severity, **fields)}


def test_an_aggravating_witness_of_the_same_severity_does_not_take_over() -> None:
    crevice = finding(Witness.CREVICE, Severity.MODERATE)
    outcome = combine({**kinetics(Severity.MODERATE), Witness.CREVICE: crevice})
    assert outcome.deciding is Witness.KINETICS


@pytest.mark.parametrize(
    ("computed", "documented", "deciding"),
    [
        ((Severity.SLIGHT, "D"), (Severity.SLIGHT, "A"), Witness.KINETICS),
        ((Severity.MODERATE, "D"), (Severity.SLIGHT, "A"), Witness.KINETICS),
        ((Severity.SEVERE, "D"), (Severity.SLIGHT, "D"), Witness.EXPERIENCE),
    ],
)
def test_the_weighing_at_its_edges(
    computed: tuple[Severity, str], documented: tuple[Severity, str], deciding: Witness
) -> None:
    experience = finding(Witness.EXPERIENCE, documented[0], grade=documented[1])
    found = combine({**kinetics(computed[0], grade=computed[1]), Witness.EXPERIENCE: experience})
    assert found.deciding is deciding


def test_a_refusal_is_severe_whatever_else_was_found() -> None:
    refusal = finding(Witness.MANDATORY, Severity.SLIGHT, refuses=True)
    assert combine({Witness.MANDATORY: refusal}).severity is Severity.SEVERE


@pytest.mark.parametrize(("grade", "verdict"), [("C", Verdict.SUITABLE), ("D", Verdict.CONDITIONAL)])
def test_a_computed_figure_is_better_than_a_remembered_one(grade: str, verdict: Verdict) -> None:
    assert combine(kinetics(Severity.NONE, grade=grade)).verdict is verdict


def test_what_would_be_suitable_but_for_a_condition_is_conditional_on_it() -> None:
    outcome = combine(kinetics(Severity.NONE, grade="B", conditions=(SEAL,)))
    assert outcome.verdict is Verdict.CONDITIONAL
    assert outcome.conditions == (SEAL,)


@pytest.mark.parametrize("severity", [None, Severity.SLIGHT])
def test_the_advice_of_a_mild_rule_does_not_bind(severity: Severity | None) -> None:
    advice = finding(Witness.EXPERIENCE, severity, conditions=(SEAL,))
    outcome = combine({**kinetics(Severity.NONE, grade="B"), Witness.EXPERIENCE: advice})
    assert outcome.verdict is Verdict.SUITABLE
    assert outcome.conditions == ()


def test_the_condition_of_a_declared_function_binds_without_a_severity() -> None:
    contact = finding(Witness.FUNCTION, None, conditions=(SEAL,))
    outcome = combine({**kinetics(Severity.NONE, grade="B"), Witness.FUNCTION: contact})
    assert outcome.conditions == (SEAL,)


@pytest.mark.parametrize(
    ("witness", "severity"), [(Witness.SELF_CORROSION, Severity.SEVERE), (Witness.SCREENING, None)]
)
def test_a_hazard_or_a_remark_is_no_dissent(witness: Witness, severity: Severity | None) -> None:
    outcome = combine({**kinetics(Severity.NONE, grade="B"), witness: finding(witness, severity)})
    assert outcome.dissenting == ()


def test_where_nothing_is_known_the_polarity_is_in_doubt() -> None:
    assert combine({}).is_polarity_in_doubt
    unnamed = combine({Witness.EXPERIENCE: finding(Witness.EXPERIENCE, Severity.SLIGHT, anode=None)})
    assert (unnamed.anode, unnamed.is_polarity_in_doubt) == (Anode.NONE, True)
