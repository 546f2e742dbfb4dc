"""From the name of a change in the knowledge base to the function that makes it."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Any

from service.catalogue.records import Mitigation
from service.remedies.arrangement import Arrangement, Situation
from service.remedies.covering import coat_anode, coat_both, coat_cathode
from service.remedies.inhibition import inhibit
from service.remedies.proportions import enlarge_anode, shrink_cathode
from service.remedies.resurfacing import bimetal_transition, replace_surface, same_material
from service.remedies.sacrificing import cathodic_protection, sacrifice
from service.remedies.sealing import seal
from service.remedies.separation import isolate, raise_resistance
from service.remedies.wetness import drain, exclude_wetness

Transform = Callable[[Arrangement, Mapping[str, Any], Situation], Sequence[Arrangement]]

TRANSFORMS: Mapping[str, Transform] = MappingProxyType(
    {
        "isolate": isolate,
        "raise_resistance": raise_resistance,
        "replace_surface": replace_surface,
        "same_material": same_material,
        "bimetal_transition": bimetal_transition,
        "coat_cathode": coat_cathode,
        "coat_anode": coat_anode,
        "coat_both": coat_both,
        "seal": seal,
        "exclude_wetness": exclude_wetness,
        "drain": drain,
        "inhibit": inhibit,
        "sacrifice": sacrifice,
        "cathodic_protection": cathodic_protection,
        "enlarge_anode": enlarge_anode,
        "shrink_cathode": shrink_cathode,
    }
)

_KIND_OF: Mapping[str, str] = MappingProxyType(
    {
        "replace_surface": "surface",
        "same_material": "surface",
        "bimetal_transition": "surface",
        "coat_cathode": "cover",
        "coat_anode": "cover",
        "coat_both": "cover",
        "enlarge_anode": "area",
        "shrink_cathode": "area",
        "isolate": "separate",
        "raise_resistance": "separate",
        "seal": "wetness",
        "exclude_wetness": "wetness",
        "drain": "drain",
        "inhibit": "inhibitor",
        "sacrifice": "protection",
        "cathodic_protection": "protection",
    }
)
"""Kind of each change; two of one kind do the same thing twice."""

SHORTEST_INTERVAL_YEARS = 1.0
"""Interval of renewal where the record states no life."""


def variants_of(
    mitigation: Mitigation, arrangement: Arrangement, situation: Situation
) -> Sequence[Arrangement]:
    """Apply a measure of the knowledge base to an arrangement.

    Parameters
    ----------
    mitigation : Mitigation
        Names the change and holds its figures.
    arrangement : Arrangement
    situation : Situation

    Returns
    -------
    sequence of Arrangement
        At least one; where a measure leaves a choice, all of it.

    Raises
    ------
    NotPossibleError
        If the measure cannot be taken here.
    """
    parameters = json.loads(mitigation.parameters)
    parameters["interval_years"] = mitigation.life_years_low or SHORTEST_INTERVAL_YEARS
    return TRANSFORMS[mitigation.transform](arrangement, parameters, situation)


def kind_of(mitigation: Mitigation) -> str:
    """Sort of change: surface, cover, area, separate, wetness, drain, inhibitor or protection."""
    return _KIND_OF[mitigation.transform]
