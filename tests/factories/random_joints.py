"""Random but believable electrodes, and single lanes of them, for tests of the solvers."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray
from service.chemistry.branches import PARAMETERS, Branches

STEEL = Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
ZINC = Branches(-0.80, 0.10, 0.04, 0.12, 0.3)
STAINLESS = Branches(0.00, 0.002, 0.06, 0.14, 0.3, passive=True, breakdown_potential=0.35)
ALUMINIUM = Branches(-0.50, 0.01, 0.02, 0.15, 0.3)
GOLD = Branches(0.39, 1e-5, 0.06, 0.12, 0.3, passive=True)


def random_branches(rng: np.random.Generator, lanes: int, lowest: float, highest: float) -> Branches:
    """Draw electrodes with corrosion potentials from ``lowest`` to ``highest``."""
    return Branches(
        corrosion_potential=rng.uniform(lowest, highest, lanes),
        corrosion_current=10.0 ** rng.uniform(-4.0, 0.0, lanes),
        anodic_slope=rng.uniform(0.03, 0.12, lanes),
        cathodic_slope=rng.uniform(0.08, 0.2, lanes),
        limiting_current=10.0 ** rng.uniform(-1.0, 1.0, lanes),
        water_current=10.0 ** rng.uniform(-4.0, -1.0, lanes),
        passive=rng.random(lanes) < 0.4,
        breakdown_potential=rng.uniform(-0.6, 0.6, lanes),
    )


def lane(branches: Branches, number: int) -> Branches:
    """One lane of electrodes as plain figures."""
    values = {}
    for name in PARAMETERS:
        array = np.asarray(getattr(branches, name)).reshape(-1)
        values[name] = array[number if array.size > 1 else 0].item()
    return Branches(**values)


def linear(rest_potential: float, resistance: float) -> Branches:
    """An electrode whose net current is linear, with a polarization resistance [ohm m2].

    Slopes are 100 kV per decade, so that over a volt it departs from a straight line by less than
    1e-9; the solvers see an ordinary electrode.
    """
    slope = 1e5
    corrosion_current = slope / (2.0 * np.log(10.0) * resistance)
    return Branches(rest_potential, corrosion_current, slope, slope, 1e9 * corrosion_current)


def logarithmic(rng: np.random.Generator, lowest: float, highest: float, lanes: int) -> FloatArray:
    """Figures that are even on a logarithmic scale."""
    return np.asarray(10.0 ** rng.uniform(np.log10(lowest), np.log10(highest), lanes))
