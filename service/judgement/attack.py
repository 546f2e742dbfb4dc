"""Solving the lanes: where a couple settles and what current leaves each side.

Immersed lanes share one potential in the bulk, less the ohmic drop at openings. Film lanes carry
their current along the film, so only a zone beside the joint takes part; its rate is reported as
the mean over that zone, and the peak at the joint line beside it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Exposure
from service.chemistry.immersed import disk_resistance
from service.chemistry.kinetics import Branches, stack
from service.chemistry.mixed_potential import solve, solve_with_resistance
from service.chemistry.oxygen import limiting_current_density
from service.chemistry.thin_film import round_joint, strip_joint
from service.judgement.draws import SAMPLE_SIZE, kinetic_arrays, scores
from service.judgement.lanes import Lanes
from service.judgement.regimes import Spell, spells
from service.judgement.uncoupled import oxygen_capacity_A_per_m2

Array = NDArray[np.float64]

CHOKED_A_PER_M2 = 10.0
"""Largest year-mean current density of a zone under a film or behind an opening: products choke
it, and no metal is known to lose more than about a centimetre a year in natural films. From
memory, an order of magnitude; it keeps figures credible, severity is beyond the last band long
before."""

ENGAGED_SHARE = 0.9
"""Share of the current that the engaged zone carries, by the definition of reach."""

ENDLESS_WIDTH_M = 0.08
"""A strip this wide counts as endless under a film: reach is millimetres to a few centimetres, and
area beyond about three decay lengths has no effect."""

SMALLEST_ZONE_M = 2e-3
"""Loss is averaged over at least this width: a groove that eats a section's allowance spreads
sideways about as far as it goes deep, and published losses of couples in open air are means over
millimetres. House rule."""

STEEL_EFFICIENCY = 0.75
"""Oxygen efficiency of the steel whose own rate sets the year-mean capacity of the air."""

AIR_SCATTER = 1.5
"""One-sigma factor on that capacity: the stated uncertainty of the dose-response functions."""

NEGLIGIBLE_DROP_V = 0.01
"""Ohmic drops below this do not move a couple's current by more than its uncertainty."""

LARGEST_OPENING_M = 2e-3
"""Disks up to this radius are openings in a coat; larger ones are fasteners."""

STAGNANT_BELOW_M_PER_S = 0.05
"""Slower water moves by natural convection, whose layer is the stagnant one."""

OXYGEN_SCATTER = 1.35
"""One-sigma factor on oxygen transport: natural convection and drying are never alike (from memory)."""


@dataclass(frozen=True, slots=True)
class Attack:
    """Currents of all lanes in the mean of a year; side first, then lane, then sample.

    ``galvanic_density`` and ``peak_density`` are net anodic current densities over the engaged
    zone and at the joint line (A/m2, zero on a cathode), ``potential`` the couple potential of
    the wettest spell (V vs SHE), ``reach`` the width of the engaged zone (m), ``wet_share`` the
    share of the year with an electrolyte.
    """

    galvanic_density: Array
    peak_density: Array
    cathodic_density: Array
    potential: Array
    reach: Array
    wet_share: float
    has_converged: NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class _Spell:
    """Currents of one spell while it lasts."""

    anodic: Array
    peak: Array
    cathodic: Array
    potential: Array
    reach: Array
    converged: NDArray[np.bool_]


def attack_of(lanes: Lanes, environment: Environment, catalogue: Catalogue) -> Attack:
    """Solve all lanes in all spells of an environment and take the mean of the year."""
    periods = spells(environment)
    shape = (2, lanes.rows.shape[1], SAMPLE_SIZE)
    anodic, peak, cathodic = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    potential, reach = np.zeros(shape[1:]), np.zeros(shape)
    converged = np.ones(shape[1:], dtype=np.bool_)
    heaviest = -1.0
    for period in periods:
        result = _solve_spell(period, lanes, catalogue)
        share = period.share_of_year
        anodic += share * result.anodic
        peak += share * result.peak
        cathodic += share * result.cathodic
        converged &= result.converged
        weight = share * float(np.mean(result.anodic))
        if weight > heaviest:
            heaviest, potential, reach = weight, result.potential, result.reach
    if environment.exposure is not Exposure.IMMERSED:
        scale = _oxygen_cap(cathodic, lanes, environment, catalogue)
        anodic = np.minimum(anodic * scale, CHOKED_A_PER_M2)
        peak, cathodic = np.minimum(peak * scale, CHOKED_A_PER_M2), cathodic * scale
    return Attack(
        anodic,
        peak,
        cathodic,
        potential,
        reach,
        min(sum(period.share_of_year for period in periods), 1.0),
        converged,
    )


