"""Measures that offer another metal to be eaten: anodes, a spool, a washer; each is renewed on schedule."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function, Geometry
from service.judgement.areas import wetted_areas_m2
from service.judgement.findings import Condition
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation

ANODE_MATERIAL = "zn-pure"
"""Metal of sacrificial anodes here: zinc, which does not overprotect aluminium or steel (common practice)."""

ANODE_AREA_SHARE = 0.1
ANODE_STOCK_UM = 10_000.0
"""Area of an anode as a share of what it protects, and its thickness, 10 mm. Common practice, no source."""

RENEW_ANODE = Condition(
    "renew-anode",
    "Renew the sacrificial part before it is used up; have the protection designed by a qualified engineer.",
    "maintainer",
    "potential of the protected parts and mass of the anode at the stated intervals",
)

REPLACE_ON_SCHEDULE = Condition(
    "replace-on-schedule",
    "Replace the eaten part on schedule, before its allowance is used up.",
    "maintainer",
    "thickness measured at the stated intervals",
)


def sacrifice(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Let a piece be eaten in place of the joint.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``role`` washer (with ``material``) or spool, ``interval_years`` between renewals [years].
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    if parameters.get("role") != "washer":
        return [_over_interval(arrangement, parameters).needing(REPLACE_ON_SCHEDULE)]
    if Function.STRUCTURAL in arrangement.couples[0].functions:
        raise NotPossibleError(
            Obstacle.ENDS_FUNCTION, "A washer that is eaten lets the preload of a structural joint go."
        )
    return [_guarded(arrangement, str(parameters["material"]), parameters, (situation.anode,))]


def cathodic_protection(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Connect sacrificial anodes, and judge both sides against them.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``impressed`` for a rectifier, which is outside the model; ``interval_years`` [years].
    situation : Situation

    Returns
    -------
    sequence of Arrangement

    Raises
    ------
    NotPossibleError
        For an impressed current: no verdict can be computed for a bias.
    """
    del situation
    if parameters.get("impressed"):
        raise NotPossibleError(
            Obstacle.OUTSIDE_MODEL,
            "An impressed current is outside the model; a qualified engineer has to design it.",
        )
    return [_guarded(arrangement, ANODE_MATERIAL, parameters, ("first", "second"))]


def replaceable_part(arrangement: Arrangement, interval_years: float) -> Arrangement:
    """The joint judged over the interval after which its eaten part is replaced."""
    return _over_interval(arrangement, {"interval_years": interval_years}).needing(REPLACE_ON_SCHEDULE)


def _over_interval(arrangement: Arrangement, parameters: Mapping[str, Any]) -> Arrangement:
    return arrangement.on_each(design_life_years=float(parameters["interval_years"]))


def _guarded(
    arrangement: Arrangement, material_id: str, parameters: Mapping[str, Any], sides: Sequence[str]
) -> Arrangement:
    """Each side against the metal that is meant to be eaten, over the interval of its renewal."""
    joint = arrangement.couples[0]
    areas = dict(zip(("first", "second"), wetted_areas_m2(joint), strict=True))
    couples = tuple(
        replace(
            joint,
            first=arrangement.surface(side),
            second=Surface(material_id),
            first_area_m2=areas[side],
            second_area_m2=areas[side] * ANODE_AREA_SHARE,
            geometry=_shape(joint),
            fastener_radius_m=None,
            section_allowance_um=ANODE_STOCK_UM,
            design_life_years=float(parameters["interval_years"]),
        )
        for side in sides
    )
    return replace(arrangement, couples=couples, is_sacrificial=True).needing(RENEW_ANODE)


def _shape(joint: Couple) -> Geometry:
    return Geometry.STRIP if joint.geometry is Geometry.FASTENER else joint.geometry
