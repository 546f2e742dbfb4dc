"""Reports on stored assemblies in brief, and what changed from one to the next."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from service.assemblies import JudgedJoint, Report
from service.assemblies.outcomes import URGENCY
from service.catalogue.difference import Change, ChangeKind

MOST_LISTED = 200
"""Joints that one event lists; the report holds all of them."""

Brief = Mapping[str, Any]
Because = Callable[[str], Sequence[Change]]
"""The changes of the knowledge base that can touch a joint, by its identifier."""


class VerdictEvent(StrEnum):
    """What happened to verdicts of a stored assembly, as the feed of changes names it."""

    CREATED = "verdicts.created"
    CORRECTED = "verdicts.corrected"
    REGRADED = "verdicts.regraded"
    WITHDRAWN = "verdicts.withdrawn"


@dataclass(frozen=True, slots=True)
class Happening:
    """One line for the feed: which joints, and what is said of them."""

    kind: VerdictEvent
    detail: Mapping[str, Any]


def summary_of(report: Report) -> dict[str, Any]:
    """Reduce a report to what the next one is compared with."""
    joints = {item.joint.id: _brief(item) for item in report.joints}
    verdicts = [item.verdict for item in report.joints]
    return {
        "verdict": min(verdicts, key=URGENCY.index).value if verdicts else None,
        "totals": report.totals,
        "sha256": report.sha256,
        "joints": joints,
    }


def without_report(reason: str) -> dict[str, Any]:
    """Return the summary of an assembly that cannot be judged."""
    return {"verdict": None, "totals": None, "sha256": None, "joints": {}, "reason": reason}


def _brief(item: JudgedJoint) -> dict[str, Any]:
    worst = item.worst[1].brief if item.worst else {}
    return {
        "verdict": item.verdict.value,
        "severity": item.severity.value if item.severity else "unknown",
        "anode": worst["anode"]["side"] if worst else None,
        "confidence": worst.get("confidence"),
        "deciding_witness": worst.get("deciding_witness"),
    }


def happenings(
    before: Brief | None, after: Brief, because: Because, about: Mapping[str, Any]
) -> list[Happening]:
    """Compare two summaries and tell what happened, by kind.

    Parameters
    ----------
    before, after : mapping
        Summaries; ``before`` is ``None`` for a first report.
    because : callable
        Changes of the knowledge base that can touch a joint.
    about : mapping
        What every line says besides: the assembly, the releases, the reason.
    """
    old: Mapping[str, Brief] = before["joints"] if before else {}
    new: Mapping[str, Brief] = after["joints"]
    found: dict[VerdictEvent, list[dict[str, Any]]] = {}
    for joint in sorted({*old, *new}):
        one, other = old.get(joint), new.get(joint)
        if one == other:
            continue
        changes = because(joint) if one and other else ()
        kind = _kind(one, other, changes)
        line = {"joint": joint, "before": one, "after": other, "because": [_cause(each) for each in changes]}
        found.setdefault(kind, []).append(line)
    return [
        Happening(kind, {**about, "totals": after["totals"], **_listed(found[kind])})
        for kind in VerdictEvent
        if kind in found
    ]


def withdrawn(before: Brief | None, about: Mapping[str, Any]) -> Happening:
    """Tell that nothing is said about the joints of an assembly any more."""
    joints = before["joints"] if before else {}
    lines = [
        {"joint": joint, "before": joints[joint], "after": None, "because": []} for joint in sorted(joints)
    ]
    return Happening(VerdictEvent.WITHDRAWN, {**about, "totals": None, **_listed(lines)})


def _kind(before: Brief | None, after: Brief | None, changes: Iterable[Change]) -> VerdictEvent:
    if before is None:
        return VerdictEvent.CREATED
    if after is None:
        return VerdictEvent.WITHDRAWN
    is_same_verdict = all(before[name] == after[name] for name in ("verdict", "severity", "anode"))
    kinds = {change.kind for change in changes}
    if is_same_verdict or kinds == {ChangeKind.REGRADED}:
        return VerdictEvent.REGRADED
    return VerdictEvent.CORRECTED


def _cause(change: Change) -> dict[str, Any]:
    return {
        "table": change.table,
        "key": list(change.key),
        "field": change.field,
        "before": change.before if change.field else None,
        "after": change.after if change.field else None,
        "kind": change.kind.value,
    }


def _listed(lines: list[dict[str, Any]]) -> dict[str, Any]:
    return {"joints": lines[:MOST_LISTED], "more_joints": max(0, len(lines) - MOST_LISTED)}
