"""Couples under a thin film: the current runs along the film, so only a zone beside the joint takes part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from service.chemistry.branches import Branches
from service.chemistry.film_joint import FilmJoint
from service.chemistry.thin_film import round_joint, strip_joint
from service.judgement.currents import ENGAGED_SHARE, Array, Currents, Index, some_lanes
from service.judgement.draws import SAMPLE_SIZE
from service.judgement.lanes import Lanes

ENDLESS_WIDTH_M = 0.08
"""A strip this wide counts as endless under a film: reach is millimetres to a few centimetres, and
area beyond about three decay lengths has no effect."""

SMALLEST_ZONE_M = 2e-3
"""Loss is averaged over at least this width: a groove that eats a section's allowance spreads
sideways about as far as it goes deep, and published losses of couples in open air are means over
millimetres. House rule."""

_NARROWEST_M = 1e-9


def film_currents(sides: Sequence[Branches], lanes: Lanes, conductivity: Array, thickness: Array) -> Currents:
    """Solve lanes under a film, those of one shape together.

    Parameters
    ----------
    sides : sequence of Branches
        Both sides, fields of shape ``(lanes, SAMPLE_SIZE)`` [units of ``Branches``].
    lanes : Lanes
        Radii and widths of the lanes [m].
    conductivity : ndarray, shape (lanes, SAMPLE_SIZE)
        Conductivity of the film [S/m].
    thickness : ndarray, shape (lanes, SAMPLE_SIZE)
        Thickness of the film [m].

    Returns
    -------
    Currents
        Net current densities over the engaged zone [A/m2] and its width [m].
    """
    currents = Currents.unsolved(lanes.rows.shape[1], SAMPLE_SIZE)
    for chosen, disk, has_ends in _shapes(lanes):
        parts = [some_lanes(side, chosen, axis=0) for side in sides]
        widths, radius = lanes.widths_m[:, chosen, None], lanes.radii_m[:, chosen, None]
        film = conductivity[chosen], thickness[chosen]
        if disk is None:
            ends = np.where(widths < ENDLESS_WIDTH_M, widths, np.inf) if has_ends else (None, None)
            joint = strip_joint(parts[0], parts[1], film[0], film[1], ends[0], ends[1], has_mean=False)
        else:
            inner, outer = parts[disk], parts[1 - disk]
            joint = round_joint(inner, outer, film[0], film[1], radius[disk], has_mean=False)
        record(currents, chosen, parts, joint, widths, radius, disk)
    return currents


def film_lanes(lanes: Lanes) -> Lanes:
    """Lanes without what does not count under a film, so that more of them are alike.

    Parameters
    ----------
    lanes : Lanes
        Areas, radii and widths of the lanes [m2, m].

    Returns
    -------
    Lanes
        Areas stay only where both sides are disks, of which the smaller one is the inner one, and
        widths only where none is [m2, m].
    """
    is_disk = np.isfinite(lanes.radii_m)
    return replace(
        lanes,
        areas_m2=np.where(is_disk.all(axis=0), lanes.areas_m2, 1.0),
        widths_m=np.where(is_disk.any(axis=0), np.inf, lanes.widths_m),
    )


def _shapes(lanes: Lanes) -> Iterator[tuple[Index, int | None, bool]]:
    """Lanes of one shape with the side that is a disk, if one is, and whether a strip has an end.

    Endless strips are kept apart from those with an end, so that the search for one lane does not
    depend on which others are in the batch. Where both sides are openings the smaller one is the
    disk, so that it does not matter which side is called the first.
    """
    is_disk = np.isfinite(lanes.radii_m)
    is_strip = ~is_disk.any(axis=0)
    has_end = (lanes.widths_m < ENDLESS_WIDTH_M).any(axis=0)
    areas, rows = lanes.areas_m2, lanes.rows
    is_second_smaller = (areas[1] < areas[0]) | ((areas[1] == areas[0]) & (rows[1] < rows[0]))
    is_second = is_disk[1] & (~is_disk[0] | is_second_smaller)
    for members, disk, has_ends in (
        (is_strip & ~has_end, None, False),
        (is_strip & has_end, None, True),
        (is_second, 1, False),
        (is_disk[0] & ~is_second, 0, False),
    ):
        if members.any():
            yield np.flatnonzero(members), disk, has_ends


def record(
    currents: Currents,
    chosen: Index,
    parts: Sequence[Branches],
    joint: FilmJoint,
    widths: Array,
    radius: Array | None,
    disk: int | None,
) -> None:
    """Write the solved lanes of one shape in their places.

    Parameters
    ----------
    currents : Currents
        What is written to [A/m2, V, m].
    chosen : ndarray of int
        Numbers of the lanes [-].
    parts : sequence of Branches
        Both sides of those lanes [units of ``Branches``].
    joint : FilmJoint
        Their solution; its first side is the disk where there is one [V, A/m, A/m2, m].
    widths : ndarray, shape (2, lanes, 1)
        Widths of both sides [m].
    radius : ndarray, shape (2, lanes, 1), or None
        Radii of disks; not used without a disk [m].
    disk : int or None
        Side that is a disk, if one is [-].
    """
    # Two electrodes of one corrosion potential make no couple: no current, no reach.
    rest = np.asarray(parts[0].corrosion_potential)
    is_alike = rest == np.asarray(parts[1].corrosion_potential)
    from_first = np.where(is_alike, 0.0, joint.current_per_metre)
    limit = None if disk is None or radius is None else radius[disk]
    for place, side in enumerate((0, 1) if disk is None else (disk, 1 - disk)):
        current = -from_first if place else from_first
        # A zone too wide or too narrow to be found is taken as narrow, which errs towards attack.
        found = (joint.anodic_reach, joint.cathodic_reach)[place]
        reach = np.where(is_alike, 0.0, np.nan_to_num(found, nan=0.0))
        engaged = _engaged_width(reach, widths[side], limit, is_inside=place == 0)
        zone = _engaged_width(
            np.maximum(reach, SMALLEST_ZONE_M),
            np.maximum(widths[side], SMALLEST_ZONE_M),
            limit,
            is_inside=place == 0,
        )
        peak = (joint.peak_anodic_current_density, joint.cathode_anodic_current_density)[place]
        currents.anodic[side, chosen] = np.maximum(ENGAGED_SHARE * current / zone, 0.0)
        currents.cathodic[side, chosen] = np.maximum(-ENGAGED_SHARE * current / engaged, 0.0)
        currents.peak[side, chosen] = np.where(is_alike, 0.0, np.maximum(peak, 0.0))
        currents.reach[side, chosen] = reach
    currents.potential[chosen] = np.where(is_alike, rest, joint.joint_potential)
    currents.has_converged[chosen] = joint.converged | is_alike


def _engaged_width(reach: Array, width: Array, radius: Array | None, *, is_inside: bool) -> Array:
    """Area of the zone that takes part per metre of joint line [m].

    A strip's zone ends at its width; around a disk it is a ring, inside it at most the disk.
    """
    if radius is None:
        area = np.minimum(reach, width)
    elif is_inside:
        area = (radius**2 - np.maximum(radius - reach, 0.0) ** 2) / (2.0 * radius)
    else:
        area = ((radius + reach) ** 2 - radius**2) / (2.0 * radius)
    return np.asarray(np.maximum(area, _NARROWEST_M))
