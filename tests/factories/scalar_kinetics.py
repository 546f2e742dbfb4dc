"""The kinetics of the design once more, in plain Python for one electrode: an oracle, and the
inner function of the loop that the batched solver is measured against."""

from __future__ import annotations

import math
from collections.abc import Callable

from service.chemistry.branches import Branches


def net_current(branches: Branches) -> Callable[[float], float]:
    """Net current density [A/m2] of one lane as a function of potential [V vs SHE]."""
    rest, limit = float(branches.corrosion_potential), float(branches.limiting_current)
    corrosion = min(float(branches.corrosion_current), 0.98 * limit)
    charge_transfer = corrosion / (1.0 - corrosion / limit)
    cathodic_slope, water_slope = float(branches.cathodic_slope), float(branches.water_slope)
    water_at_reference = float(branches.water_current)
    passive, breakdown = bool(branches.passive), float(branches.breakdown_potential)
    anodic_slope = 2.0 if passive else float(branches.anodic_slope)
    breakdown_slope = float(branches.breakdown_slope)

    def cathodic(potential: float) -> float:
        activated = charge_transfer * math.pow(10.0, (rest - potential) / cathodic_slope)
        water = water_at_reference * math.pow(10.0, -(potential + 1.0) / water_slope)
        return 1.0 / (1.0 / activated + 1.0 / limit) + water

    anchor = cathodic(rest)
    if passive and not math.isnan(breakdown):
        anchor /= 1.0 + math.pow(10.0, (rest - breakdown) / breakdown_slope)

        def anodic(potential: float) -> float:
            flat = math.pow(10.0, (potential - rest) / anodic_slope)
            return anchor * (flat + math.pow(10.0, (potential - breakdown) / breakdown_slope))
    else:

        def anodic(potential: float) -> float:
            return anchor * math.pow(10.0, (potential - rest) / anodic_slope)

    return lambda potential: anodic(potential) - cathodic(potential)
