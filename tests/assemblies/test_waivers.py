from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from service.assemblies.policy_checks import Violation
from service.assemblies.waivers import Waiver, standing_of

TODAY = dt.date(2026, 11, 25)
VIOLATION = Violation("L1", "limit", "Stay good.", "the verdict is unsuitable", ("design authority",))
WAIVER = Waiver(
    "W1",
    "J04",
    "Renewed at the next docking.",
    "A. Person",
    "design authority",
    dt.date(2026, 1, 1),
    dt.date(2026, 12, 31),
    conditions=("inspect yearly",),
)


def test_a_waiver_in_force_covers_the_rule() -> None:
    assert WAIVER.why_not(VIOLATION, TODAY) == ""
    assert replace(WAIVER, rules=("L1",)).why_not(VIOLATION, TODAY) == ""


@pytest.mark.parametrize(
    ("waiver", "violation", "reason"),
    [
        (replace(WAIVER, rules=("L2",)), VIOLATION, "names other rules"),
        (WAIVER, replace(VIOLATION, waivable_by=()), "nobody may waive"),
        (replace(WAIVER, role="buyer"), VIOLATION, "buyer may not waive"),
        (replace(WAIVER, reason=" "), VIOLATION, "lacks a reason"),
        (replace(WAIVER, approver=""), VIOLATION, "lacks a reason or an approver"),
        (replace(WAIVER, granted_on=dt.date(2026, 11, 26)), VIOLATION, "begins on 2026-11-26"),
        (replace(WAIVER, expires_on=dt.date(2026, 11, 24)), VIOLATION, "expired on 2026-11-24"),
        (replace(WAIVER, revoked_on=TODAY), VIOLATION, "revoked on 2026-11-25"),
    ],
)
def test_a_waiver_that_does_not_hold_says_why(waiver: Waiver, violation: Violation, reason: str) -> None:
    assert reason in waiver.why_not(violation, TODAY)


def test_a_waiver_holds_to_the_end_of_its_day() -> None:
    assert replace(WAIVER, expires_on=TODAY, granted_on=TODAY).why_not(VIOLATION, TODAY) == ""
    assert replace(WAIVER, revoked_on=dt.date(2026, 11, 26)).why_not(VIOLATION, TODAY) == ""


def test_standing_is_clear_waived_or_open() -> None:
    other = replace(VIOLATION, rule="L2", waivable_by=())
    assert standing_of(["J04"], [], [WAIVER], TODAY)["standing"] == "clear"
    assert standing_of(["J04"], [VIOLATION], [WAIVER], TODAY)["standing"] == "waived"
    assert standing_of(["J04"], [VIOLATION, other], [WAIVER], TODAY)["standing"] == "open"
    assert standing_of(["J05"], [VIOLATION], [WAIVER], TODAY)["standing"] == "open"


def test_a_waiver_is_recorded_with_reason_approver_and_expiry() -> None:
    (row,) = standing_of(["P", "J04"], [VIOLATION], [replace(WAIVER, role="buyer"), WAIVER], TODAY)[
        "violations"
    ]
    assert row["is_waived"]
    refused, held = row["waivers"]
    assert (refused["is_in_force"], refused["why_not"]) == (False, "buyer may not waive this rule")
    assert (held["reason"], held["approver"], held["expires_on"], held["why_not"]) == (
        "Renewed at the next docking.",
        "A. Person",
        "2026-12-31",
        None,
    )
    assert held["conditions"] == ["inspect yearly"]
