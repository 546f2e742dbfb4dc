"""Waivers: a named person accepts what policy refuses, with a reason and until a day.

A waiver stands beside a verdict and never inside it: a report has the same bytes with and without.
Nobody can waive a mandatory rule of a code, nor a rule that names no one who may.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from service.assemblies.policy_checks import Violation


class Standing(StrEnum):
    """Where a joint or part stands against policy on a day."""

    CLEAR = "clear"
    WAIVED = "waived"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class Waiver:
    """Who accepted what. ``subject`` is a joint or a part, ``rules`` those waived (none means all of them).

    It holds from ``granted_on`` to ``expires_on`` inclusive, unless it was revoked before.
    """

    id: str
    subject: str
    reason: str
    approver: str
    role: str
    granted_on: dt.date
    expires_on: dt.date
    rules: tuple[str, ...] = ()
    conditions: tuple[str, ...] = ()
    revoked_on: dt.date | None = None

    def why_not(self, violation: Violation, today: dt.date) -> str:
        """Why the waiver does not cover a violation today; empty where it does."""
        reasons = (
            ("it names other rules", bool(self.rules) and violation.rule not in self.rules),
            ("nobody may waive this rule", not violation.waivable_by),
            (f"{self.role} may not waive this rule", self.role not in violation.waivable_by),
            ("it lacks a reason or an approver", not (self.reason.strip() and self.approver.strip())),
            (f"it begins on {self.granted_on}", today < self.granted_on),
            (f"it expired on {self.expires_on}", today > self.expires_on),
            (f"it was revoked on {self.revoked_on}", bool(self.revoked_on and today >= self.revoked_on)),
        )
        return next((reason for reason, holds in reasons if holds), "")


def standing_of(
    names: Sequence[str], violations: Iterable[Violation], waivers: Iterable[Waiver], today: dt.date
) -> dict[str, Any]:
    """Where a joint or part stands: its violations, each with the waivers that were granted for it.

    Parameters
    ----------
    names : sequence of str
        Everything the subject is called, such as the identifier and the number of a part.
    violations : iterable of Violation
    waivers : iterable of Waiver
        Of all subjects.
    today : date
        Day for which the standing holds.
    """
    own = [waiver for waiver in waivers if waiver.subject in names]
    rows = [_row(violation, own, today) for violation in violations]
    if not rows:
        standing = Standing.CLEAR
    elif all(row["is_waived"] for row in rows):
        standing = Standing.WAIVED
    else:
        standing = Standing.OPEN
    return {"standing": standing.value, "violations": rows}


def _row(violation: Violation, waivers: Sequence[Waiver], today: dt.date) -> dict[str, Any]:
    granted = [
        {
            "id": waiver.id,
            "reason": waiver.reason,
            "approver": waiver.approver,
            "role": waiver.role,
            "granted_on": waiver.granted_on.isoformat(),
            "expires_on": waiver.expires_on.isoformat(),
            "conditions": list(waiver.conditions),
            "is_in_force": not (why_not := waiver.why_not(violation, today)),
            "why_not": why_not or None,
        }
        for waiver in waivers
    ]
    return {
        "rule": violation.rule,
        "kind": violation.kind,
        "statement": violation.statement,
        "detail": violation.detail,
        "waivable_by": list(violation.waivable_by),
        "is_waived": any(waiver["is_in_force"] for waiver in granted),
        "waivers": granted,
    }
