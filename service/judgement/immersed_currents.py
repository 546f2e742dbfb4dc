"""Couples in a bulk electrolyte: one potential for both sides, less the ohmic drop where it counts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.chemistry.branches import Branches, stack
from service.chemistry.immersed import disk_resistance, wagner_length
from service.chemistry.mixed_potential import MixedPotential, solve, solve_with_resistance
from service.judgement.currents import ENGAGED_SHARE, Array, Currents, Index, some_lanes
from service.judgement.draws import SAMPLE_SIZE
from service.judgement.lanes import Lanes

NEGLIGIBLE_DROP_V = 0.01
"""Ohmic drops below this do not move a couple's current by more than its uncertainty."""

LOCAL_LENGTHS = 3.0
"""Wagner lengths within which a part under poorly conducting water is attacked: area beyond about three
decay lengths has no effect. Where the drop is negligible they always exceed the part."""

LARGEST_OPENING_M = 2e-3
"""Disks up to this radius are openings in a coat; larger ones are fasteners."""


def immersed_currents(sides: Sequence[Branches], lanes: Lanes, conductivity: Array) -> Currents:
    """Solve immersed lanes.

    Parameters
    ----------
    sides : sequence of Branches
        Both sides, fields of shape ``(lanes, SAMPLE_SIZE)`` [units of ``Branches``].
    lanes : Lanes
        Areas and radii of the lanes [m2, m].
    conductivity : ndarray, shape (SAMPLE_SIZE,)
        Conductivity of the electrolyte [S/m].

    Returns
    -------
    Currents
        Net current densities over the whole wetted area of each side, and beside the joint [A/m2]. The
        reach is the width of a square of that area, or a few Wagner lengths where they are shorter [m]:
        there the attack is local, and the mean understates it.
    """
    electrodes = stack(sides)
    areas = np.broadcast_to(lanes.areas_m2[:, :, None], (2, lanes.rows.shape[1], SAMPLE_SIZE))
    solved = solve(electrodes, areas)
    net, potential, converged = solved.net_current, solved.potential, solved.converged
    resistance = bulk_resistance(lanes.areas_m2[:, :, None], lanes.radii_m[:, :, None], conductivity)
    drop = np.abs(net) * resistance
    width = np.array(np.sqrt(areas))
    hindered = np.flatnonzero(drop.max(axis=(0, 2)) > NEGLIGIBLE_DROP_V)
    if hindered.size:
        part = solve_with_resistance(
            some_lanes(electrodes, hindered, axis=1), areas[:, hindered], resistance[:, hindered]
        )
        net[:, hindered] = part.net_current
        potential[hindered] = part.potential
        converged[hindered] = part.converged
        width[:, hindered] = np.minimum(
            width[:, hindered], _local_width(sides, part, lanes, conductivity, resistance, hindered)
        )
    # Two electrodes of one corrosion potential make no couple, down to the last bit.
    rest = np.asarray(electrodes.corrosion_potential)
    density = np.where(rest[0] == rest[1], 0.0, net / areas)
    anodic = np.maximum(density, 0.0)
    beside_joint = anodic * np.maximum(ENGAGED_SHARE * np.sqrt(areas) / width, 1.0)
    return Currents(anodic, beside_joint, np.maximum(-density, 0.0), potential, width, converged)


def _local_width(
    sides: Sequence[Branches],
    solved: MixedPotential,
    lanes: Lanes,
    conductivity: Array,
    resistance: Array,
    hindered: Index,
) -> Array:
    """Width of the zone beside the joint that takes part: a few Wagner lengths; endless for openings."""
    at_surface = solved.potential - resistance[:, hindered] * solved.net_current
    wagner = np.stack(
        [
            wagner_length(conductivity, potential, some_lanes(side, hindered, axis=0))
            for potential, side in zip(at_surface, sides, strict=True)
        ]
    )
    is_opening = lanes.radii_m[:, hindered, None] < LARGEST_OPENING_M
    return np.where(is_opening, np.inf, LOCAL_LENGTHS * wagner)


def bulk_resistance(areas_m2: Array, radii_m: Array, conductivity: Array) -> Array:
    """Resistance between each electrode and the bulk: openings in parallel, or the whole as one disk.

    Parameters
    ----------
    areas_m2 : ndarray
        Wetted areas [m2].
    radii_m : ndarray
        Radii of openings, infinite where there are none [m].
    conductivity : ndarray
        Conductivity of the electrolyte [S/m].

    Returns
    -------
    ndarray
        Resistances, in the common shape of the three [ohm].
    """
    is_opening = radii_m < LARGEST_OPENING_M
    radii = np.where(is_opening, radii_m, np.sqrt(areas_m2 / np.pi))
    count = np.where(is_opening, np.maximum(areas_m2 / (np.pi * radii**2), 1.0), 1.0)
    return np.asarray(disk_resistance(conductivity, radii) / count)
