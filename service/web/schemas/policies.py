"""House policy and waivers, as a caller sends them."""

from __future__ import annotations

import datetime as dt
from typing import Annotated

from pydantic import Field

from service.judgement import Function, Severity, Verdict
from service.web.schemas.fields import LOOSE, BodySchema, described, nested

MAX_RULES = 500
Word = Annotated[str, Field(min_length=1, max_length=200)]
Positive = Annotated[float, Field(ge=1e-6, le=1e6)]
Words = Annotated[tuple[Word, ...], LOOSE]
Verdicts = Annotated[tuple[Annotated[Verdict, LOOSE], ...], LOOSE]
ROLES = "Roles that may waive it; without any, nobody may."


class ScopeRequest(BodySchema):
    """To which joints a rule applies: all that is given must hold, each by any of its values."""

    functions: Annotated[tuple[Annotated[Function, LOOSE], ...], LOOSE] = described(
        "Functions of the joint.", ["protective earth"], (), max_length=len(Function)
    )
    environments: Words = described("Environments by identifier.", ["seawater-quiescent"], (), max_length=200)
    environment_tags: Words = described("Tags of the environment.", ["sea_salt"], (), max_length=50)
    exposures: Words = described("Exposures.", ["immersed"], (), max_length=10)
    families: Words = described(
        "Metals by family or electrode; two mean a joint between both.", ["copper", "zinc"], (), max_length=2
    )
    verdicts: Verdicts = described("Verdicts of the joint.", ["conditional"], (), max_length=len(Verdict))
    severities: Annotated[tuple[Annotated[Severity, LOOSE], ...], LOOSE] = described(
        "Severities of the joint.", ["moderate"], (), max_length=len(Severity)
    )


class LimitRequest(BodySchema):
    """What a joint may come out as."""

    id: str = described("Identifier of the rule.", "earths-stay-good", min_length=1, max_length=200)
    statement: str = described("The rule in words.", "Earths stay good.", min_length=1, max_length=2000)
    accepted_verdicts: Verdicts = described(
        "Verdicts that are accepted.", ["suitable"], (Verdict.SUITABLE, Verdict.CONDITIONAL), max_length=4
    )
    largest_severity: Annotated[Severity | None, LOOSE] = described(
        "Worst severity accepted.", "slight", None
    )
    largest_loss_um: float | None = described("Largest loss accepted.", 50.0, None, ge=0.001, le=1e6)
    accepted_confidences: Words = described("Confidences accepted.", ["high", "medium"], (), max_length=3)
    accepts_assumed_contacts: bool = described(
        "Whether an assumed contact is accepted.", example=True, default=True
    )
    scope: ScopeRequest | None = nested("Where it applies; everywhere if absent.", None)
    waivable_by: Words = described(ROLES, ["design authority"], (), max_length=50)


class BanRequest(BodySchema):
    """Finishes, substances, materials or metals that a part must not have."""

    id: str = described("Identifier of the rule.", "no-cadmium", min_length=1, max_length=200)
    statement: str = described(
        "The rule in words.", "No cadmium in new parts.", min_length=1, max_length=2000
    )
    finishes: Words = described("Finishes by identifier.", ["cd-clear"], (), max_length=200)
    substances: Words = described("Substances by symbol.", ["Cd", "CrVI"], (), max_length=50)
    materials: Words = described("Materials by identifier.", ["cu-be2"], (), max_length=200)
    families: Words = described("Metals by family or electrode.", ["cadmium"], (), max_length=50)
    environments: Words = described("Where it applies; everywhere if empty.", [], (), max_length=200)
    waivable_by: Words = described(ROLES, ["materials engineer"], (), max_length=50)


