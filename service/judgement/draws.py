"""The kinetic figures of a catalogue as arrays, and their sample for many lanes at once.

Parameters of one electrode state are drawn together. Physics that both sides share (oxygen
supply, conductivity, film thickness) is drawn once for the couple; where both sides are the same
electrode their own figures are drawn once too, so that like on like has no current.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import ElectrodeState, ElectrolyteClass, Environment, Kinetics
from service.chemistry.kinetics import Branches
from service.chemistry.sampling import correlate, spread, spread_logarithmic, standard_normal_sample

Array = NDArray[np.float64]
Index = NDArray[np.intp]

SAMPLE_SIZE = 64
SHARED = ("oxygen", "conductivity", "film", "atmosphere", "pitting", "decay")
OWN = ("potential", "current", "efficiency", "breakdown")
WATER = "water"
_DIMENSIONS = len(SHARED) + 2 * len(OWN) + 1

SHARED_POTENTIAL = 0.5
"""Correlation of the potentials of two metals in one water: its oxygen, movement, temperature and age
move both the same way (from memory; series of one tank shift together by more than they spread)."""

UNUSED_SLOPE_V = 0.1
"""Stands in a row without an anodic slope: a passive state does not look at it [V/decade]."""

ENNOBLED_CREDIBILITY = 0.5
"""Weight of the ennobled state where natural sea water allows it (from memory: some sites, some seasons)."""

ENNOBLED_BELOW_C = 35.0
"""Biofilm ennoblement of passive alloys is lost in warm water (from memory; about 40 degC)."""


def scores(name: str, side: int = 0) -> Array:
    """Standard normal scores of a drawn figure.

    Parameters
    ----------
    name : str
        One of ``SHARED`` or ``OWN``, or ``WATER``: what moves all potentials in one water.
    side : int
        Which of the two independent draws of an own figure, 0 or 1 [-].

    Returns
    -------
    ndarray, shape (SAMPLE_SIZE,)
        Scores [-]; read-only and shared.
    """
    sample = standard_normal_sample(SAMPLE_SIZE, _DIMENSIONS)
    if name == WATER:
        return sample[:, -1]
    if name in SHARED:
        return sample[:, SHARED.index(name)]
    return sample[:, len(SHARED) + side * len(OWN) + OWN.index(name)]


def in_one_water(own: Array) -> Array:
    """Scores of the potentials of metals in one water: a part of their chance is the same for all.

    Parameters
    ----------
    own : ndarray, shape (metals, SAMPLE_SIZE)
        Independent standard normal scores of each metal [-].

    Returns
    -------
    ndarray
        The same scores in an order that correlates between any two metals by ``SHARED_POTENTIAL``,
        so that each metal keeps its own distribution [-].
    """
    moved = correlate(scores(WATER), own, math.sqrt(SHARED_POTENTIAL))
    ranks = np.argsort(np.argsort(moved, axis=-1), axis=-1)
    return np.take_along_axis(np.sort(own, axis=-1), ranks, axis=-1)


@lru_cache(maxsize=1)
def _scores_of_a_couple() -> Mapping[str, Array]:
    """Scores of the figures of both sides, ``(2, SAMPLE_SIZE)`` each."""
    own = {name: np.stack([scores(name, 0), scores(name, 1)]) for name in OWN}
    return {**own, "potential": in_one_water(own["potential"])}


@dataclass(frozen=True, slots=True)
class Range:
    """A figure of every record with its 5 % and 95 % bounds, shape ``(records,)``."""

    central: Array
    low: Array
    high: Array

    @classmethod
    def of(cls, records: Sequence[Kinetics], stem: str, unit: str = "") -> Range:
        """Read the fields ``stem``, ``stem_low`` and ``stem_high``, each with its unit at the end."""
        return cls(*(_column(records, f"{stem}{bound}{unit}") for bound in ("", "_low", "_high")))

    def drawn(self, normal: Array, rows: Index) -> Array:
        """Figures of the records ``rows`` for standard normal scores of shape ``(lanes, SAMPLE_SIZE)``."""
        return spread(normal, *self._bounds(rows))

    def drawn_to_a_factor(self, normal: Array, rows: Index) -> Array:
        """The same on the logarithm, for figures that are positive."""
        return spread_logarithmic(normal, *self._bounds(rows))

    def _bounds(self, rows: Index) -> tuple[Array, Array, Array]:
        return self.central[rows, None], self.low[rows, None], self.high[rows, None]


@dataclass(frozen=True, slots=True)
class KineticArrays:
    """Usable kinetics of a catalogue, one column per record."""

    records: tuple[Kinetics, ...]
    potential: Range
    current: Range
    anodic_slope: Array
    cathodic_slope: Array
    efficiency: Range
    is_passive: NDArray[np.bool_]
    breakdown: Range
    water: Array

    def branches(self, rows: Index, sides: Index) -> Branches:
        """Sample the states ``rows`` (lanes) of sides 0 or 1.

        Parameters
        ----------
        rows : ndarray of int, shape (lanes,)
            Columns of this table [-].
        sides : ndarray of int, shape (lanes,)
            Which of the two independent draws each lane uses [-].

        Returns
        -------
        Branches
            Fields of shape ``(lanes, SAMPLE_SIZE)`` or ``(lanes, 1)`` [units of ``Branches``], but
            for the limiting current: it is the share of the oxygen supply that is used [-].
        """
        return self.sampled(rows, {name: drawn[sides] for name, drawn in _scores_of_a_couple().items()})

    def sampled(self, rows: Index, own: Mapping[str, Array]) -> Branches:
        """Sample the states ``rows`` by given scores: what two sides or many electrodes share.

        Parameters
        ----------
        rows : ndarray of int, shape (lanes,)
            Columns of this table [-].
        own : mapping of str to ndarray, shape (lanes, SAMPLE_SIZE)
            Standard normal scores of each figure in ``OWN`` [-].

        Returns
        -------
        Branches
            Fields of shape ``(lanes, SAMPLE_SIZE)`` or ``(lanes, 1)`` [units of ``Branches``], but
            for the limiting current: it is the share of the oxygen supply that is used [-].
        """
        efficiency = np.minimum(self.efficiency.drawn_to_a_factor(own["efficiency"], rows), 1.0)
        return Branches(
            corrosion_potential=self.potential.drawn(own["potential"], rows),
            corrosion_current=self.current.drawn_to_a_factor(own["current"], rows),
            anodic_slope=self.anodic_slope[rows, None],
            cathodic_slope=self.cathodic_slope[rows, None],
            limiting_current=efficiency,
            water_current=self.water[rows, None],
            passive=self.is_passive[rows, None],
            breakdown_potential=self.breakdown.drawn(own["breakdown"], rows),
        )


@lru_cache(maxsize=16)
def kinetic_arrays(catalogue: Catalogue) -> KineticArrays:
    """Usable kinetic records of a catalogue as arrays; quarantined and unfit rows are left out.

    Parameters
    ----------
    catalogue : Catalogue

    Returns
    -------
    KineticArrays
        Read-only and shared [A/m2, V].
    """
    records = tuple(
        row
        for row in catalogue.kinetics.values()
        if not row.quarantine_reason and grade(row.obtained, row.fitness, row.plausibility)
    )
    behind_a_film = {ElectrodeState.PASSIVE, ElectrodeState.ENNOBLED}
    return KineticArrays(
        records=records,
        potential=Range.of(records, "corrosion_potential", "_V"),
        current=Range.of(records, "corrosion_current", "_A_per_m2"),
        anodic_slope=_column(records, "anodic_slope_V", UNUSED_SLOPE_V),
        cathodic_slope=_column(records, "cathodic_slope_V"),
        efficiency=Range.of(records, "oxygen_efficiency"),
        is_passive=_frozen(np.array([record.state in behind_a_film for record in records], dtype=np.bool_)),
        breakdown=Range.of(records, "breakdown_potential", "_V"),
        water=_column(records, "water_reduction_A_per_m2", 0.0),
    )


def _column(records: Sequence[Kinetics], name: str, default: float = np.nan) -> Array:
    values = (getattr(record, name) for record in records)
    return _frozen(np.array([default if value is None else value for value in values], dtype=np.float64))


def _frozen(array: NDArray[Any]) -> NDArray[Any]:
    array.flags.writeable = False
    return array


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

    Parameters
    ----------
    electrode_id : str
    environment : Environment
        Its class of electrolyte, its biofilm and its temperature [degC] count.
    catalogue : Catalogue

    Returns
    -------
    tuple of (int, float)
        Column of :func:`kinetic_arrays` and weight [-], heaviest first; empty where the catalogue
        has no kinetics of this electrode in this class of electrolyte.

    Notes
    -----
    A metal that pits at rest is judged as pitting; the passive state goes before the active one,
    which belongs to crevices and stagnant water. Of several records of a state the best graded
    counts.
    """
    is_cold = (environment.temperature_C or 0.0) < ENNOBLED_BELOW_C
    has_biofilm = is_cold and "biofilm" in environment.tags
    return _states(electrode_id, environment.electrolyte_class, catalogue, has_biofilm=has_biofilm)


