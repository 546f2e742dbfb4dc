"""Acceptance envelopes."""

from __future__ import annotations

from typing import Any

from service.judgement import Function, Verdict
from service.web.schemas import answers
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.remedy_parts import RemedyHeader, RemedyPlace, ShownSurface


class EnvelopeJoint(Schema):
    """The joint that an envelope holds for."""

    first: ShownSurface = nested("The first surface as it is.")
    second: ShownSurface = nested("The second surface as it is.")
    first_area_cm2: float | None = described("Wetted area of the first surface; null for the default.", 40.0)
    second_area_cm2: float | None = described("Wetted area of the second surface; null for the default.", 2.5)
    geometry: str = described("Shape of the wetted joint line.", "fastener")
    bore_mm: float | None = described("Inside diameter of the pipe, where one was stated.", None)
    functions: tuple[Function, ...] = described("What the joint is for.", ["structural"])
    design_life_years: float = described("Life that it has to reach.", 15.0)
    section_allowance_um: float = described("Loss that a section can stand.", 500.0)
    compound: str | None = described("Compound in the joint.", None)
    joint_temperature_C: float | None = described("Temperature of the joint.", None)
    wear_cycles: float | None = described("Matings or strokes over the life.", None)
    is_isolated: bool = described("Whether no current can pass.", example=False)


class EnvelopeCoat(Schema):
    """One coat of a member with the range of its thickness."""

    finish_id: str = described("Identifier of the finish.", "zn-passivated-clear")
    thickness_min_um: float | None = described("Least thickness; null where none is counted.", 8.0)
    thickness_max_um: float | None = described("Most thickness; null for no limit.", 25.0)


class EnvelopeMember(Schema):
    """A stack of coats that is accepted on one side."""

    side: str = described("`first` or `second`.", "second")
    material_id: str | None = described("Material beneath.", "steel-s235")
    name: str = described("Name for people.", "Zinc plate, clear or blue trivalent passivation")
    layers: tuple[EnvelopeCoat, ...] = nested("Coats from the outside in; none for bare metal.")
    verdict: Verdict = described("Worst verdict within the ranges.", "conditional")
    conditions: tuple[answers.Condition, ...] = nested("What must be done for the verdict to hold.")


class EnvelopeAnswer(RemedyHeader):
    """Every finish and thickness that keeps a joint at or above a verdict: a rule to be checked off line."""

    kind: str = described("What this document is.", "acceptance-envelope")
    format: int = described("Version of the format.", 1)
    policy_digest: str = described("SHA-256 of the policy.", "5b" * 32)
    accept: Verdict = described("The verdict that is kept.", "conditional")
    holds: str = described("What the rule takes for granted.", "One side is changed at a time.")
    environment: RemedyPlace = nested("Where the joint lives.")
    joint: EnvelopeJoint = nested("The joint that it holds for.")
    members: tuple[EnvelopeMember, ...] = nested("Everything that is accepted.")
    couples_judged: int = described("Couples that were judged to prove it.", 585)
    digest: str = described(
        "SHA-256 of the rule as canonical JSON, without digest, schema and warnings.", "5b" * 32
    )
    json_schema: dict[str, Any] = described(
        "The same rule as a JSON Schema of a surface with its side.", {"type": "object"}
    )
    warnings: tuple[answers.Warning, ...] = nested("What is doubtful in the question.")