def _solve_spell(period: Spell, lanes: Lanes, catalogue: Catalogue) -> _Spell:
    conductivity = period.conductivity_S_per_m * period.conductivity_spread ** scores("conductivity")
    thickness = None
    if period.film_thickness_m is not None:
        thickness = period.film_thickness_m * period.film_spread ** scores("film")
        thickness = np.maximum(thickness, 5e-6)
    oxygen = _oxygen_limit(period, thickness)
    arrays = kinetic_arrays(catalogue)
    sides = [arrays.branches(lanes.rows[side], oxygen[None, :], lanes.draws[side]) for side in (0, 1)]
    if thickness is None:
        return _immersed(sides, lanes, conductivity)
    return _film(sides, lanes, conductivity, thickness)


def _oxygen_limit(period: Spell, thickness: Array | None) -> Array:
    limit = limiting_current_density(
        period.temperature_C,
        salinity_g_per_kg=_salinity(period.conductivity_S_per_m),
        film_thickness=np.inf if thickness is None else thickness,
        velocity=period.flow_m_per_s if period.flow_m_per_s >= STAGNANT_BELOW_M_PER_S else None,
    )
    return np.asarray(limit * period.oxygen_ratio * OXYGEN_SCATTER ** scores("oxygen") * np.ones(SAMPLE_SIZE))


def _salinity(conductivity_S_per_m: float) -> float:
    """Salinity that gives a conductivity, from sea water (4.29 S/m at 35 g/kg, 15 degC), in proportion."""
    return min(35.0 * conductivity_S_per_m / 4.29, 200.0)


def _immersed(sides: list[Branches], lanes: Lanes, conductivity: Array) -> _Spell:
    electrodes = stack(sides)
    areas = np.broadcast_to(lanes.areas_m2[:, :, None], (2, lanes.rows.shape[1], SAMPLE_SIZE))
    solved = solve(electrodes, areas)
    net, potential, converged = solved.net_current, solved.potential, np.asarray(solved.converged)
    resistance = _bulk_resistance(lanes, conductivity)
    drop = np.abs(net) * resistance
    hindered = np.flatnonzero(drop.max(axis=(0, 2)) > NEGLIGIBLE_DROP_V)
    if hindered.size:
        part = solve_with_resistance(_take(electrodes, hindered), areas[:, hindered], resistance[:, hindered])
        net, potential, converged = net.copy(), potential.copy(), converged.copy()
        net[:, hindered] = part.net_current
        potential[hindered] = part.potential
        converged[hindered] = part.converged
    density = net / areas
    return _Spell(
        np.maximum(density, 0.0),
        np.maximum(density, 0.0),
        np.maximum(-density, 0.0),
        potential,
        np.sqrt(areas),
        converged,
    )


def _bulk_resistance(lanes: Lanes, conductivity: Array) -> Array:
    """Resistance between each side and the bulk: openings in parallel, or the side as one disk [ohm]."""
    areas = lanes.areas_m2[:, :, None]
    is_opening = lanes.radii_m < LARGEST_OPENING_M
    radii = np.where(is_opening, lanes.radii_m, np.sqrt(lanes.areas_m2 / np.pi))[:, :, None]
    count = np.where(is_opening[:, :, None], np.maximum(areas / (np.pi * radii**2), 1.0), 1.0)
    return np.asarray(disk_resistance(conductivity[None, None, :], radii) / count)


def _take(electrodes: Branches, chosen: NDArray[np.intp]) -> Branches:
    values = {}
    for name in Branches.__slots__:
        array = np.asarray(getattr(electrodes, name))
        values[name] = array[:, chosen] if array.ndim > 1 and array.shape[1] > 1 else array
    return Branches(**values)


def _film(sides: list[Branches], lanes: Lanes, conductivity: Array, thickness: Array) -> _Spell:
    count = lanes.rows.shape[1]
    result = _Spell(
        np.zeros((2, count, SAMPLE_SIZE)),
        np.zeros((2, count, SAMPLE_SIZE)),
        np.zeros((2, count, SAMPLE_SIZE)),
        np.zeros((count, SAMPLE_SIZE)),
        np.zeros((2, count, SAMPLE_SIZE)),
        np.ones((count, SAMPLE_SIZE), dtype=np.bool_),
    )
    is_disk = np.isfinite(lanes.radii_m)
    groups = (
        (np.flatnonzero(~is_disk.any(axis=0)), None),
        (np.flatnonzero(is_disk[1]), 1),
        (np.flatnonzero(is_disk[0] & ~is_disk[1]), 0),
    )
    for chosen, disk in groups:
        if chosen.size:
            _film_group(result, sides, lanes, conductivity, thickness, chosen, disk)
    return result


