"""Polarization curves of a judged couple at central figures: what a picture of it is drawn from."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.chemistry.kinetics import Branches, net_current_density
from service.chemistry.mixed_potential import solve
from service.judgement.attack import with_oxygen
from service.judgement.draws import SAMPLE_SIZE, UNUSED_SLOPE_V, kinetic_arrays
from service.judgement.judge import Judgement
from service.judgement.lane_results import LaneResult
from service.judgement.regimes import Spell, spells

POINTS = 241
"""Potentials at which the curves are given."""

MARGIN_V = 0.15
"""How far the curves go beyond both corrosion potentials."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Net current of one side, anodic positive, and the state it is in."""

    electrode_id: str
    state: str
    corrosion_potential_V: float
    area_m2: float
    net_current_A: NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Curves:
    """Both sides over the same potentials, and where their currents cancel."""

    potential_V: NDArray[np.float64]
    sides: tuple[Curve, Curve]
    crossing_potential_V: float
    crossing_current_A: float
    spell: str


def polarization_curves(judgement: Judgement, catalogue: Catalogue) -> Curves | None:
    r"""Net currents of both sides of the deciding pairing, and their crossing.

    :math:`I_k(E) = A_k\,i_k(E)`; they cross where :math:`I_1 + I_2 = 0`.

    Parameters
    ----------
    judgement : Judgement
        Areas [m2] come from its deciding pairing.
    catalogue : Catalogue
        Gives the central kinetic figures.

    Returns
    -------
    Curves or None
        Potentials [V vs SHE] and currents [A] in the wet state that lasts longest in the year;
        ``None`` where the kinetic witness computed nothing.

    Notes
    -----
    Central figures, and no resistance of the electrolyte: the potential that the witness reports
    allows for it and differs where the film is thin.
    """
    lanes, wet = judgement.kinetics.lanes, spells(judgement.environment)
    if not lanes or not wet:
        return None
    spell = max(wet, key=lambda period: period.share_of_year)
    pairing = max(lanes, key=_weight).pairing
    branches = [_central(row, spell, catalogue) for row in pairing.rows]
    crossing = solve(branches, np.array(pairing.areas_m2))
    at_rest = [float(side.corrosion_potential) for side in branches]
    potential = np.linspace(min(at_rest) - MARGIN_V, max(at_rest) + MARGIN_V, POINTS)
    records = kinetic_arrays(catalogue).records
    first, second = (
        Curve(
            electrode_id=records[row].electrode_id,
            state=records[row].state.value,
            corrosion_potential_V=rest,
            area_m2=area,
            net_current_A=area * net_current_density(potential, side),
        )
        for row, side, rest, area in zip(pairing.rows, branches, at_rest, pairing.areas_m2, strict=True)
    )
    return Curves(
        potential_V=potential,
        sides=(first, second),
        crossing_potential_V=float(crossing.potential),
        crossing_current_A=float(np.abs(crossing.net_current).max()),
        spell=spell.name,
    )


def _weight(lane: LaneResult) -> tuple[int, float]:
    return lane.severity.rank, lane.figures["loss_over_allowance"]["high"]


def _central(row: int, spell: Spell, catalogue: Catalogue) -> Branches:
    record = kinetic_arrays(catalogue).records[row]
    film = spell.film_thickness_m
    shares = Branches(
        corrosion_potential=record.corrosion_potential_V,
        corrosion_current=record.corrosion_current_A_per_m2,
        anodic_slope=UNUSED_SLOPE_V if record.anodic_slope_V is None else record.anodic_slope_V,
        cathodic_slope=record.cathodic_slope_V,
        limiting_current=record.oxygen_efficiency,
        water_current=record.water_reduction_A_per_m2 or 0.0,
        passive=bool(kinetic_arrays(catalogue).is_passive[row]),
        breakdown_potential=np.nan if record.breakdown_potential_V is None else record.breakdown_potential_V,
    )
    fed = with_oxygen(shares, spell, None if film is None else np.full(SAMPLE_SIZE, film))
    return replace(fed, limiting_current=float(np.median(fed.limiting_current)))
