"""Wetted areas of a couple, with the defaults that hold where the caller states none."""

from __future__ import annotations

import math

from service.judgement.couples import Couple, Geometry

DEFAULT_AREA_M2 = 0.01
"""Wetted area of each side where the caller states none: 100 cm2, equal on both sides."""

DEFAULT_FASTENER_RADIUS_M = 0.006
"""Head radius of a fastener where the caller states none: about an M6 screw (common practice)."""

DEFAULT_BORE_M = 0.05
"""Inside diameter of a pipe where the caller states none: about a two-inch pipe (common practice)."""

DEFAULT_PIPE_LENGTH_M = 1.0
"""Length of each pipe where the caller states no area: beyond reach in most waters. House rule."""


def wetted_areas_m2(couple: Couple) -> tuple[float, float]:
    """Wetted areas of both sides; a side that is not stated equals the other or the default.

    Parameters
    ----------
    couple : Couple

    Returns
    -------
    tuple of float
        Area of the first and of the second side [m2].
    """
    default = default_area_m2(couple.geometry, couple.bore_m)
    first = couple.first_area_m2 or couple.second_area_m2 or default
    second = couple.second_area_m2 or couple.first_area_m2 or default
    if couple.geometry is Geometry.FASTENER and couple.second_area_m2 is None:
        second = math.pi * fastener_radius_m(couple) ** 2
    return first, second


def default_area_m2(geometry: Geometry, bore_m: float | None) -> float:
    """Wetted area of a side of which nothing is stated.

    Parameters
    ----------
    geometry : Geometry
    bore_m : float or None
        Inside diameter of a pipe [m].

    Returns
    -------
    float
        100 cm2, or one metre of pipe [m2].
    """
    if geometry is not Geometry.PIPE:
        return DEFAULT_AREA_M2
    return math.pi * (bore_m or DEFAULT_BORE_M) * DEFAULT_PIPE_LENGTH_M


def fastener_radius_m(couple: Couple) -> float:
    """Radius of the round second member of a fastener joint.

    Parameters
    ----------
    couple : Couple

    Returns
    -------
    float
        As stated, else from the area of the second side, else that of a small screw [m].
    """
    if couple.fastener_radius_m:
        return couple.fastener_radius_m
    if couple.second_area_m2:
        return math.sqrt(couple.second_area_m2 / math.pi)
    return DEFAULT_FASTENER_RADIUS_M