def _film_group(
    result: _Spell,
    sides: list[Branches],
    lanes: Lanes,
    conductivity: Array,
    thickness: Array,
    chosen: NDArray[np.intp],
    disk: int | None,
) -> None:
    """Solve the film lanes of one shape: strips, or a disk (``disk`` names its side) in a plate."""
    parts = [_take_lanes(side, chosen) for side in sides]
    widths = lanes.widths_m[:, chosen][:, :, None]
    if disk is None:
        order = (0, 1)
        ends = np.where(widths < ENDLESS_WIDTH_M, widths, np.inf)
        joint = strip_joint(parts[0], parts[1], conductivity, thickness, ends[0], ends[1])
    else:
        order = (disk, 1 - disk)
        radius = lanes.radii_m[disk, chosen][:, None]
        joint = round_joint(parts[disk], parts[1 - disk], conductivity, thickness, radius)
    # Two electrodes of one corrosion potential make no couple: no current, no reach.
    rest = np.asarray(parts[0].corrosion_potential)
    is_alike = rest == np.asarray(parts[1].corrosion_potential)
    from_first = np.where(is_alike, 0.0, joint.current_per_metre)
    for place, side in enumerate(order):
        current = from_first if place == 0 else -from_first
        reach = np.where(is_alike, 0.0, (joint.anodic_reach, joint.cathodic_reach)[place])
        # A zone too wide or too narrow to be found is taken as narrow, which errs towards attack.
        reach = np.nan_to_num(reach, nan=0.0)
        limit = np.inf if disk is None else radius
        engaged = _engaged_width(reach, widths[side], limit, is_inside=place == 0)
        zone = _engaged_width(
            np.maximum(reach, SMALLEST_ZONE_M),
            np.maximum(widths[side], SMALLEST_ZONE_M),
            limit,
            is_inside=place == 0,
        )
        result.anodic[side][chosen] = np.maximum(ENGAGED_SHARE * current / zone, 0.0)
        result.cathodic[side][chosen] = np.maximum(-ENGAGED_SHARE * current / engaged, 0.0)
        peak = (joint.peak_anodic_current_density, joint.cathode_anodic_current_density)[place]
        result.peak[side][chosen] = np.where(is_alike, 0.0, np.maximum(peak, 0.0))
        result.reach[side][chosen] = reach
    result.potential[chosen] = np.where(is_alike, rest, joint.joint_potential)
    result.converged[chosen] = joint.converged | is_alike


def _engaged_width(reach: Array, width: Array, radius: float | Array, *, is_inside: bool) -> Array:
    """Area of the zone that takes part per metre of joint line [m].

    A strip's zone ends at its width; around a disk it is a ring, inside it at most the disk.
    """
    if np.ndim(radius) == 0:
        return np.maximum(np.minimum(reach, width), 1e-9)
    if is_inside:
        area = radius**2 - np.maximum(radius - reach, 0.0) ** 2
    else:
        area = (radius + reach) ** 2 - radius**2
    return np.asarray(np.maximum(area / (2.0 * radius), 1e-9))


def _oxygen_cap(cathodic: Array, lanes: Lanes, environment: Environment, catalogue: Catalogue) -> Array:
    """Factor that holds the year-mean current of each cathode within what the open air feeds."""
    capacity = oxygen_capacity_A_per_m2(environment)
    if capacity is None:
        return np.ones((1, 1))
    arrays = kinetic_arrays(catalogue)
    drawn = np.maximum(cathodic, 1e-30)
    allowed = capacity * arrays.efficiency[lanes.rows][:, :, None] / STEEL_EFFICIENCY
    scatter = AIR_SCATTER ** scores("atmosphere")
    return np.asarray(np.minimum(1.0, (allowed * scatter / drawn).min(axis=0)))[None]


def _take_lanes(branches: Branches, chosen: NDArray[np.intp]) -> Branches:
    values = {}
    for name in Branches.__slots__:
        array = np.asarray(getattr(branches, name))
        values[name] = array[chosen] if array.ndim > 1 and array.shape[0] > 1 else array
    return Branches(**values)
