"""Company policy as data: what a house limits, bans, prefers and requires, and who may waive it.

Policy comes on top of the verdicts and never changes one. Its bands, which turn losses into words,
are a policy of the judgement room and travel inside.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from service.assemblies.outcomes import canonical_sha256
from service.judgement import DEFAULT_POLICY, Function, Policy, Severity, Verdict


@dataclass(frozen=True, slots=True)
class Scope:
    """To which joints a rule applies: all conditions that are given must hold, each by any of its values.

    ``families`` name the metals that the electrolyte sees, by family or by electrode; two of them mean a
    joint between both.
    """

    functions: tuple[Function, ...] = ()
    environments: tuple[str, ...] = ()
    environment_tags: tuple[str, ...] = ()
    exposures: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    severities: tuple[Severity, ...] = ()


EVERYWHERE = Scope()


@dataclass(frozen=True, slots=True)
class Limit:
    """What a joint may come out as. ``waivable_by`` are roles; without any, nobody may waive it."""

    id: str
    statement: str
    accepted_verdicts: tuple[Verdict, ...] = (Verdict.SUITABLE, Verdict.CONDITIONAL)
    largest_severity: Severity | None = None
    largest_loss_um: float | None = None
    accepted_confidences: tuple[str, ...] = ()
    accepts_assumed_contacts: bool = True
    scope: Scope = EVERYWHERE
    waivable_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Ban:
    """Finishes, substances, materials or metals (by family or electrode) that a part must not have."""

    id: str
    statement: str
    finishes: tuple[str, ...] = ()
    substances: tuple[str, ...] = ()
    materials: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    environments: tuple[str, ...] = ()
    waivable_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Requirement:
    """What a joint in the scope must have: one of the compounds, or isolation where that is accepted."""

    id: str
    statement: str
    compounds: tuple[str, ...] = ()
    accepts_isolation: bool = False
    scope: Scope = EVERYWHERE
    waivable_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AcceptanceRules:
    """How a substitution is decided from what it changes; the first rule that applies decides.

    ``reject_on`` and ``review_on`` hold reasons of ``substitution_rules``. What neither holds is accepted.
    """

    name: str = "house rule"
    reject_on: tuple[str, ...] = ("becomes-unsuitable", "banned", "limit-violated")
    review_on: tuple[str, ...] = (
        "undetermined",
        "worse",
        "polarity-changed",
        "new-hazard",
        "new-condition",
        "read-loosely",
        "assumed-contacts",
        "requirement-violated",
        "no-joints",
    )


@dataclass(frozen=True, slots=True)
class HousePolicy:
    """All rules of a house. ``version`` is the house's own."""

    name: str = "none"
    version: str = ""
    bands: Policy = DEFAULT_POLICY
    limits: tuple[Limit, ...] = ()
    bans: tuple[Ban, ...] = ()
    preferred_finishes: tuple[str, ...] = ()
    requirements: tuple[Requirement, ...] = ()
    acceptance: AcceptanceRules = field(default_factory=AcceptanceRules)

    def document(self) -> dict[str, object]:
        """The policy as plain JSON values."""
        from service.assemblies.policy_documents import document_of_policy

        return document_of_policy(self)

    @property
    def sha256(self) -> str:
        """Hash of the policy's content."""
        return canonical_sha256(self.document())


DEFAULT_HOUSE_POLICY = HousePolicy(
    name="default",
    version="1",
    limits=(
        Limit(
            id="accepted-verdicts",
            statement="Joints are suitable, or conditional with their conditions met.",
            waivable_by=("design authority",),
        ),
    ),
)
"""What holds where a house states no policy of its own: a rule of this project without a source."""
