"""Wetted areas of a couple, with the defaults that hold where the caller states none."""

from __future__ import annotations

import math

from service.judgement.couples import Couple, Geometry

DEFAULT_AREA_M2 = 0.01
"""Wetted area of each side where the caller states none: 100 cm2, equal on both sides."""

DEFAULT_FASTENER_RADIUS_M = 0.006
"""Head radius of a fastener where the caller states none: about an M6 screw (common practice)."""


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
    first = couple.first_area_m2 or couple.second_area_m2 or DEFAULT_AREA_M2
    second = couple.second_area_m2 or couple.first_area_m2 or DEFAULT_AREA_M2
    if couple.geometry is Geometry.FASTENER and couple.second_area_m2 is None:
        second = math.pi * fastener_radius_m(couple) ** 2
    return first, second


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
