"""Couples of the seed catalogue in one line."""

from __future__ import annotations

from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement import Couple, Judgement, judge

COAST = "marine-atmosphere-0-100-m"
TOWN = "urban-atmosphere"
SEA = "seawater-quiescent"
TAP = "tap-water-hard"
DRY = "heated-indoor"

ALUMINIUM = Surface("al-6082-t6")
COPPER = Surface("cu-etp")
STEEL = Surface("steel-s235")
STAINLESS = Surface("ss-316")
ZINC = Surface("zn-pure")
TITANIUM = Surface("ti-gr2")


def coated(
    material_id: str,
    finish_id: str,
    thickness_um: float | None = None,
    condition: Condition = Condition.INTACT,
) -> Surface:
    """One coat on a material."""
    return Surface(material_id, (Layer(finish_id, thickness_um),), condition)


def judged(
    first: Surface, second: Surface, environment_id: str, catalogue: Catalogue, **joint: Any
) -> Judgement:
    """Judge one couple in a named environment."""
    couple = Couple(first, second, **joint)
    return judge([couple], catalogue.environments[environment_id], catalogue)[0]
