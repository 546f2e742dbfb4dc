from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from service.assemblies.cases import Case
from service.assemblies.house_policy import AcceptanceRules
from service.assemblies.joints import Joint
from service.assemblies.judged import JudgedJoint
from service.assemblies.outcomes import Outcome, Refusal, canonical
from service.assemblies.substitution_rules import ACCEPT, REJECT, REVIEW, Change, Reason, compare, decide
from service.judgement import Inquiry, Severity, Side, Verdict
from service.judgement.findings import Anode

INQUIRY = Inquiry(Side(text="a"), Side(text="b"), "x")
OUTCOME = Outcome(
    Verdict.CONDITIONAL,
    Severity.MODERATE,
    Anode.FIRST,
    None,
    None,
    1.0,
    "0",
    canonical({"hazards": [], "conditions": []}),
)


def joint(**changes: Any) -> JudgedJoint:
    return JudgedJoint(Joint("J", "A", "B"), ((Case("", INQUIRY), replace(OUTCOME, **changes)),))


def state(verdict: Verdict) -> JudgedJoint:
    return joint(verdict=verdict, severity=None)


S, C, U, X = Verdict.SUITABLE, Verdict.CONDITIONAL, Verdict.UNSUITABLE, Verdict.UNDETERMINED


@pytest.mark.parametrize(
    ("before", "after", "change", "codes"),
    [
        (S, S, Change.SAME, []),
        (S, C, Change.WORSE, ["worse"]),
        (C, S, Change.BETTER, ["better"]),
        (C, U, Change.WORSE, ["worse", "becomes-unsuitable"]),
        (U, U, Change.SAME, []),
        (U, C, Change.BETTER, ["better"]),
        (C, X, Change.UNDETERMINED, ["undetermined"]),
        (X, X, Change.UNDETERMINED, ["undetermined"]),
        (X, S, Change.BETTER, ["better"]),
        (X, U, Change.WORSE, ["worse", "becomes-unsuitable"]),
    ],
)
def test_verdicts_before_and_after(before: Verdict, after: Verdict, change: Change, codes: list[str]) -> None:
    found, reasons = compare(state(before), state(after))
    assert found is change
    assert [reason.code for reason in reasons] == codes
    assert all(reason.joint == "J" for reason in reasons)


def test_under_one_verdict_the_severity_decides() -> None:
    assert compare(joint(), joint(severity=Severity.SEVERE))[0] is Change.WORSE
    assert compare(joint(), joint(severity=Severity.SLIGHT))[0] is Change.BETTER


@pytest.mark.parametrize(
    ("before", "after", "change"),
    [
        (1.0, 2.1, Change.WORSE),
        (1.0, 0.4, Change.BETTER),
        (1.0, 1.9, Change.SAME),
        (0.01, 0.09, Change.SAME),
        (None, 9.0, Change.SAME),
        (9.0, None, Change.SAME),
    ],
)
def test_under_one_severity_the_loss_decides_if_it_moves(
    before: float | None, after: float | None, change: Change
) -> None:
    assert compare(joint(loss_over_allowance=before), joint(loss_over_allowance=after))[0] is change


def test_new_hazards_and_conditions_are_reasons_old_ones_are_not() -> None:
    old = {"hazards": [{"name": "whiskers"}], "conditions": [{"action": "Seal it."}]}
    new = {
        "hazards": [{"name": "whiskers"}, {"name": "embrittlement"}],
        "conditions": [{"action": "Seal it."}, {"action": "Bake it."}],
    }
    _, reasons = compare(joint(brief_json=canonical(old)), joint(brief_json=canonical(new)))
    assert [(reason.code, reason.detail) for reason in reasons] == [
        ("new-hazard", "embrittlement"),
        ("new-condition", "Bake it."),
    ]
    assert compare(joint(brief_json=canonical(new)), joint(brief_json=canonical(old)))[1] == ()


def test_an_anode_on_the_other_side_is_a_reason() -> None:
    _, reasons = compare(joint(), joint(anode=Anode.SECOND))
    assert [(reason.code, reason.detail) for reason in reasons] == [
        ("polarity-changed", "the second side is eaten now, not the first")
    ]
    assert compare(joint(), joint(anode=Anode.BOTH))[1] == ()
    assert compare(joint(anode=Anode.NONE), joint())[1] == ()


def test_a_joint_that_could_not_be_asked_is_undetermined() -> None:
    refused = JudgedJoint(Joint("J", "A", "B"), (), (Refusal("/first", "no surface", ()),))
    assert compare(joint(), refused)[0] is Change.UNDETERMINED


RULES = AcceptanceRules("r", reject_on=("banned", "becomes-unsuitable"), review_on=("worse", "new-hazard"))
BANNED, WORSE, HAZARD, BETTER = (Reason(code, "") for code in ("banned", "worse", "new-hazard", "better"))


def test_the_first_code_of_the_list_decides() -> None:
    assert decide([HAZARD, WORSE, BANNED], RULES) == (REJECT, BANNED)
    assert decide([HAZARD, WORSE], RULES) == (REVIEW, WORSE)
    assert decide([HAZARD], RULES) == (REVIEW, HAZARD)
    assert decide([BETTER], RULES) == (ACCEPT, None)
    assert decide([], RULES) == (ACCEPT, None)
