from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.records import Obtained, Rule, RuleKind
from service.judgement.findings import Anode, Confidence, Witness
from service.judgement.rule_witnesses import WITNESS_OF, anode_of, finding_of, rule_findings, severity_of
from service.judgement.rules import Hit, Match
from service.judgement.severity import Severity


def hit(identifier: str, match: Match | None = None, **fields: Any) -> Hit:
    defaults: dict[str, Any] = {
        "kind": RuleKind.EXPERIENCE,
        "name": f"rule {identifier}",
        "trigger": "{}",
        "severity": "moderate",
        "anode": "",
        "refuses": False,
        "affects": (),
        "statement": f"{identifier} says so.",
        "advice": "",
        "caution": "",
        "source_id": "from-memory",
        "locator": "",
        "obtained": Obtained.FROM_MEMORY,
        "note": "",
    }
    return Hit(Rule(id=identifier, **(defaults | fields)), match or Match(is_certain=True))


OPEN = Match(is_certain=False, unknown=("joint.area_ratio",))


def test_every_kind_of_rule_has_its_witness() -> None:
    findings = rule_findings([])
    assert set(findings) == set(WITNESS_OF.values())
    assert set(WITNESS_OF) == set(RuleKind)
    assert not any(finding.applies for finding in findings.values())


def test_rules_reach_the_witness_of_their_kind() -> None:
    findings = rule_findings([hit("a"), hit("b", kind=RuleKind.CREVICE)])
    assert findings[Witness.EXPERIENCE].figures == {"rules": ["a"]}
    assert findings[Witness.CREVICE].figures == {"rules": ["b"]}
    assert not findings[Witness.MANDATORY].applies


def test_the_worst_severity_is_kept_and_its_rule_speaks() -> None:
    finding = finding_of(RuleKind.EXPERIENCE, [hit("mild", severity="slight"), hit("bad", severity="severe")])
    assert finding.severity is Severity.SEVERE
    assert finding.statement == "bad says so."
    assert finding.evidence == (("rules", "mild"), ("rules", "bad"))


def test_rules_that_state_no_severity_leave_it_open() -> None:
    finding = finding_of(
        RuleKind.REVERSAL, [hit("turned", kind=RuleKind.REVERSAL, severity="", anode="second")]
    )
    assert finding.applies
    assert finding.severity is None
    assert finding.anode is Anode.SECOND


def test_a_rule_that_could_apply_names_what_is_missing_and_sets_nothing() -> None:
    finding = finding_of(RuleKind.EXPERIENCE, [hit("maybe", OPEN)])
    assert not finding.applies
    assert finding.missing == ("rule maybe: joint.area_ratio",)
    beside = finding_of(RuleKind.EXPERIENCE, [hit("sure", severity="slight"), hit("maybe", OPEN)])
    assert beside.severity is Severity.SLIGHT
    assert beside.missing == finding.missing


def test_a_refusal_leads_whatever_its_severity() -> None:
    found = [hit("bad", severity="severe"), hit("banned", severity="slight", refuses=True)]
    finding = finding_of(RuleKind.MANDATORY, found)
    assert finding.refuses
    assert finding.statement == "banned says so."


def test_rules_that_name_different_sides_put_the_polarity_in_doubt() -> None:
    found = [hit("a", anode="first"), hit("b", anode="second")]
    assert finding_of(RuleKind.EXPERIENCE, found).is_polarity_in_doubt
    assert not finding_of(RuleKind.EXPERIENCE, found[:1]).is_polarity_in_doubt


def test_what_was_read_weighs_more_than_what_is_remembered() -> None:
    read = finding_of(RuleKind.EXPERIENCE, [hit("a", obtained=Obtained.READ), hit("b")])
    assert (read.statement, read.grade, read.confidence) == ("a says so.", "A", Confidence.HIGH)
    remembered = finding_of(RuleKind.EXPERIENCE, [hit("b")])
    assert (remembered.grade, remembered.confidence) == ("D", Confidence.MEDIUM)


def test_advice_becomes_a_condition_and_cautions_are_said_once() -> None:
    found = [hit("a", advice="Seal it.", caution="Toxic."), hit("b", caution="Toxic.")]
    finding = finding_of(RuleKind.HAZARD, found)
    assert [(condition.code, condition.action) for condition in finding.conditions] == [("a", "Seal it.")]
    assert finding.cautions == ("Toxic.",)


@pytest.mark.parametrize(
    ("named", "is_swapped", "expected"),
    [
        ("first", False, Anode.FIRST),
        ("first", True, Anode.SECOND),
        ("second", True, Anode.FIRST),
        ("", False, None),
    ],
)
def test_the_anode_of_a_rule_turns_with_the_pair(
    named: str, expected: Anode | None, *, is_swapped: bool
) -> None:
    assert anode_of(hit("a", Match(is_certain=True, is_swapped=is_swapped), anode=named)) is expected


def test_a_remark_has_no_severity() -> None:
    assert severity_of(hit("a", severity="").rule) is None
    assert severity_of(hit("a", severity="none").rule) is Severity.NONE
