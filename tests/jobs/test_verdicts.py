"""What changed between two reports in brief."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from service.assemblies import Assembly, check
from service.assemblies.assembly import Programme
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.catalogue.difference import Change, ChangeKind
from service.jobs.verdicts import MOST_LISTED, VerdictEvent, happenings, summary_of, withdrawn, without_report
from tests.seed_catalogue import seed_catalogue

LIMIT = Change("limits", ("normal",), "limit_V", 0.25, 0.15, ChangeKind.CORRECTED)
GRADE = Change("measurements", ("m-1",), "obtained", "from memory", "read", ChangeKind.REGRADED)
ABOUT = {"version": 1, "reason": "a test", "release": None}


def brief(verdict: str = "suitable", **more: Any) -> dict[str, Any]:
    return {
        "verdict": verdict, "severity": "none", "anode": "first", "confidence": "high",
        "deciding_witness": "kinetics", **more,
    }  # fmt: skip


def summary(**joints: dict[str, Any]) -> dict[str, Any]:
    return {"verdict": "suitable", "totals": {"joints": len(joints)}, "sha256": "x", "joints": joints}


def compared(
    before: dict[str, Any] | None, after: dict[str, Any], *because: Change
) -> dict[str, list[dict[str, Any]]]:
    def find(_joint: str) -> Sequence[Change]:
        return because

    return {found.kind.value: found.detail["joints"] for found in happenings(before, after, find, ABOUT)}


def test_a_first_report_creates_its_verdicts() -> None:
    found = compared(None, summary(J1=brief(), J2=brief("unsuitable")))
    assert [line["joint"] for line in found["verdicts.created"]] == ["J1", "J2"]
    assert found["verdicts.created"][0]["before"] is None


def test_nothing_happened_where_nothing_is_different() -> None:
    assert compared(summary(J1=brief()), summary(J1=brief()), LIMIT) == {}


def test_a_changed_verdict_is_corrected_and_names_the_figure() -> None:
    found = compared(summary(J1=brief()), summary(J1=brief("unsuitable")), LIMIT, GRADE)
    (line,) = found["verdicts.corrected"]
    assert (line["before"]["verdict"], line["after"]["verdict"]) == ("suitable", "unsuitable")
    assert [cause["table"] for cause in line["because"]] == ["limits", "measurements"]
    assert (line["because"][0]["before"], line["because"][0]["after"]) == (0.25, 0.15)


def test_what_only_trust_in_figures_has_changed_is_regraded() -> None:
    found = compared(summary(J1=brief()), summary(J1=brief("unsuitable")), GRADE)
    assert list(found) == ["verdicts.regraded"]
    same_verdict = compared(summary(J1=brief()), summary(J1=brief(confidence="low")), LIMIT)
    assert list(same_verdict) == ["verdicts.regraded"]


def test_joints_come_and_go() -> None:
    found = compared(summary(J1=brief(), J2=brief()), summary(J2=brief(), J3=brief()), LIMIT)
    assert {kind: [line["joint"] for line in lines] for kind, lines in found.items()} == {
        "verdicts.created": ["J3"],
        "verdicts.withdrawn": ["J1"],
    }


def test_a_long_list_is_cut_and_says_so() -> None:
    joints = {f"J{number:04d}": brief() for number in range(MOST_LISTED + 5)}
    (found,) = happenings(None, summary(**joints), lambda _: (), ABOUT)
    assert (len(found.detail["joints"]), found.detail["more_joints"]) == (MOST_LISTED, 5)
    assert found.detail["reason"] == "a test"


def test_everything_can_be_withdrawn_at_once() -> None:
    gone = withdrawn(summary(J1=brief()), ABOUT)
    assert (gone.kind, gone.detail["joints"][0]["after"]) == (VerdictEvent.WITHDRAWN, None)
    assert withdrawn(None, ABOUT).detail["joints"] == []
    assert compared(summary(J1=brief()), without_report("a place is gone")).keys() == {"verdicts.withdrawn"}


def test_a_report_is_reduced_to_what_counts() -> None:
    parts = {
        name: Part(name, text=text) for name, text in (("1", "EN AW-6082-T6"), ("2", "CW024A"), ("3", ""))
    }
    joints = (Joint("J1", "1", "2"), Joint("J2", "1", "3"))
    programme = Programme(environment="marine-atmosphere-0-100-m")
    report = check(Assembly(parts, joints, programme=programme), seed_catalogue())
    found = summary_of(report)
    assert found["totals"] == report.totals
    assert set(found["joints"]) == {"J1", "J2"}
    assert found["joints"]["J1"]["anode"] == "first"
    assert found["joints"]["J2"] == {
        "verdict": "undetermined", "severity": "unknown", "anode": None, "confidence": None,
        "deciding_witness": None,
    }  # fmt: skip
    assert found["verdict"] in {"unsuitable", "undetermined"}
