"""Every difference between two answers names what it is due to."""

from __future__ import annotations

from typing import Any

from service.catalogue.difference import Change, ChangeKind
from service.curation.today import Cause, Line, compare_answers

LIMIT = Change("limits", ("normal",), "limit_V", 0.25, 0.15, ChangeKind.CORRECTED)
STATE = Change("kinetics", ("zinc-active",), "cathodic_slope_V", 0.1, 0.12, ChangeKind.CORRECTED)
GRADE = Change("measurements", ("m-2",), "obtained", "from memory", "read", ChangeKind.REGRADED)


def cause(change: Change) -> Cause:
    return Cause(change.table, change.key, change.field, change.before, change.after, change.kind.value)


def finding(witness: str, *evidence: str, **values: Any) -> dict[str, Any]:
    shown = {
        "applies": True, "severity": "none", "anode": "first", "is_polarity_in_doubt": False,
        "confidence": "high", "grade": "B", "statement": "s", "figures": {"difference_mV": 100.0},
    }  # fmt: skip
    return {"witness": witness, "evidence": list(evidence), **shown, **values}


def document(*findings: dict[str, Any], **values: Any) -> dict[str, Any]:
    return {
        "engine": "1", "verdict": "suitable", "severity": "none", "confidence": "high", "question": None,
        "deciding_witness": "screening", "dissenting_witnesses": [], "missing": [],
        "anode": {"side": "first", "is_in_doubt": False}, "surfaces": {"first": {}, "second": {}},
        "environment": {"id": "sea"}, "loss": None, "hazards": [], "conditions": [], "by_condition": [],
        "findings": list(findings), "evidence": [], **values,
    }  # fmt: skip


SCREENING = finding("screening", "limits/normal")
KINETICS = finding("kinetics", "kinetics/zinc-active")


def test_equal_answers_have_no_difference() -> None:
    assert compare_answers(document(SCREENING), document(SCREENING), [LIMIT]) == ()


def test_a_finding_is_put_down_to_its_own_evidence_and_the_verdict_to_the_findings_that_changed() -> None:
    before = document(SCREENING, KINETICS)
    after = document(finding("screening", "limits/normal", severity="severe"), KINETICS, verdict="unsuitable")
    assert compare_answers(before, after, [LIMIT, STATE]) == (
        Line("/verdict", "suitable", "unsuitable", (cause(LIMIT),)),
        Line("/findings/screening/severity", "none", "severe", (cause(LIMIT),)),
    )


def test_figures_are_compared_one_by_one() -> None:
    after = document(
        finding("screening", "limits/normal", figures={"difference_mV": 90.0, "limit_mV": 150.0})
    )
    lines = compare_answers(document(SCREENING), after, [LIMIT])
    assert [(line.pointer, line.before, line.after) for line in lines] == [
        ("/findings/screening/figures/difference_mV", 100.0, 90.0),
        ("/findings/screening/figures/limit_mV", None, 150.0),
    ]


def test_a_rival_that_was_set_aside_counts_as_evidence() -> None:
    used = {"table": "measurements", "id": "m-1", "used_by": ["screening"], "not_used": [{"id": "m-2"}]}
    before = document(finding("screening", "measurements/m-1"), evidence=[used])
    after = document(finding("screening", "measurements/m-2", grade="A"))
    (line,) = compare_answers(before, after, [GRADE, STATE])
    assert (line.pointer, line.because) == ("/findings/screening/grade", (cause(GRADE),))


def test_what_cannot_be_told_narrowly_is_put_down_to_all_that_can_touch() -> None:
    after = document(SCREENING, surfaces={"first": {"name": "A4"}, "second": {}})
    (line,) = compare_answers(document(SCREENING), after, [STATE, GRADE])
    assert line == Line("/surfaces/first/name", None, "A4", (cause(STATE), cause(GRADE)))


def test_another_engine_is_a_cause_too() -> None:
    engine = Cause("engine", (), "version", "1", "2", "engine")
    after = document(finding("screening", "limits/normal", severity="severe"), engine="2")
    (line,) = compare_answers(document(SCREENING), after, [])
    assert line.because == (engine,)
    (line,) = compare_answers(document(SCREENING), after, [LIMIT])
    assert line.because == (cause(LIMIT), engine)


def test_entries_are_told_by_their_identity() -> None:
    before = document(SCREENING, hazards=[{"id": "a", "severity": "slight"}, {"id": "b"}])
    after = document(SCREENING, hazards=[{"id": "a", "severity": "severe"}, {"id": "c"}])
    lines = compare_answers(before, after, [LIMIT])
    assert [line.pointer for line in lines] == ["/hazards/a", "/hazards/b", "/hazards/c"]
    assert all(line.because for line in lines)
