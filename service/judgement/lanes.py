"""From couples to lanes: each pair of electrodes and states that has to be solved.

A couple gives one lane for its outer metals and more where an opening in a coat exposes what
lies beneath, or where a metal may be found in more than one state.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Kinetics
from service.catalogue.surfaces import Surface
from service.judgement.areas import DEFAULT_BORE_M, fastener_radius_m, wetted_areas_m2
from service.judgement.couples import Couple, Geometry
from service.judgement.draws import credible_states, kinetic_arrays
from service.judgement.exposed import ExposedElectrode, Exposure, exposed_electrodes


@dataclass(frozen=True, slots=True)
class Pairing:
    """One electrode of each surface, in one state each.

    ``radii_m`` are finite where a side is a disk (fastener head, rivet or opening), else infinite.
    ``bore_m`` is finite where both sides are the walls of a pipe; their widths are its lengths.
    """

    couple: int
    electrodes: tuple[ExposedElectrode, ExposedElectrode]
    rows: tuple[int, int]
    weight: float
    areas_m2: tuple[float, float]
    radii_m: tuple[float, float]
    widths_m: tuple[float, float]
    bore_m: float = math.inf

    @property
    def is_primary(self) -> bool:
        """Whether both electrodes are the outermost metals."""
        return all(electrode.exposure is Exposure.OUTER for electrode in self.electrodes)


@dataclass(frozen=True, slots=True)
class Lanes:
    """Pairings as arrays, shape ``(2, lanes)`` where a figure belongs to a side, else ``(lanes,)``."""

    rows: NDArray[np.intp]
    draws: NDArray[np.intp]
    areas_m2: NDArray[np.float64]
    radii_m: NDArray[np.float64]
    widths_m: NDArray[np.float64]
    bores_m: NDArray[np.float64]

    def narrowed(self, chosen: NDArray[np.intp]) -> Lanes:
        """Some of the lanes."""
        return Lanes(
            self.rows[:, chosen],
            self.draws[:, chosen],
            self.areas_m2[:, chosen],
            self.radii_m[:, chosen],
            self.widths_m[:, chosen],
            self.bores_m[chosen],
        )


@dataclass(frozen=True, slots=True)
class Gap:
    """Why a couple has no lane."""

    couple: int
    missing: tuple[str, ...]


def pairings_of(
    couples: Sequence[Couple], environment: Environment, catalogue: Catalogue
) -> tuple[list[Pairing], list[Gap]]:
    """Pairings of every couple, and what is missing where there is none.

    Parameters
    ----------
    couples : sequence of Couple
        Areas [m2] and radii [m].
    environment : Environment
    catalogue : Catalogue

    Returns
    -------
    pairings : list of Pairing
        In the order of ``couples``; an outer metal meets whatever the other side lays bare.
    gaps : list of Gap
        One for each couple without a pairing.
    """
    found: list[Pairing] = []
    gaps: list[Gap] = []
    for index, couple in enumerate(couples):
        exposed = [_exposed(surface, catalogue) for surface in (couple.first, couple.second)]
        states = [
            {item.electrode_id: credible_states(item.electrode_id, environment, catalogue) for item in side}
            for side in exposed
        ]
        missing = {
            f"kinetics of {electrode_id} in {environment.electrolyte_class.value} electrolyte": None
            for side in states
            for electrode_id, options in side.items()
            if not options
        }
        if not all(exposed) or missing:
            gaps.append(Gap(index, tuple(missing) or ("the metal of a surface",)))
            continue
        for electrodes in _meetings(exposed[0], exposed[1]):
            found.extend(_pairings(index, couple, electrodes, states))
    return found, gaps


def _meetings(
    first: Sequence[ExposedElectrode], second: Sequence[ExposedElectrode]
) -> list[tuple[ExposedElectrode, ExposedElectrode]]:
    """Electrodes of both sides that can meet: two openings do only where there is nothing else."""
    return [
        (one, other)
        for one in first
        for other in second
        if Exposure.OUTER in {one.exposure, other.exposure} or len(first) == len(second) == 1
    ]


def lanes_of(pairings: Sequence[Pairing], catalogue: Catalogue) -> Lanes:
    """Stack pairings into arrays.

    Parameters
    ----------
    pairings : sequence of Pairing
    catalogue : Catalogue

    Returns
    -------
    Lanes
        Areas [m2], radii, widths and bores [m]. Like electrodes share a draw; of two different ones the
        first by name takes the first draw, so that turning a couple round turns its answer round.
    """
    rows = np.array([pairing.rows for pairing in pairings], dtype=np.intp).T.reshape(2, -1)
    records = kinetic_arrays(catalogue).records
    electrodes = [[records[row].electrode_id for row in side] for side in rows.tolist()]
    draws = np.array([[one > other, other > one] for one, other in zip(*electrodes, strict=True)])
    return Lanes(
        rows,
        draws.T.reshape(2, -1).astype(np.intp),
        np.array([pairing.areas_m2 for pairing in pairings]).T.reshape(2, -1),
        np.array([pairing.radii_m for pairing in pairings]).T.reshape(2, -1),
        np.array([pairing.widths_m for pairing in pairings]).T.reshape(2, -1),
        np.array([pairing.bore_m for pairing in pairings]),
    )


def kinetics_of(pairing: Pairing, catalogue: Catalogue) -> tuple[Kinetics, Kinetics]:
    """Kinetic records that a pairing was solved with.

    Parameters
    ----------
    pairing : Pairing
    catalogue : Catalogue

    Returns
    -------
    tuple of Kinetics
        Of the first and of the second side.
    """
    records = kinetic_arrays(catalogue).records
    return records[pairing.rows[0]], records[pairing.rows[1]]


def _exposed(surface: Surface, catalogue: Catalogue) -> tuple[ExposedElectrode, ...]:
    return exposed_electrodes(surface, catalogue, surface.condition)


def _radii(couple: Couple, electrodes: tuple[ExposedElectrode, ExposedElectrode]) -> list[float]:
    """Radius of each side: an opening is a disk in the plate that its partner makes; else a fastener is."""
    openings = [electrode.defect_radius_m for electrode in electrodes]
    if any(radius is not None for radius in openings):
        return [math.inf if radius is None else radius for radius in openings]
    if couple.geometry is Geometry.FASTENER:
        return [math.inf, fastener_radius_m(couple)]
    return [math.inf, math.inf]


def _pairings(
    index: int,
    couple: Couple,
    electrodes: tuple[ExposedElectrode, ExposedElectrode],
    states: Sequence[dict[str, tuple[tuple[int, float], ...]]],
) -> list[Pairing]:
    areas = wetted_areas_m2(couple)
    radii = _radii(couple, electrodes)
    shares = tuple(area * item.area_fraction for area, item in zip(areas, electrodes, strict=True))
    is_pipe = couple.geometry is Geometry.PIPE
    bore = couple.bore_m or DEFAULT_BORE_M
    line = math.pi * bore if is_pipe else math.sqrt(min(areas))
    widths = tuple(max(area / line, 1e-6) for area in areas)
    return [
        Pairing(
            index,
            electrodes,
            rows,
            weight,
            (shares[0], shares[1]),
            (radii[0], radii[1]),
            (widths[0], widths[1]),
            bore if is_pipe and not any(map(math.isfinite, radii)) else math.inf,
        )
        for rows, weight in _joint_states(electrodes, states)
    ]


def _joint_states(
    electrodes: tuple[ExposedElectrode, ExposedElectrode],
    states: Sequence[dict[str, tuple[tuple[int, float], ...]]],
) -> list[tuple[tuple[int, int], float]]:
    """States of both sides with their weight; like electrodes in one place are in one state."""
    first, second = (side[item.electrode_id] for side, item in zip(states, electrodes, strict=True))
    if electrodes[0].electrode_id == electrodes[1].electrode_id:
        return [((row, row), weight) for row, weight in first]
    return [((row, other), weight * share) for row, weight in first for other, share in second]
