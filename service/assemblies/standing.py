"""A report beside the policy of a house: what is open, what is waived, and until when."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable
from typing import Any

from service.assemblies.house_policy import HousePolicy
from service.assemblies.judged import JudgedJoint
from service.assemblies.policy_checks import Violation, joint_violations, part_violations, preferred
from service.assemblies.report import Report
from service.assemblies.waivers import Standing, Waiver, standing_of
from service.judgement.findings import Witness

CODE = "code"
"""Rule under which a verdict of a mandatory code stands; no house can waive it."""


def standing_document(
    report: Report, house: HousePolicy, waivers: Iterable[Waiver], today: dt.date
) -> dict[str, Any]:
    """Hold a report against policy on a day.

    Parameters
    ----------
    report : Report
        Judged by the bands of ``house``.
    house : HousePolicy
    waivers : iterable of Waiver
    today : date

    Returns
    -------
    dict
        Plain JSON values. It names the report by its hash and leaves it as it is.
    """
    waivers = tuple(waivers)
    joints = [
        {
            "joint": item.joint.id,
            "verdict": item.verdict.value,
            **standing_of((item.joint.id,), _of_joint(item, report, house), waivers, today),
        }
        for item in report.joints
    ]
    parts = []
    for part in report.assembly.parts.values():
        found = part_violations(part, report.assembly, report.surfaces, house)
        row = standing_of((part.id, part.number), found, waivers, today)
        is_preferred = preferred(part, report.surfaces, house)
        if found or is_preferred is not None:
            parts.append({"part": part.id, "has_preferred_finish": is_preferred, **row})
    counts = Counter(row["standing"] for row in (*joints, *parts))
    return {
        "report_sha256": report.sha256,
        "policy": {"name": house.name, "version": house.version, "sha256": house.sha256},
        "date": today.isoformat(),
        "totals": {standing.value: counts[standing.value] for standing in Standing},
        "joints": joints,
        "parts": parts,
    }


def _of_joint(item: JudgedJoint, report: Report, house: HousePolicy) -> tuple[Violation, ...]:
    found = joint_violations(item, report.assembly, report.surfaces, house)
    mandatory = [
        outcome.brief["line"]
        for _, outcome in item.cases
        if outcome.brief["deciding_witness"] == Witness.MANDATORY.value
    ]
    if not mandatory:
        return found
    statement = "A mandatory rule refuses the joint; follow the local code."
    return (*found, Violation(CODE, "code", statement, mandatory[0], ()))
