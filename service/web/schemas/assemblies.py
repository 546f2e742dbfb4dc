"""Assemblies and substitutes, as a caller sends them."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated, Self

from pydantic import BeforeValidator, ConfigDict, model_validator

from service.judgement import Function, Geometry
from service.web.schemas.couples import ContactRequest, Functions
from service.web.schemas.exposures import EnvironmentField
from service.web.schemas.fields import LOOSE, BodySchema, Schema, described, nested
from service.web.schemas.groups import check_one_group, one_group_of
from service.web.schemas.policies import PolicyRequest, WaiverRequest
from service.web.schemas.surfaces import PlainText, SurfaceField

MAX_PARTS = 50_000
MAX_JOINTS = 10_000
MAX_FILES = 10
MAX_SUBSTITUTES = 100
MAX_NAME = 200
POLICY_NAME = "[A-Za-z0-9][A-Za-z0-9._-]{0,99}"
POLICY_REFERENCE = f"^{POLICY_NAME}(@[1-9][0-9]{{0,8}})?$"
"""A stored policy in the version that is in force, or in a version that stays."""


class ReportFormat(StrEnum):
    """How a report is written."""

    JSON = "json"
    CSV = "csv"
    XLSX = "xlsx"


class CheckQuery(Schema):
    """How the report is written, and what holds where the body says nothing: for uploaded files."""

    format: ReportFormat = described("How the report is written.", "json", ReportFormat.JSON)
    environment: str = described(
        "Where everything lives that says nothing, a key of `/v1/environments`.",
        "marine-atmosphere-0-100-m",
        "",
        max_length=MAX_NAME,
    )
    design_life_years: float | None = described(
        "Life of joints that say nothing.", 15.0, None, ge=0.001, le=500
    )
    as_of: str | None = described(
        "Label of the release to judge by; the current one if absent.", "2026.11.25-1", None, max_length=64
    )
    stored_policy: str | None = described(
        "A key of `/v1/policies` that decides where the body states no policy.",
        None,
        None,
        pattern=POLICY_REFERENCE,
    )


class TemplateQuery(Schema):
    """Which template, and how it is written."""

    table: str = described("`parts` or `joints`.", "parts", "parts", pattern="^(parts|joints)$")
    format: ReportFormat = described(
        "CSV of one table, a workbook of both, or JSON that explains every column.", "csv", ReportFormat.CSV
    )


class PartRequest(BodySchema):
    """One part at one place of the tree."""

    part_number: str = described("Number of the part.", "SK-1112", min_length=1, max_length=MAX_NAME)
    id: str = described(
        "What joints call it; the part number if absent.", "SK-1112 left", "", max_length=MAX_NAME
    )
    description: str = described(
        "Name of the part; the surface is read from it where none is named.",
        "Bolt M16x60",
        "",
        max_length=2000,
    )
    revision: str = described("Revision.", "A", "", max_length=MAX_NAME)
    effectivity: str = described(
        "Units or dates for which it is built in.", "SN 101-120", "", max_length=MAX_NAME
    )
    parent: str = described("What the part above is called.", "SK-1100", "", max_length=MAX_NAME)
    quantity: float | None = described("Pieces.", 8.0, None, ge=1e-6, le=1e9)
    surface: SurfaceField | None = described("Its surface: text, notes or structure.", "A4-80", None)
    wetted_area_cm2: float | None = described("Wetted area of one piece.", 38.0, None, ge=1e-6, le=1e9)
    net: str = described("Electrical net or bond.", "PE", "", max_length=MAX_NAME)
    is_isolated: bool = described(
        "Whether it is mounted without an electronic path.", example=False, default=False
    )
    zone: str = described(
        "Where it lives: a zone, or a key of `/v1/environments`.", "deck", "", max_length=MAX_NAME
    )
    note: str = described("Remarks.", "with thread locker", "", max_length=2000)


class JointRequest(BodySchema):
    """Two parts that touch."""

    id: str = described("Identifier.", "J02", min_length=1, max_length=MAX_NAME)
    first: str = described("What one part is called.", "SK-1111", min_length=1, max_length=MAX_NAME)
    second: str = described(
        "What the other is called; of a fastener joint the fastener.",
        "SK-1112",
        min_length=1,
        max_length=MAX_NAME,
    )
    name: str = described("What the joint is called.", "Bracket bolts", "", max_length=2000)
    zone: str = described(
        "Where it lives; the zones of both parts if absent.", "deck", "", max_length=MAX_NAME
    )
    functions: Functions = described(
        "What the joint is for.",
        ["structural"],
        (Function.STRUCTURAL,),
        min_length=1,
        max_length=len(Function),
        json_schema_extra={"uniqueItems": True},
    )
    geometry: Annotated[Geometry, LOOSE] = described(
        "Shape of the wetted joint line.", "fastener", Geometry.STRIP
    )
    first_area_cm2: float | None = described("Wetted area of the first side.", 1450.0, None, ge=1e-6, le=1e9)
    second_area_cm2: float | None = described("Wetted area of the second side.", 38.0, None, ge=1e-6, le=1e9)
    fastener_radius_mm: float | None = described(
        "Radius of a round second member.", 12.0, None, ge=0.01, le=10_000
    )
    bore_mm: float | None = described(
        "Inside diameter of both pipes, of the geometry `pipe` only.", None, None, ge=0.1, le=10_000
    )
    contact: ContactRequest | None = described("Electrical duty.", {"current_A": 25.0}, None)
    design_life_years: float | None = described("Life that it must reach.", 20.0, None, ge=0.001, le=500)
    section_allowance_um: float | None = described(
        "Loss that the section can stand.", 500.0, None, ge=0.001, le=1e6
    )
    compound: str = described("Compound, a key of `/v1/compounds`.", "", "", max_length=MAX_NAME)
    joint_temperature_C: float | None = described("Temperature of the joint.", 40.0, None, ge=-80, le=1000)
    wear_cycles: float | None = described("Matings or strokes over the life.", 500.0, None, ge=0, le=1e12)
    is_isolated: bool = described("Whether no current can pass.", example=False, default=False)


class ProgrammeRequest(BodySchema):
    """What holds for all of an assembly."""

    name: str = described("Name of the programme.", "Tide gauge 2026", "", max_length=MAX_NAME)
    release: str = described(
        "Release that the programme is pinned to; no other one judges it.", "2026.11.25-1", "", max_length=64
    )
    environment: EnvironmentField | None = described(
        "Where everything lives that says nothing.", "marine-atmosphere-0-100-m", None
    )
    design_life_years: float | None = described(
        "Life of joints that say nothing.", 15.0, None, ge=0.001, le=500
    )
    effective_at: str = described(
        "Unit or date whose parts are judged; all if absent.", "SN 110", "", max_length=MAX_NAME
    )


class FileRequest(BodySchema):
    """A file in the body: CSV, XLSX, JSON or NDJSON, told by its content."""

    name: str = described("Name, for messages.", "parts.csv", min_length=1, max_length=MAX_NAME)
    content: str = described(
        "Content in base64.", "cGFydCxtYXRlcmlhbApBLFMzNTUKQixBNC04MAo=", pattern=r"^[A-Za-z0-9+/\s]*=*\s*$"
    )


WAYS = (("parts",), ("files",))
"""Ways to give an assembly: a request uses exactly one."""


class AssemblyFields(BodySchema):
    """An assembly: `parts`, or `files` that hold them, with the joints between them.

    Without joints contacts are assumed by stated rules, and marked as assumed.
    """

    model_config = ConfigDict(json_schema_extra=one_group_of(WAYS))

    name: str = described("Name of the assembly.", "Skerrivoe tide gauge", "", max_length=MAX_NAME)
    programme: ProgrammeRequest | None = described(
        "What holds for all of it.", {"environment": "marine-atmosphere-0-100-m"}, None
    )
    zones: dict[str, EnvironmentField] = described(
        "Environments by the name of the zone.", {"deck": "harbour-quay-spray"}, {}, max_length=1000
    )
    parts: Annotated[tuple[PartRequest, ...], LOOSE] = described(
        "Parts of the assembly.",
        [
            {"part_number": "SK-1111", "surface": "S355J2+N, HDG ISO 1461", "zone": "deck"},
            {"part_number": "SK-1112", "surface": "A4-80", "zone": "deck"},
        ],
        (),
        min_length=1,
        max_length=MAX_PARTS,
    )
    joints: Annotated[tuple[JointRequest, ...], LOOSE] = described(
        "Joints between them, beside those of files.",
        [{"id": "J02", "first": "SK-1111", "second": "SK-1112", "geometry": "fastener"}],
        (),
        max_length=MAX_JOINTS,
    )
    files: Annotated[tuple[FileRequest, ...], LOOSE] = nested(
        "Files that hold parts, joints or both.", (), min_length=1, max_length=MAX_FILES
    )
    policy: PolicyRequest | None = described(
        "Rules of the house; the default ones if absent.", {"name": "Port of Skerrivoe"}, None
    )
    stored_policy: str | None = described(
        "Instead of `policy`: a key of `/v1/policies`, in the version in force, or as `name@version`.",
        None,
        None,
        pattern=POLICY_REFERENCE,
    )
    as_of: str | None = described(
        "Label of the release to judge by; the programme's or the current one if absent.",
        "2026.11.25-1",
        None,
        max_length=64,
    )

    @model_validator(mode="after")
    def _given_in_one_way(self) -> Self:
        check_one_group(self, WAYS)
        return self


class AssemblyRequest(AssemblyFields):
    """An assembly that is to be checked."""

    waivers: Annotated[tuple[WaiverRequest, ...], LOOSE] = nested(
        "Waivers that were granted.", (), max_length=10_000
    )
    date: Annotated[dt.date | None, LOOSE] = described(
        "Day on which waivers are looked at; today if absent.", "2026-11-25", None
    )


class SubstituteRequest(BodySchema):
    """One offered substitute; what it leaves open is as before."""

    ref: str = described(
        "The caller's own mark, given back unchanged.", "offer 1", min_length=1, max_length=MAX_NAME
    )
    part_number: str = described("Its number.", "SK-2112", "", max_length=MAX_NAME)
    description: str = described("Its name.", "Bolt M16x60", "", max_length=2000)
    surface: SurfaceField | None = described("Its surface: text, notes or structure.", "8.8 tZn", None)
    wetted_area_cm2: float | None = described("Wetted area of one piece.", 38.0, None, ge=1e-6, le=1e9)


def _from_text(value: object) -> object:
    return {"ref": value[:MAX_NAME], "surface": value} if isinstance(value, str) and value else value


SubstituteField = Annotated[
    SubstituteRequest, BeforeValidator(_from_text, json_schema_input_type=PlainText | SubstituteRequest)
]
"""A substitute in a request: plain text stands for one whose surface it is."""


class SubstitutionRequest(AssemblyFields):
    """A part of an assembly, and what is offered in its place."""

    part: str = described(
        "Part that is to be replaced, by what joints call it or by its number.",
        "SK-1112",
        min_length=1,
        max_length=MAX_NAME,
    )
    substitutes: Annotated[tuple[SubstituteField, ...], LOOSE] = described(
        "What is offered.",
        [{"ref": "offer 1", "surface": "8.8 tZn"}],
        min_length=1,
        max_length=MAX_SUBSTITUTES,
    )
