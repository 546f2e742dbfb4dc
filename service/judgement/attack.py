"""Solving the lanes: where a couple settles and what current leaves each side, in the mean of a year.

The lanes are solved in every spell of wetness of the environment; the year is the mean of its
spells. In the open air the year's oxygen is capped by what bare steel uses there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Exposure
from service.chemistry.arrays import FloatLike
from service.chemistry.branches import Branches
from service.chemistry.oxygen import (
    REFERENCE_BORE,
    limiting_current_density,
    surface_limiting_current_density,
)
from service.judgement.currents import Array, Currents, some_lanes
from service.judgement.distinct_lanes import distinct_lanes, lane_keys
from service.judgement.draws import SAMPLE_SIZE, kinetic_arrays, scores
from service.judgement.film_currents import film_currents, film_lanes
from service.judgement.immersed_currents import immersed_currents
from service.judgement.lane_memory import LaneMemory
from service.judgement.lanes import Lanes
from service.judgement.metals import metal_figures
from service.judgement.pipe_currents import pipe_currents
from service.judgement.regimes import Spell, salinity_g_per_kg, spells
from service.judgement.uncoupled import oxygen_capacity_A_per_m2

CHOKED_A_PER_M2 = 1.0
"""Largest year-mean current density of a zone under a film or behind an opening: products choke
it, and no common metal is known to lose more than a few millimetres a year in natural films. From
memory, an order of magnitude; it keeps figures credible, severity is beyond the last band long
before."""

RENEWED_A_PER_M2 = 10.0
"""The same where splash renews the film and carries products away (from memory, likewise)."""

CHOKED_SPREAD = 2.0
"""One-sigma factor on that limit, because it is an order of magnitude."""

STEEL_EFFICIENCY = 0.75
"""Oxygen efficiency of the steel whose own rate sets the year-mean capacity of the air."""

ZINC_SALTS_SHARE = 0.3
"""What zinc leaves of the oxygen reduction on a cathode under the same film: its ions precipitate
there as basic salts. That they do was read in two abstracts ("Investigation of self-healing mechanism
on galvanized steels cut edges by coupling SVET and numerical modeling"; "Corrosion mechanisms of
Zn(Mg,Al) coated steel: 2"); the amount is from memory (a third to a tenth)."""

ZINC_SALTS_SPREAD = 1.8
"""One-sigma factor on that share (from memory, likewise)."""

AIR_SCATTER = 1.5
"""One-sigma factor on that capacity: the stated uncertainty of the dose-response functions."""

STAGNANT_BELOW_M_PER_S = 0.05
"""Slower water moves by natural convection, whose layer is the stagnant one."""

OXYGEN_SCATTER = 1.35
"""One-sigma factor on oxygen transport: natural convection and drying are never alike (from memory)."""

THINNEST_FILM_M = 5e-6
"""Thinnest film that is drawn: below it the film is no continuous bulk electrolyte."""

_NO_CURRENT = 1e-30


@dataclass(frozen=True, slots=True)
class Attack:
    """Currents of all lanes in the mean of a year; side first, then lane, then sample.

    Attributes
    ----------
    galvanic_density, peak_density : ndarray, shape (2, lanes, SAMPLE_SIZE)
        Net anodic current density over the engaged zone and at the joint line; zero on a cathode
        [A/m2].
    unchoked_density : ndarray, shape (2, lanes, SAMPLE_SIZE)
        The first of them as if products did not choke the zone [A/m2].
    potential : ndarray, shape (lanes, SAMPLE_SIZE)
        Couple potential of the spell that does most of the damage to the lane [V vs SHE].
    reach : ndarray, shape (2, lanes, SAMPLE_SIZE)
        Width of the engaged zone in that spell [m].
    wet_share : float
        Share of the year with an electrolyte [-].
    is_solved : ndarray of bool, shape (lanes,)
        Whether every sample was solved in every spell [-].
    """

    galvanic_density: Array
    peak_density: Array
    unchoked_density: Array
    potential: Array
    reach: Array
    wet_share: float
    is_solved: NDArray[np.bool_]

    def by_lane(self) -> Iterator[Attack]:
        """Attack on each lane by itself; copies, which keep nothing of the others alive."""
        for lane in range(self.is_solved.size):
            one = slice(lane, lane + 1)
            yield Attack(
                **{name: getattr(self, name)[:, one].copy() for name in _OF_A_SIDE},
                potential=self.potential[one].copy(),
                wet_share=self.wet_share,
                is_solved=self.is_solved[one].copy(),
            )

    @classmethod
    def of_lanes(cls, lanes: Sequence[Attack]) -> Attack:
        """Attack on many lanes, from that on each; at least one."""
        return cls(
            **{name: np.concatenate([getattr(lane, name) for lane in lanes], axis=1) for name in _OF_A_SIDE},
            potential=np.concatenate([lane.potential for lane in lanes]),
            wet_share=lanes[0].wet_share,
            is_solved=np.concatenate([lane.is_solved for lane in lanes]),
        )


_OF_A_SIDE = ("galvanic_density", "peak_density", "unchoked_density", "reach")


def attack_of(lanes: Lanes, environment: Environment, catalogue: Catalogue) -> Attack:
    """Solve all lanes in all spells of an environment and take the mean of the year.

    Parameters
    ----------
    lanes : Lanes
        Electrodes, areas, radii and widths [m2, m].
    environment : Environment
        One that the kinetic model covers (``regimes.reason_to_abstain``).
    catalogue : Catalogue
        Gives the kinetic figures [A/m2, V].

    Returns
    -------
    Attack
        Year-mean current densities [A/m2], potential [V vs SHE], reach [m]. A lane's figures do
        not depend on the other lanes.
    """
    distinct, places = distinct_lanes(film_lanes(lanes) if has_films(environment) else lanes)

    def solve(missing: list[int]) -> Iterator[Attack]:
        return _attack_of(distinct.narrowed(np.array(missing)), environment, catalogue).by_lane()

    found = _memory(environment, catalogue).each(lane_keys(distinct), solve)
    return Attack.of_lanes([found[place] for place in places.tolist()])


MOST_ENVIRONMENTS = 8
"""Environments whose lanes are remembered."""


@lru_cache(maxsize=MOST_ENVIRONMENTS)
def _memory(environment: Environment, catalogue: Catalogue) -> LaneMemory[Attack]:  # noqa: ARG001 - the key
    return LaneMemory()


def forget_lanes() -> None:
    """Forget all lanes that were solved, so that the time of solving them can be measured."""
    _memory.cache_clear()


def _attack_of(lanes: Lanes, environment: Environment, catalogue: Catalogue) -> Attack:
    both = (2, lanes.rows.shape[1], SAMPLE_SIZE)
    anodic, peak, cathodic, reach = (np.zeros(both) for _ in range(4))
    potential = np.zeros(both[1:])
    is_solved = np.ones(both[1], dtype=np.bool_)
    heaviest = np.full(both[1], -1.0)
    periods = spells(environment)
    salted = (
        _salted(lanes, catalogue) if environment.exposure is not Exposure.IMMERSED else np.ones((2, 1, 1))
    )
    sides = _sampled(lanes, salted, catalogue)
    solve = _under_films if has_films(environment) else _in_bulk
    for period, currents in zip(periods, solve(periods, sides, lanes), strict=True):
        anodic += period.share_of_year * currents.anodic
        peak += period.share_of_year * currents.peak
        cathodic += period.share_of_year * currents.cathodic
        is_solved &= currents.has_converged.all(axis=-1)
        weight = period.share_of_year * currents.anodic.mean(axis=-1).max(axis=0)
        is_heavier = weight > heaviest
        np.copyto(heaviest, weight, where=is_heavier)
        np.copyto(potential, currents.potential, where=is_heavier[:, None])
        np.copyto(reach, currents.reach, where=is_heavier[:, None])
    unchoked = anodic
    if environment.exposure is not Exposure.IMMERSED:
        scale = _oxygen_cap(cathodic, lanes, salted, environment, catalogue)
        choke = RENEWED_A_PER_M2 if environment.exposure is Exposure.SPLASH else CHOKED_A_PER_M2
        choked = choke * CHOKED_SPREAD ** scores("pitting")
        unchoked = anodic * scale
        anodic = np.minimum(unchoked, choked)
        peak = np.minimum(peak * scale, choked)
    wet_share = min(sum(period.share_of_year for period in periods), 1.0)
    return Attack(anodic, peak, unchoked, potential, reach, wet_share, is_solved)


def _sampled(lanes: Lanes, salted: Array, catalogue: Catalogue) -> list[Branches]:
    """Both sides, with the share of the oxygen limit that each can use as its limiting current."""
    arrays = kinetic_arrays(catalogue)
    drawn = [arrays.branches(lanes.rows[side], lanes.draws[side]) for side in (0, 1)]
    return [
        replace(side, limiting_current=left * side.limiting_current)
        for side, left in zip(drawn, salted, strict=True)
    ]


@lru_cache(maxsize=16)
def _rows_of_zinc(catalogue: Catalogue) -> NDArray[np.bool_]:
    """Which columns of the kinetic figures belong to zinc or a zinc coat."""
    metals = metal_figures(catalogue)
    return np.array([metals[record.electrode_id].is_zinc for record in kinetic_arrays(catalogue).records])


def _salted(lanes: Lanes, catalogue: Catalogue) -> Array:
    """What the salts of a partner of zinc leave of each side's oxygen reduction, ``(2, lanes, samples)``."""
    is_zinc = _rows_of_zinc(catalogue)[lanes.rows]
    left = np.minimum(ZINC_SALTS_SHARE * ZINC_SALTS_SPREAD ** scores("decay"), 1.0)
    return np.where((is_zinc[::-1] & ~is_zinc)[:, :, None], left, 1.0)


def has_films(environment: Environment) -> bool:
    """Whether all spells of an environment are states of a film.

    Parameters
    ----------
    environment : Environment

    Returns
    -------
    bool
        False where parts are immersed.
    """
    return environment.exposure is not Exposure.IMMERSED


def _under_films(periods: Sequence[Spell], sides: Sequence[Branches], lanes: Lanes) -> list[Currents]:
    """Currents in each state of a film; all states are solved side by side, as lanes of their own."""
    count = lanes.bores_m.size
    films = [_film(period) for period in periods]
    fed = [
        [with_oxygen(side, period, film[1]) for side in sides]
        for period, film in zip(periods, films, strict=True)
    ]
    each = np.tile(np.arange(count), len(periods))
    together = [
        replace(
            some_lanes(side, each, axis=0),
            limiting_current=np.concatenate([members[place].limiting_current for members in fed]),
        )
        for place, side in enumerate(sides)
    ]
    conductivity, thickness = (
        np.repeat(np.stack(drawn), count, axis=0) for drawn in zip(*films, strict=True)
    )
    currents = film_currents(together, lanes.narrowed(each), conductivity, thickness)
    return [currents.part(slice(count * place, count * (place + 1))) for place in range(len(periods))]


def _film(period: Spell) -> tuple[Array, Array]:
    """Conductivity [S/m] and thickness [m] of a film, sampled."""
    assert period.film_thickness_m is not None  # noqa: S101 - every spell that is no immersion has one
    thickness = period.film_thickness_m * period.film_spread ** scores("film")
    return _conductivity(period), np.maximum(thickness, THINNEST_FILM_M)


def _conductivity(period: Spell) -> Array:
    return period.conductivity_S_per_m * period.conductivity_spread ** scores("conductivity")


def _in_bulk(periods: Sequence[Spell], sides: Sequence[Branches], lanes: Lanes) -> list[Currents]:
    """Currents in each spell of immersion, in a pipe or in open water."""
    return [_immersed(period, sides, lanes) for period in periods]


def _immersed(period: Spell, sides: Sequence[Branches], lanes: Lanes) -> Currents:
    currents = Currents.unsolved(lanes.bores_m.size, SAMPLE_SIZE)
    conductivity, is_pipe = _conductivity(period), np.isfinite(lanes.bores_m)
    for chosen in filter(np.size, (np.flatnonzero(~is_pipe), np.flatnonzero(is_pipe))):
        part = lanes.narrowed(chosen)
        bore = part.bores_m[:, None] if is_pipe[chosen[0]] else REFERENCE_BORE
        fed = [with_oxygen(some_lanes(side, chosen, axis=0), period, None, bore) for side in sides]
        solve = pipe_currents if is_pipe[chosen[0]] else immersed_currents
        currents.put(chosen, solve(fed, part, conductivity))
    return currents


def with_oxygen(
    shares: Branches, period: Spell, thickness: Array | None, bore: FloatLike = REFERENCE_BORE
) -> Branches:
    """Branches whose limiting current follows from the oxygen that a spell supplies.

    Parameters
    ----------
    shares : Branches
        Their limiting current is the share of the supply that each surface uses in stagnant
        water [-].
    period : Spell
        Temperature, flow and conductivity [degC, m/s, S/m].
    thickness : ndarray, shape (SAMPLE_SIZE,), or None
        Thickness of the film, ``None`` for a bulk electrolyte [m].
    bore : float or ndarray
        Passage through which water flows [m].

    Returns
    -------
    Branches
        With limiting currents [A/m2].
    """
    limit = surface_limiting_current_density(
        oxygen_limit(period, thickness, bore), shares.limiting_current, _stagnant_limit(period)
    )
    return replace(shares, limiting_current=limit)


def _stagnant_limit(period: Spell) -> float:
    """Oxygen transport limit in deep stagnant water of a spell's kind [A/m2]."""
    salinity = salinity_g_per_kg(period.conductivity_S_per_m, period.temperature_C)
    return float(limiting_current_density(period.temperature_C, salinity)) * period.oxygen_ratio


def oxygen_limit(period: Spell, thickness: Array | None, bore: FloatLike = REFERENCE_BORE) -> Array:
    """Oxygen transport limit of a spell, sampled.

    Parameters
    ----------
    period : Spell
        Temperature, flow and conductivity [degC, m/s, S/m].
    thickness : ndarray, shape (SAMPLE_SIZE,), or None
        Thickness of the film, ``None`` for a bulk electrolyte [m].
    bore : float or ndarray, shape (lanes, 1)
        Passage through which water flows [m].

    Returns
    -------
    ndarray, shape (SAMPLE_SIZE,) or (lanes, SAMPLE_SIZE)
        Limiting current density of oxygen reduction [A/m2].
    """
    limit = limiting_current_density(
        period.temperature_C,
        salinity_g_per_kg=salinity_g_per_kg(period.conductivity_S_per_m, period.temperature_C),
        film_thickness=np.inf if thickness is None else thickness,
        velocity=period.flow_m_per_s if period.flow_m_per_s >= STAGNANT_BELOW_M_PER_S else None,
        bore=bore,
    )
    return np.asarray(limit * period.oxygen_ratio * OXYGEN_SCATTER ** scores("oxygen"))


def _oxygen_cap(
    cathodic: Array, lanes: Lanes, salted: Array, environment: Environment, catalogue: Catalogue
) -> Array:
    """Factor that holds the year-mean current of each cathode within what the open air feeds."""
    capacity = oxygen_capacity_A_per_m2(environment)
    if capacity is None:
        return np.ones(1)
    efficiency = kinetic_arrays(catalogue).efficiency.central[lanes.rows][:, :, None] * salted
    allowed = capacity * efficiency / STEEL_EFFICIENCY * AIR_SCATTER ** scores("atmosphere")
    return np.asarray(np.minimum(1.0, (allowed / np.maximum(cathodic, _NO_CURRENT)).min(axis=0)))
