"""The kinetic figures of a catalogue as arrays, and their sample for many lanes at once.

Parameters of one electrode state are drawn together. Physics that both sides share (oxygen
supply, conductivity, film thickness) is drawn once for the couple; where both sides are the same
electrode their own figures are drawn once too, so that like on like has no current.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import ElectrodeState, ElectrolyteClass, Environment, Kinetics
from service.chemistry.kinetics import Branches
from service.chemistry.sampling import spread, spread_logarithmic, standard_normal_sample

Array = NDArray[np.float64]
Index = NDArray[np.intp]

SAMPLE_SIZE = 64
SHARED = ("oxygen", "conductivity", "film", "atmosphere", "pitting", "decay")
OWN = ("potential", "current", "efficiency", "breakdown")
_DIMENSIONS = len(SHARED) + 2 * len(OWN)

ENNOBLED_CREDIBILITY = 0.5
ENNOBLED_BELOW_C = 35.0
"""Biofilm ennoblement of passive alloys is lost in warm water (from memory; about 40 degC)."""


def scores(name: str, side: int = 0) -> Array:
    """Standard normal scores of a drawn figure, shape ``(SAMPLE_SIZE,)``."""
    sample = standard_normal_sample(SAMPLE_SIZE, _DIMENSIONS)
    if name in SHARED:
        return sample[:, SHARED.index(name)]
    return sample[:, len(SHARED) + side * len(OWN) + OWN.index(name)]


@dataclass(frozen=True, slots=True)
class KineticArrays:
    """Usable kinetics of a catalogue, one column per record."""

    records: tuple[Kinetics, ...]
    potential: Array
    potential_low: Array
    potential_high: Array
    current: Array
    current_low: Array
    current_high: Array
    anodic_slope: Array
    cathodic_slope: Array
    efficiency: Array
    efficiency_low: Array
    efficiency_high: Array
    is_passive: NDArray[np.bool_]
    breakdown: Array
    breakdown_low: Array
    breakdown_high: Array
    water: Array

    def branches(self, rows: Index, oxygen_limit: Array, sides: Index) -> Branches:
        """Sample the states ``rows`` (lanes) of sides 0 or 1.

        Parameters
        ----------
        rows : ndarray of int, shape (lanes,)
            Columns of this table [-].
        oxygen_limit : ndarray, shape (lanes or 1, SAMPLE_SIZE)
            Oxygen transport limit [A/m2].
        sides : ndarray of int, shape (lanes,)
            Which of the two independent draws each lane uses [-].

        Returns
        -------
        Branches
            Fields of shape ``(lanes, SAMPLE_SIZE)``.
        """
        own = {name: np.stack([scores(name, 0), scores(name, 1)])[sides] for name in OWN}
        return self.sampled(rows, oxygen_limit, own)

    def sampled(self, rows: Index, oxygen_limit: Array, own: Mapping[str, Array]) -> Branches:
        """Sample the states ``rows`` by given scores: what two sides or many electrodes share.

        Parameters
        ----------
        rows : ndarray of int, shape (lanes,)
            Columns of this table [-].
        oxygen_limit : ndarray, shape (lanes or 1, SAMPLE_SIZE)
            Oxygen transport limit [A/m2].
        own : mapping of str to ndarray, shape (lanes, SAMPLE_SIZE)
            Standard normal scores of each figure in ``OWN`` [-].

        Returns
        -------
        Branches
            Fields of shape ``(lanes, SAMPLE_SIZE)``.
        """

        def column(values: Array) -> Array:
            return values[rows][:, None]

        return Branches(
            corrosion_potential=spread(
                own["potential"],
                column(self.potential),
                column(self.potential_low),
                column(self.potential_high),
            ),
            corrosion_current=spread_logarithmic(
                own["current"], column(self.current), column(self.current_low), column(self.current_high)
            ),
            anodic_slope=column(self.anodic_slope),
            cathodic_slope=column(self.cathodic_slope),
            limiting_current=oxygen_limit
            * np.minimum(
                spread_logarithmic(
                    own["efficiency"],
                    column(self.efficiency),
                    column(self.efficiency_low),
                    column(self.efficiency_high),
                ),
                1.0,
            ),
            water_current=column(self.water),
            passive=self.is_passive[rows][:, None],
            breakdown_potential=spread(
                own["breakdown"],
                column(self.breakdown),
                column(self.breakdown_low),
                column(self.breakdown_high),
            ),
        )


@lru_cache(maxsize=16)
def kinetic_arrays(catalogue: Catalogue) -> KineticArrays:
    """Usable kinetic records of a catalogue as arrays; quarantined rows are left out."""
    records = tuple(
        row
        for row in catalogue.kinetics.values()
        if not row.quarantine_reason and grade(row.obtained, row.fitness, row.plausibility)
    )

    def column(name: str, default: float = np.nan) -> Array:
        values = (getattr(record, name) for record in records)
        return np.array([default if value is None else value for value in values], dtype=np.float64)

    arrays = KineticArrays(
        records=records,
        potential=column("corrosion_potential_V"),
        potential_low=column("corrosion_potential_low_V"),
        potential_high=column("corrosion_potential_high_V"),
        current=column("corrosion_current_A_per_m2"),
        current_low=column("corrosion_current_low_A_per_m2"),
        current_high=column("corrosion_current_high_A_per_m2"),
        anodic_slope=column("anodic_slope_V", 0.1),
        cathodic_slope=column("cathodic_slope_V"),
        efficiency=column("oxygen_efficiency"),
        efficiency_low=column("oxygen_efficiency_low"),
        efficiency_high=column("oxygen_efficiency_high"),
        is_passive=np.array(
            [record.state in {ElectrodeState.PASSIVE, ElectrodeState.ENNOBLED} for record in records]
        ),
        breakdown=column("breakdown_potential_V"),
        breakdown_low=column("breakdown_potential_low_V"),
        breakdown_high=column("breakdown_potential_high_V"),
        water=column("water_reduction_A_per_m2", 0.0),
    )
    for field in fields(arrays)[1:]:
        getattr(arrays, field.name).flags.writeable = False
    return arrays


@lru_cache(maxsize=16)
def _places(catalogue: Catalogue) -> dict[tuple[str, ElectrolyteClass], tuple[int, ...]]:
    places: dict[tuple[str, ElectrolyteClass], list[int]] = {}
    for index, record in enumerate(kinetic_arrays(catalogue).records):
        places.setdefault((record.electrode_id, record.electrolyte_class), []).append(index)
    return {key: tuple(indices) for key, indices in places.items()}


def credible_states(
    electrode_id: str, environment: Environment, catalogue: Catalogue
) -> tuple[tuple[int, float], ...]:
    """States in which an electrode may be found in an environment, with their weights.

    Returns
    -------
    tuple of (int, float)
        Column of :func:`kinetic_arrays` and weight, heaviest first; empty where the catalogue
        has no kinetics of this electrode in this class of electrolyte.
    """
    arrays = kinetic_arrays(catalogue)
    rows = _places(catalogue).get((electrode_id, environment.electrolyte_class), ())
    best: dict[ElectrodeState, int] = {}
    for row in sorted(rows, key=lambda place: _grade_of(arrays.records[place])):
        best.setdefault(arrays.records[row].state, row)
    return _weighted(best, environment)


def _weighted(best: dict[ElectrodeState, int], environment: Environment) -> tuple[tuple[int, float], ...]:
    has_biofilm = "biofilm" in environment.tags and (environment.temperature_C or 0.0) < ENNOBLED_BELOW_C
    weights: dict[int, float] = {}
    if ElectrodeState.PITTING in best:
        return ((best[ElectrodeState.PITTING], 1.0),)
    if ElectrodeState.ENNOBLED in best and has_biofilm:
        weights[best[ElectrodeState.ENNOBLED]] = ENNOBLED_CREDIBILITY
    if ElectrodeState.PASSIVE in best:
        weights[best[ElectrodeState.PASSIVE]] = 1.0 - sum(weights.values())
    elif ElectrodeState.ACTIVE in best:
        weights[best[ElectrodeState.ACTIVE]] = 1.0 - sum(weights.values())
    return tuple(sorted(weights.items(), key=lambda item: -item[1]))


def _grade_of(record: Kinetics) -> str:
    return grade(record.obtained, record.fitness, record.plausibility) or "Z"
