from __future__ import annotations

import hashlib
import json
from dataclasses import replace

import pytest

from service.assemblies.outcomes import Outcome, Outcomes, Refusal, canonical, canonical_sha256, outcome_of
from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Inquiry, Severity, Side, Verdict, answer
from service.judgement.findings import Anode

BAD = Inquiry(Side(text="EN AW-6082-T6"), Side(text="CW024A"), "marine-atmosphere-0-100-m", 0.1, 0.1)
UNKNOWN = replace(BAD, second=Side(text="qqxj wvvk"))
MISPLACED = replace(BAD, environment="marine-atmosphere")


@pytest.fixture
def outcomes(catalogue: Catalogue) -> Outcomes:
    return Outcomes(catalogue, DEFAULT_POLICY)


def test_an_answer_in_brief_says_what_the_answer_says(catalogue: Catalogue, outcomes: Outcomes) -> None:
    (found,) = outcomes.of([BAD])
    assert isinstance(found, Outcome)
    document = answer([BAD], catalogue)[0].document()
    assert found.verdict is Verdict.UNSUITABLE
    assert (found.anode, found.kinetic_anode) == (Anode.FIRST, Anode.FIRST)
    assert found.brief["line"] == document["summary"]["line"]
    assert found.brief["loss"]["allowance_um"] == document["loss"]["allowance_um"]
    assert found.loss_over_allowance == document["loss"]["loss_over_allowance"]["high"]
    assert found.answer_sha256 == canonical_sha256(document)


def test_a_surface_that_is_not_known_leaves_all_open(outcomes: Outcomes) -> None:
    (found,) = outcomes.of([UNKNOWN])
    assert isinstance(found, Outcome)
    assert found.verdict is Verdict.UNDETERMINED
    assert (found.severity, found.kinetic_severity, found.kinetic_anode, found.anode) == (
        None,
        None,
        None,
        Anode.NONE,
    )
    assert found.brief["loss"] is None


def test_a_witness_that_abstains_gives_no_severity(catalogue: Catalogue) -> None:
    (given,) = answer([replace(BAD, environment="heavy-industrial-atmosphere")], catalogue)
    assert outcome_of(given).kinetic_severity is None


def test_one_bad_question_spoils_only_itself(outcomes: Outcomes) -> None:
    first, second, third = outcomes.of([BAD, MISPLACED, UNKNOWN])
    assert isinstance(first, Outcome)
    assert isinstance(third, Outcome)
    assert isinstance(second, Refusal)
    assert second.pointer == "/environment"
    assert any("marine" in suggestion for suggestion in second.suggestions)


def test_a_question_is_judged_once(outcomes: Outcomes) -> None:
    first, second = outcomes.of([BAD, BAD])
    assert first is second
    assert outcomes.of([BAD])[0] is first


def test_the_worst_comes_first(outcomes: Outcomes) -> None:
    bad, unknown = outcomes.of([BAD, UNKNOWN])
    assert isinstance(bad, Outcome)
    assert isinstance(unknown, Outcome)
    assert bad.urgency < unknown.urgency
    milder = replace(bad, severity=Severity.NONE)
    assert bad.urgency < milder.urgency
    assert replace(bad, loss_over_allowance=9e9).urgency < bad.urgency


def test_canonical_json_has_one_form() -> None:
    assert canonical({"b": 1, "a": "ü"}) == '{"a":"ü","b":1}'.encode()
    assert canonical_sha256([1]) == hashlib.sha256(b"[1]").hexdigest()
    with pytest.raises(ValueError, match="JSON"):
        canonical(float("nan"))
    assert json.loads(canonical({"x": None})) == {"x": None}


def test_every_answer_is_heard_once(catalogue: Catalogue) -> None:
    heard: list[Inquiry] = []
    outcomes = Outcomes(catalogue, DEFAULT_POLICY, lambda inquiry, _: heard.append(inquiry))
    outcomes.of([BAD, UNKNOWN, MISPLACED])
    outcomes.of([BAD])
    assert heard == [BAD, UNKNOWN]
