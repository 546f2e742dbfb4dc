"""Where an assembly stands against the policy of a house on a day."""

from __future__ import annotations

from service.judgement import Verdict
from service.web.schemas.fields import Schema, described, nested

SHA = "5b" * 32


class WaiverRecord(Schema):
    """A waiver, and whether it covers the violation today."""

    id: str = described("Identifier.", "W-17")
    reason: str = described("Why it was accepted.", "Replaced at the next docking.")
    approver: str = described("Who accepted it.", "A. Person")
    role: str = described("In which role.", "design authority")
    granted_on: str = described("First day.", "2026-01-01")
    expires_on: str = described("Last day.", "2026-12-31")
    conditions: tuple[str, ...] = described("Under which conditions.", ["inspect yearly"])
    is_in_force: bool = described("Whether it covers the violation.", example=True)
    why_not: str | None = described("Why it does not.", None)


class ViolationRecord(Schema):
    """A rule that is broken."""

    rule: str = described("Identifier of the rule.", "accepted-verdicts")
    kind: str = described("`limit`, `ban`, `requirement` or `code`.", "limit")
    statement: str = described("The rule in words.", "Joints are suitable or conditional.")
    detail: str = described("What breaks it.", "the verdict is unsuitable")
    waivable_by: tuple[str, ...] = described("Roles that may waive it.", ["design authority"])
    is_waived: bool = described("Whether a waiver covers it.", example=True)
    waivers: tuple[WaiverRecord, ...] = nested("Waivers for this joint or part.")


class JointStanding(Schema):
    """Where a joint stands; the verdict is what it was."""

    joint: str = described("Identifier of the joint.", "J04")
    verdict: Verdict = described("Its verdict.", "unsuitable")
    standing: str = described("`clear`, `waived` or `open`.", "waived")
    violations: tuple[ViolationRecord, ...] = nested("Rules that it breaks.")


class PartStanding(Schema):
    """Where a part stands."""

    part: str = described("The part.", "SK-1112")
    has_preferred_finish: bool | None = described(
        "Whether its finish is a preferred one; null if bare.", example=None
    )
    standing: str = described("`clear`, `waived` or `open`.", "clear")
    violations: tuple[ViolationRecord, ...] = nested("Rules that it breaks.")


class PolicyVersion(Schema):
    """The policy that was applied."""

    name: str = described("Name of the policy.", "Port of Skerrivoe")
    version: str = described("The house's own version.", "3")
    sha256: str = described("Hash of its content.", SHA)


class PolicyStanding(Schema):
    """A report beside the policy of a house on a day."""

    report_sha256: str = described("Hash of the report.", SHA)
    policy: PolicyVersion = nested("The policy that was applied.")
    date: str = described("The day.", "2026-11-25")
    totals: dict[str, int] = described("Joints and parts by standing.", {"clear": 20, "waived": 1, "open": 3})
    joints: tuple[JointStanding, ...] = nested("Joints in the order of the report.")
    parts: tuple[PartStanding, ...] = nested("Parts with a preferred finish or a broken rule.")
