"""Substitutions as plain JSON values."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from service.assemblies.house_policy import HousePolicy
from service.assemblies.judged import JudgedJoint
from service.assemblies.outcomes import canonical_sha256
from service.assemblies.report import Report
from service.assemblies.substitution import JointChange, SubstitutionResult
from service.assemblies.substitution_rules import Change
from service.judgement import ENGINE_VERSION
from service.judgement.surface_names import surface_name

_ORDER = {Change.WORSE: 0, Change.UNDETERMINED: 1, Change.BETTER: 2, Change.SAME: 3}


def substitution_document(
    before: Report, results: Sequence[SubstitutionResult], part: str, house: HousePolicy
) -> dict[str, Any]:
    """Write a comparison with its hash.

    Parameters
    ----------
    before : Report
        The assembly as it is.
    results : sequence of SubstitutionResult
    part : str
        The part that is to be replaced, as the caller named it.
    house : HousePolicy
        Whose rules decided.
    """
    body = {
        "release": {"label": before.catalogue.label, "content_hash": before.catalogue.content_hash},
        "engine": ENGINE_VERSION,
        "policy": {
            "name": house.name,
            "version": house.version,
            "sha256": house.sha256,
            "acceptance": {
                "name": house.acceptance.name,
                "reject_on": list(house.acceptance.reject_on),
                "review_on": list(house.acceptance.review_on),
            },
        },
        "part": part,
        "report_sha256": before.sha256,
        "substitutes": [_substitute(result) for result in results],
    }
    return {**body, "sha256": canonical_sha256(body)}


def _substitute(result: SubstitutionResult) -> dict[str, Any]:
    counts = Counter(item.change for item in result.joints)
    offered = result.substitute.part
    named = result.report.surfaces.named(offered)
    surface = result.report.surfaces.surface(named)
    reading = result.report.surfaces.reading(named)
    return {
        "ref": result.substitute.ref,
        "decision": result.decision,
        "decided_by": _reason(result.decided_by) if result.decided_by else None,
        "change": result.change.value,
        "surface": surface_name(surface, result.report.catalogue) if surface else None,
        "match": reading.match.value if reading else None,
        "question": (reading.question or None) if reading else None,
        "totals": {change.value: counts[change] for change in Change},
        "reasons": [_reason(reason) for reason in result.reasons],
        "joints": [_joint(item) for item in sorted(result.joints, key=lambda item: _ORDER[item.change])],
    }


def _reason(reason: Any) -> dict[str, Any]:
    return {"code": reason.code, "detail": reason.detail, "joint": reason.joint or None}


def _joint(item: JointChange) -> dict[str, Any]:
    return {
        "joint": item.after.joint.id,
        "first": item.after.joint.first,
        "second": item.after.joint.second,
        "is_assumed": item.after.joint.is_assumed,
        "change": item.change.value,
        "reasons": [_reason(reason) for reason in item.reasons],
        "before": _state(item.before),
        "after": _state(item.after),
    }


def _state(item: JudgedJoint) -> dict[str, Any]:
    worst = item.worst
    brief = worst[1].brief if worst else None
    return {
        "verdict": item.verdict.value,
        "severity": item.severity.value if item.severity is not None else "unknown",
        "anode": brief["anode"]["side"] if brief else None,
        "why": brief["line"] if brief else "; ".join(refusal.detail for refusal in item.refusals),
        "conditions": [condition["code"] for condition in brief["conditions"]] if brief else [],
        "question": brief["question"] if brief else None,
        "answers_sha256": [outcome.answer_sha256 for _, outcome in item.cases],
    }