@lru_cache(maxsize=4096)
def _states(
    electrode_id: str, electrolyte_class: ElectrolyteClass, catalogue: Catalogue, *, has_biofilm: bool
) -> tuple[tuple[int, float], ...]:
    records = kinetic_arrays(catalogue).records
    rows = _places(catalogue).get((electrode_id, electrolyte_class), ())
    best: dict[ElectrodeState, int] = {}
    for row in sorted(rows, key=lambda place: _grade_of(records[place])):
        best.setdefault(records[row].state, row)
    if ElectrodeState.PITTING in best:
        return ((best[ElectrodeState.PITTING], 1.0),)
    weights: dict[int, float] = {}
    if ElectrodeState.ENNOBLED in best and has_biofilm:
        weights[best[ElectrodeState.ENNOBLED]] = ENNOBLED_CREDIBILITY
    at_rest = best.get(ElectrodeState.PASSIVE, best.get(ElectrodeState.ACTIVE))
    if at_rest is not None:
        weights[at_rest] = 1.0 - sum(weights.values())
    return tuple(sorted(weights.items(), key=lambda item: -item[1]))


def _grade_of(record: Kinetics) -> str:
    letter = grade(record.obtained, record.fitness, record.plausibility)
    assert letter is not None  # noqa: S101 - unfit rows are not among the arrays
    return letter