class RequirementRequest(BodySchema):
    """What a joint in the scope must have."""

    id: str = described("Identifier of the rule.", "paste-in-earths", min_length=1, max_length=200)
    statement: str = described("The rule in words.", "Joint paste in earths.", min_length=1, max_length=2000)
    compounds: Words = described("Any of these compounds.", ["jc-zinc"], (), max_length=50)
    accepts_isolation: bool = described(
        "Whether an isolated joint meets it as well.", example=False, default=False
    )
    scope: ScopeRequest | None = nested("Where it applies; everywhere if absent.", None)
    waivable_by: Words = described(ROLES, [], (), max_length=50)


class AcceptanceRequest(BodySchema):
    """How a substitution is decided from its reasons: the first code that is among them decides."""

    name: str = described("Name of the rules.", "house rule", "house rule", min_length=1, max_length=200)
    reject_on: Words = described("Reasons that reject.", ["becomes-unsuitable", "banned"], max_length=50)
    review_on: Words = described("Reasons that ask for review.", ["worse", "undetermined"], max_length=50)


class BandsRequest(BodySchema):
    """By which figures become words."""

    name: str = described("Name of the bands.", "house bands", "house bands", min_length=1, max_length=200)
    severity_bounds: Annotated[tuple[Positive, Positive, Positive] | None, LOOSE] = described(
        "Upper bounds of none, slight and moderate: 95 % loss over the life by allowance.",
        [0.1, 0.5, 2.0],
        None,
    )
    default_design_life_years: float | None = described(
        "Life where a joint states none.", 15.0, None, ge=0.001, le=500
    )
    section_allowances_um: dict[Annotated[Function, LOOSE], Positive] = described(
        "Loss that a joint of each function can stand, in µm.", {"seal": 80.0}, {}, max_length=len(Function)
    )
    limits_V: dict[str, Positive] = described(
        "Permissible difference by screening class, in V.", {"harsh": 0.1}, {}, max_length=10
    )


class PolicyRequest(BodySchema):
    """Rules of a house: they stand beside the verdicts and never change one."""

    name: str = described("Name of the policy.", "Port of Skerrivoe", min_length=1, max_length=200)
    version: str = described("The house's own version.", "3", "", max_length=200)
    bands: BandsRequest | None = nested("By which figures become words; the usual ones if absent.", None)
    limits: Annotated[tuple[LimitRequest, ...], LOOSE] = nested(
        "What joints may come out as.", (), max_length=MAX_RULES
    )
    bans: Annotated[tuple[BanRequest, ...], LOOSE] = nested(
        "What parts must not have.", (), max_length=MAX_RULES
    )
    preferred_finishes: Words = described("Finishes that the house prefers.", ["zn-hdg"], (), max_length=500)
    requirements: Annotated[tuple[RequirementRequest, ...], LOOSE] = nested(
        "What joints must have.", (), max_length=MAX_RULES
    )
    acceptance: AcceptanceRequest | None = nested(
        "How substitutions are decided; the default rules if absent.", None
    )


Day = Annotated[dt.date, LOOSE]


class WaiverRequest(BodySchema):
    """A named person accepts what policy refuses, with a reason and until a day."""

    id: str = described("Identifier of the waiver.", "W-17", min_length=1, max_length=200)
    subject: str = described("Joint or part that it is for.", "J04", min_length=1, max_length=200)
    reason: str = described(
        "Why it is accepted.", "Replaced at the next docking.", min_length=1, max_length=2000
    )
    approver: str = described("Who accepts it.", "A. Person", min_length=1, max_length=200)
    role: str = described(
        "In which role; the rule says who may.", "design authority", min_length=1, max_length=200
    )
    granted_on: Day = described("First day.", "2026-01-01")
    expires_on: Day = described("Last day.", "2026-12-31")
    rules: Words = described("Rules that are waived; all of them if empty.", ["accepted-verdicts"], ())
    conditions: Words = described("Under which conditions.", ["inspect yearly"], (), max_length=50)
    revoked_on: Annotated[dt.date | None, LOOSE] = described("Day on which it was revoked.", None, None)
