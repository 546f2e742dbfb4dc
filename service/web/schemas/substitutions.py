"""What substitutes change, joint by joint."""

from __future__ import annotations

from service.judgement import Verdict
from service.web.schemas.assembly_reports import FilesReading
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity

SHA = "5b" * 32


class SubstitutionReason(Schema):
    """Why a change is what it is."""

    code: str = described("Stable word for the reason.", "becomes-unsuitable")
    detail: str = described("The reason in words.", "conditional before, unsuitable now")
    joint: str | None = described("Joint that it is about; null for the whole.", "J10")


class JointState(Schema):
    """A joint before or after."""

    verdict: Verdict = described("Verdict.", "conditional")
    severity: str = described("Severity, or `unknown`.", "moderate")
    anode: str | None = described("Which side is eaten.", "first")
    why: str = described("One line for a buyer.", "The zinc is spent beside the stainless bolt.")
    conditions: tuple[str, ...] = described("Codes of what must be done.", ["seal-joint"])
    question: str | None = described("The question whose reply would decide.", None)
    answers_sha256: tuple[str, ...] = described("Hashes of the whole answers.", [SHA])


class JointComparison(Schema):
    """One joint before and after."""

    joint: str = described("Identifier of the joint.", "J10")
    first: str = described("One part.", "SK-1211")
    second: str = described("The other part.", "SK-1212")
    is_assumed: bool = described("Whether a rule assumed the contact.", example=False)
    change: str = described("`better`, `same`, `worse` or `undetermined`.", "worse")
    reasons: tuple[SubstitutionReason, ...] = nested("Why.")
    before: JointState = nested("As it is.")
    after: JointState = nested("With the substitute.")


class SubstituteOutcome(Schema):
    """What one substitute changes."""

    ref: str = described("The caller's own mark.", "offer 1")
    decision: str = described("`accept`, `review` or `reject`.", "reject")
    decided_by: SubstitutionReason | None = nested(
        "Reason that decided; null where nothing speaks against it."
    )
    change: str = described("Worst change of any joint.", "worse")
    surface: str | None = described("Its surface as it was read.", "Stainless steel 316")
    match: str | None = described("How its text was read.", "normalised")
    question: str | None = described("The question whose reply would settle its text.", None)
    totals: dict[str, int] = described(
        "Joints by change.", {"better": 0, "same": 1, "undetermined": 0, "worse": 2}
    )
    reasons: tuple[SubstitutionReason, ...] = nested("All reasons.")
    joints: tuple[JointComparison, ...] = nested("Joints of the part, what is worse first.")


class AcceptanceRecord(Schema):
    """The rules that decided."""

    name: str = described("Name of the rules.", "house rule")
    reject_on: tuple[str, ...] = described("Reasons that reject, in their order.", ["becomes-unsuitable"])
    review_on: tuple[str, ...] = described("Reasons that ask for review, in their order.", ["worse"])


class DecidingPolicy(Schema):
    """The policy that decided."""

    name: str = described("Name of the policy.", "default")
    version: str = described("The house's own version.", "1")
    sha256: str = described("Hash of its content.", SHA)
    acceptance: AcceptanceRecord = nested("The rules that decided.")


class SubstitutionComparison(Schema):
    """What each substitute changes, and what is decided on it."""

    release: ReleaseIdentity = described("Release that both were judged by.", RELEASE_EXAMPLE)
    engine: str = described("Version of the engine that judged.", "1.0.0")
    policy: DecidingPolicy = nested("Policy that decided.")
    part: str = described("Part that is to be replaced.", "SK-1212")
    report_sha256: str = described("Hash of the report on the assembly as it is.", SHA)
    substitutes: tuple[SubstituteOutcome, ...] = nested("Substitutes in the order of the request.")
    sha256: str = described("Hash of the canonical JSON of all other members.", SHA)


class SubstitutionCheck(Schema):
    """The comparison, and how files were read."""

    comparison: SubstitutionComparison = nested("The comparison.")
    reading: FilesReading | None = nested("How files were read; null without files.")
    stored_policy: str | None = described(
        "Version of the stored policy that decided, as `name@version`; null if none was named.",
        "port-of-skerrivoe@3",
    )
