"""The question: two surfaces, their joint, the place, the life, and which evidence counts."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from service.judgement import Function, Geometry
from service.web.schemas.exposures import EnvironmentField
from service.web.schemas.fields import LOOSE, BodySchema, Schema, described
from service.web.schemas.surfaces import MAX_TEXT, NOT_BLANK, SurfaceField

MAX_BANDS = 20
GRADES = "^[A-E]$"


Frequency = Annotated[float, Field(ge=1e-6, le=1e6)]
Band = Annotated[tuple[Frequency, Frequency], LOOSE]


def _distinct(functions: tuple[Function, ...]) -> tuple[Function, ...]:
    if len(set(functions)) < len(functions):
        reason = "repeated_item", "Name each function once"
        raise PydanticCustomError(*reason)
    return functions


Functions = Annotated[tuple[Annotated[Function, LOOSE], ...], LOOSE, AfterValidator(_distinct)]


class MatchLevel(StrEnum):
    """How loosely a text may be read: `strict` takes exact and normalised readings."""

    ANY = "any"
    STRICT = "strict"
    EXACT = "exact"


class View(StrEnum):
    """How much of the answer is sent; both views are the same answer."""

    FULL = "full"
    DECISION = "decision"


class ContactRequest(BodySchema):
    """Electrical duty of a joint."""

    current_A: float | None = described("Current through the joint.", 32.0, None, ge=0, le=1e6)
    force_N: float | None = described("Contact force.", 200.0, None, ge=1e-6, le=1e7)
    bond_limit_ohm: float | None = described("Largest resistance of a bond.", 0.0025, None, ge=1e-9, le=1e6)
    voltage_budget_V: float | None = described("Largest voltage drop.", 0.05, None, ge=1e-9, le=1e3)
    carriers_MHz: Annotated[tuple[Frequency, ...], LOOSE] = described(
        "Carriers at the joint.", [156.8, 162.0], (), max_length=MAX_BANDS
    )
    receive_bands_MHz: Annotated[tuple[Band, ...], LOOSE] = described(
        "Bands in which a receiver listens.", [[156.0, 163.0]], (), max_length=MAX_BANDS
    )


class JointFields(Schema):
    """What both ways of asking share besides the surfaces and the place."""

    first_area_cm2: float | None = described("Wetted area of the first surface.", 40.0, None, ge=1e-6, le=1e9)
    second_area_cm2: float | None = described(
        "Wetted area of the second surface.", 2.5, None, ge=1e-6, le=1e9
    )
    geometry: Annotated[Geometry, LOOSE] = described(
        "Shape of the wetted joint line.", "fastener", Geometry.STRIP
    )
    fastener_radius_mm: float | None = described(
        "Radius of a round second member.", 4.0, None, ge=0.01, le=10_000
    )
    bore_mm: float | None = described(
        "Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. "
        "Each pipe is as long as its wetted area makes it, one metre without areas.",
        None,
        None,
        ge=0.1,
        le=10_000,
    )
    functions: Functions = described(
        "What the joint is for.",
        ["structural"],
        (Function.STRUCTURAL,),
        min_length=1,
        max_length=len(Function),
        json_schema_extra={"uniqueItems": True},
    )
    design_life_years: float | None = described(
        "Life that the joint must reach; the policy's default if absent.", 15.0, None, ge=0.001, le=500
    )
    section_allowance_um: float | None = described(
        "Loss that the section can stand; by function if absent.", 500.0, None, ge=0.001, le=1e6
    )
    compound: str = described(
        "Compound in the joint, a key of `/v1/compounds`.", "sl-ps-inhib", "", max_length=200
    )
    joint_temperature_C: float | None = described("Temperature of the joint.", 40.0, None, ge=-80, le=1000)
    wear_cycles: float | None = described("Matings or strokes over the life.", 500.0, None, ge=0, le=1e12)
    is_isolated: bool = described(
        "Whether no current can pass between the parts.", example=False, default=False
    )
    match: Annotated[MatchLevel, LOOSE] = described(
        "How loosely texts may be read.", "strict", MatchLevel.ANY
    )
    min_grade: str | None = described(
        "Weakest grade of evidence that may decide, A to E.", "C", None, pattern=GRADES
    )
    view: Annotated[View, LOOSE] = described("How much of the answer is sent.", "full", View.FULL)
    would_change_if: bool = described(
        "Whether to look for the single input whose change turns the verdict.", example=False, default=False
    )
    as_of: str | None = described(
        "Label of the release to judge by; the current one if absent.", "2026.11.25-1", None, max_length=64
    )


class CoupleRequest(JointFields, BodySchema):
    """A couple as a JSON body."""

    first: SurfaceField = described("The first surface.", "EN AW-6082-T6")
    second: SurfaceField = described("The second surface.", "A4-80")
    environment: EnvironmentField = described("Where they will live.", "marine-atmosphere-0-100-m")
    contact: ContactRequest | None = described("Electrical duty of the joint.", {"current_A": 32.0}, None)


class CoupleQuery(JointFields):
    """A couple as query parameters: the surfaces by text, the environment by identifier."""

    first: str = described(
        "The first surface as drawing text.", "EN AW-6082-T6", pattern=NOT_BLANK, max_length=MAX_TEXT
    )
    second: str = described(
        "The second surface as drawing text.", "A4-80", pattern=NOT_BLANK, max_length=MAX_TEXT
    )
    environment: str = described(
        "Where they will live, a key of `/v1/environments`.",
        "marine-atmosphere-0-100-m",
        min_length=1,
        max_length=200,
    )
    current_A: float | None = described("Current through the joint.", 32.0, None, ge=0, le=1e6)
    force_N: float | None = described("Contact force.", 200.0, None, ge=1e-6, le=1e7)
    bond_limit_ohm: float | None = described("Largest resistance of a bond.", 0.0025, None, ge=1e-9, le=1e6)
    voltage_budget_V: float | None = described("Largest voltage drop.", 0.05, None, ge=1e-9, le=1e3)

    def to_request(self) -> CoupleRequest:
        """Write the same question as a body."""
        given = self.model_dump(exclude_unset=True)
        contact = {name: given.pop(name) for name in ContactRequest.model_fields if name in given}
        return CoupleRequest.model_validate({**given, "contact": contact or None})
