"""From a joint to the questions that are judged: every place it lives in, both ends of an unknown area.

Area prior. Where an area is not stated, a joint is judged at both ends of what it may be: between two
parts one area is a tenth or ten times the other; a part that a fastener clamps has ten to a thousand
times the area of the head. Two unknown areas have a geometric mean of 100 cm2, or one metre of a pipe; a head
follows from its thread. Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from service.assemblies.assembly import Assembly
from service.assemblies.hardware import head_radius_m
from service.assemblies.joints import Joint
from service.judgement import Geometry, Inquiry
from service.judgement.areas import DEFAULT_FASTENER_RADIUS_M, default_area_m2

PART_RATIOS = (0.1, 10.0)
"""Ends of the area of the first part over that of the second."""

FASTENER_RATIOS = (10.0, 1000.0)
"""Ends of the area of a clamped part over that of the fastener's head."""

AS_STATED = ""
SMALL_FIRST = "first side small"
LARGE_FIRST = "first side large"


@dataclass(frozen=True, slots=True)
class Case:
    """One question about a joint. ``end`` tells which end of the area prior it stands for, if any."""

    end: str
    inquiry: Inquiry


def cases_of(joint: Joint, assembly: Assembly) -> tuple[Case, ...]:
    """Questions about a joint, empty where no place is known.

    Parameters
    ----------
    joint : Joint
        Its parts name surfaces.
    assembly : Assembly
        Gives parts, zones and programme.
    """
    return tuple(
        Case(end, _inquiry(joint, assembly, place, first, second))
        for place in assembly.places_of(joint)
        for end, first, second in _areas(joint, assembly)
    )


def _areas(joint: Joint, assembly: Assembly) -> Iterator[tuple[str, float | None, float | None]]:
    """Areas of both sides in square metres, at each end of the prior where one is not known."""
    first = joint.first_area_m2 or assembly.parts[joint.first].wetted_area_m2
    second = joint.second_area_m2 or assembly.parts[joint.second].wetted_area_m2
    if joint.geometry is Geometry.FASTENER and second is None:
        radius = _radius(joint, assembly) or DEFAULT_FASTENER_RADIUS_M
        second = math.pi * radius**2
    if first and second:
        yield AS_STATED, first, second
        return
    middle = default_area_m2(joint.geometry, joint.bore_m)
    ratios = FASTENER_RATIOS if joint.geometry is Geometry.FASTENER else PART_RATIOS
    for end, ratio in zip((SMALL_FIRST, LARGE_FIRST), ratios, strict=True):
        if second:
            yield end, _rounded(second * ratio), second
        elif first:
            yield end, first, _rounded(first / ratio)
        else:
            root = math.sqrt(ratio)
            yield end, _rounded(middle * root), _rounded(middle / root)


def _rounded(area_m2: float) -> float:
    return float(f"{area_m2:.3g}")


def _radius(joint: Joint, assembly: Assembly) -> float | None:
    """Radius of the head of the second part, stated or by its thread."""
    return joint.fastener_radius_m or head_radius_m(assembly.parts[joint.second].words)


def _inquiry(
    joint: Joint, assembly: Assembly, place: object, first_area: float | None, second_area: float | None
) -> Inquiry:
    first, second = assembly.parts[joint.first], assembly.parts[joint.second]
    return Inquiry(
        first=first.side,
        second=second.side,
        environment=place,  # type: ignore[arg-type]  # an identifier or a record, as the inquiry takes it
        first_area_m2=first_area,
        second_area_m2=second_area,
        geometry=joint.geometry,
        fastener_radius_m=joint.fastener_radius_m,
        bore_m=joint.bore_m,
        functions=joint.functions,
        design_life_years=joint.design_life_years or assembly.programme.design_life_years,
        section_allowance_um=joint.section_allowance_um,
        compound_id=joint.compound,
        joint_temperature_C=joint.joint_temperature_C,
        wear_cycles=joint.wear_cycles,
        is_isolated=joint.is_isolated or first.is_isolated or second.is_isolated,
        contact=joint.contact,
    )
