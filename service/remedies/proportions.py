"""Measures that change the areas: a larger anode, a smaller cathode, a part that is replaced in time."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from service.judgement import Geometry
from service.judgement.areas import fastener_radius_m, wetted_areas_m2
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation
from service.remedies.sacrificing import replaceable_part


def enlarge_anode(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Make the eaten side the larger one.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``ratio`` of the anode's area to the cathode's [-], or ``allowance`` for a part that is replaced
        after ``interval_years`` [years].
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    if parameters.get("allowance"):
        return [replaceable_part(arrangement, float(parameters["interval_years"]))]
    ratio = float(parameters["ratio"])
    areas = _areas(arrangement)
    anode, cathode = situation.anode, situation.cathode
    if areas[anode] >= ratio * areas[cathode]:
        raise NotPossibleError(Obstacle.DONE, f"The eaten side is {ratio:g} times the larger one already.")
    if _is_head(arrangement, anode):
        raise NotPossibleError(
            Obstacle.PROCESS, "The eaten side is the fastener, which cannot be the larger part."
        )
    return [_with_areas(arrangement, {**areas, anode: ratio * areas[cathode]})]


def shrink_cathode(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Make the wetted area of the noble side smaller.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``factor`` on its area [-].
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    areas, cathode = _areas(arrangement), situation.cathode
    return [_with_areas(arrangement, {**areas, cathode: areas[cathode] * float(parameters["factor"])})]


def _areas(arrangement: Arrangement) -> dict[str, float]:
    return dict(zip(("first", "second"), wetted_areas_m2(arrangement.couples[0]), strict=True))


def _is_head(arrangement: Arrangement, side: str) -> bool:
    return side == "second" and arrangement.couples[0].geometry is Geometry.FASTENER


def _with_areas(arrangement: Arrangement, areas: Mapping[str, float]) -> Arrangement:
    joint = arrangement.couples[0]
    changed = arrangement.on_each(first_area_m2=areas["first"], second_area_m2=areas["second"])
    if joint.geometry is not Geometry.FASTENER:
        return changed
    scale = math.sqrt(areas["second"] / wetted_areas_m2(joint)[1])
    return changed.on_each(fastener_radius_m=fastener_radius_m(joint) * scale)
