"""Solving joints under a film block by block, straight or round."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from service.chemistry.anchoring import Anchored, anchor
from service.chemistry.arrays import BoolArray, FloatArray, FloatLike, IntArray, blocks, flat_rows, kept, take
from service.chemistry.branches import Branches, block_of, electrodes_and_lanes, flattened, stack
from service.chemistry.film_match import (
    ApproximateMatch,
    EndRecord,
    ExactMatch,
    Match,
    SharedBracket,
    crossing,
)
from service.chemistry.film_side import SMALLEST_INTEGRAL, Sides
from service.chemistry.film_zone import endless_zone, zone
from service.chemistry.roots import Roots, find_roots
from service.chemistry.round_match import RoundMatch, round_zone

REACH_SHARE = 0.9
"""Share of the current that leaves the metal within the reach."""

TOLERANCE = 1e-3
"""A lane is finished with a Newton step shorter than this in the logarithm of the shares of the
bracket. It leaves about a millionth of the polarization of either side [-]."""

END_TOLERANCE = 1e-5
"""The same where ends are honoured exactly [V]."""

END_RELATIVE_TOLERANCE = 1e-3
"""The same against the difference of the corrosion potentials, for couples that hardly differ [-]."""

NEGLIGIBLE_DIFFERENCE = 1e-9
"""Sides whose corrosion potentials differ by less drive no current [V]."""

_FIRST_TOLERANCE = 1e-2
"""Where ends matter the approximate match only has to begin near the root [-]."""

_NEAREST_TO_END = 25.0
"""Logarithm of the shares of the bracket at which a side counts as unpolarized: it is 1e-11 of the
bracket from rest, where its potential still has some digits [-]."""

_FILM_BLOCK = 4096
_Answer: TypeAlias = dict[str, FloatArray | IntArray | BoolArray]


@dataclass(frozen=True, slots=True)
class FilmJoint:
    """Solved joints; every array has the common shape of the lanes.

    Attributes
    ----------
    joint_potential : ndarray
        Potential at the joint line [V vs SHE].
    current_per_metre : ndarray
        Current from the anode to the cathode per metre of joint line [A/m]; negative where the
        polarity is reversed.
    peak_anodic_current_density : ndarray
        Anodic partial current density of the anode at the joint line [A/m2].
    mean_anodic_current_density : ndarray
        The same averaged over its reach [A/m2]; self-corrosion is included in both.
    cathode_anodic_current_density : ndarray
        Anodic partial current density of the cathode at the joint line [A/m2].
    anodic_reach, cathodic_reach : ndarray
        Distance from the joint within which 90 % of the current leaves (enters) that side [m].
    iterations : ndarray of int
        Evaluations of the match [-].
    converged : ndarray of bool
        False where no answer was found, as with a not-a-number input [-].
    """

    joint_potential: FloatArray
    current_per_metre: FloatArray
    peak_anodic_current_density: FloatArray
    mean_anodic_current_density: FloatArray
    cathode_anodic_current_density: FloatArray
    anodic_reach: FloatArray
    cathodic_reach: FloatArray
    iterations: IntArray
    converged: BoolArray


@dataclass(frozen=True, slots=True)
class _AtJoint:
    """Both sides at the joint line: potentials [V], current densities [A/m2], integral [A V/m2].

    ``logarithm`` is that of the current per metre of endless straight sides, ``slope`` its derivative [1/V].
    """

    potential: FloatArray
    drive: FloatArray
    anodic: FloatArray
    net: FloatArray
    integral: FloatArray
    logarithm: FloatArray
    slope: FloatArray

    @property
    def driven(self) -> tuple[FloatArray, FloatArray, FloatArray]:
        """What the zone beside the joint follows from."""
        return self.drive, self.net, self.integral


@dataclass(frozen=True, slots=True)
class _Block:
    """One block of joints: both sides, their extents ``(2, lanes)`` and the bracket of the root."""

    electrodes: Anchored
    conductance: FloatArray
    extents: FloatArray
    lower: FloatArray
    upper: FloatArray
    sign: FloatArray
    has_mean: bool

    def roots(self, match: Match, tolerance: float = TOLERANCE) -> Roots:
        """Joint potentials [V], sought from the middle of the bracket."""
        shared = SharedBracket(match, self.lower, self.upper - self.lower)
        end = np.full(self.lower.shape, _NEAREST_TO_END)
        found = find_roots(shared, -end, end, np.zeros(end.shape), tolerance)
        return replace(found, x=shared.potential(found.x))

    def narrowed(self, keep: IntArray) -> _Block:
        """The same for some of the lanes."""
        return _Block(
            self.electrodes.narrowed(keep),
            kept(self.conductance, keep),
            kept(self.extents, keep),
            self.lower[keep],
            self.upper[keep],
            self.sign[keep],
            self.has_mean,
        )

    @property
    def is_still(self) -> BoolArray:
        """Where both sides rest at one potential."""
        return self.upper - self.lower <= NEGLIGIBLE_DIFFERENCE

    def at_joint(self, roots: Roots) -> _AtJoint:
        """Both sides at the joint potentials found."""
        potential = np.where(self.is_still, 0.5 * (self.lower + self.upper), roots.x)
        anodic, cathodic, integral = self.electrodes.currents_and_integral(potential)
        np.maximum(integral, SMALLEST_INTEGRAL, out=integral)
        drive = potential - self.electrodes.corrosion_potential
        net = anodic - cathodic
        logarithm = 0.5 * np.log(2.0 * self.conductance * integral)
        return _AtJoint(potential, drive, anodic, net, integral, logarithm, 0.5 * net / integral)

    def refined(self, match: ExactMatch, begun: FloatArray) -> Roots:
        """Joint potentials [V], sought once more from what was found."""
        enough = np.minimum(END_TOLERANCE, END_RELATIVE_TOLERANCE * (self.upper - self.lower))
        return find_roots(match, self.lower, self.upper, begun, enough, keep_finished=0.0)


def solve_straight(
    first: Branches,
    second: Branches,
    sheet_conductance: FloatLike,
    widths: tuple[FloatLike, FloatLike],
    *,
    has_exact_ends: bool = True,
    has_mean: bool = True,
) -> FilmJoint:
    """Joints along a straight line.

    Parameters
    ----------
    first, second : Branches
        The two sides [units of ``Branches``].
    sheet_conductance : float or ndarray
        Sheet conductance of the film [S].
    widths : tuple of float or ndarray
        Width of each side [m]; infinite where it has no end.
    has_exact_ends : bool
        Whether ends are honoured exactly or by damping alone, within some per cent [-].
    has_mean : bool
        Whether the mean over the reach is wanted; it is not-a-number otherwise [-].

    Returns
    -------
    FilmJoint
        The solved joints [V, A/m, A/m2, m].

    Examples
    --------
    >>> zinc, steel = Branches(-0.80, 0.10, 0.04, 0.12, 0.3), Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
    >>> bool(solve_straight(zinc, steel, 1.5e-4, (np.inf, np.inf)).converged)
    True
    """
    solve_block = _straight_block if has_exact_ends else _damped_block
    return _solve(first, second, sheet_conductance, widths, solve_block, has_mean=has_mean)


def solve_round(
    disk: Branches,
    plate: Branches,
    sheet_conductance: FloatLike,
    radii: tuple[FloatLike, FloatLike],
    *,
    has_mean: bool = True,
) -> FilmJoint:
    """Disks in plates.

    Parameters
    ----------
    disk, plate : Branches
        The two sides [units of ``Branches``].
    sheet_conductance : float or ndarray
        Sheet conductance of the film [S].
    radii : tuple of float or ndarray
        Radius of the disk and of the plate [m]; infinite where the plate has no end.
    has_mean : bool
        Whether the mean over the reach is wanted; it is not-a-number otherwise [-].

    Returns
    -------
    FilmJoint
        The solved joints [V, A/m, A/m2, m].

    Examples
    --------
    >>> zinc, steel = Branches(-0.80, 0.10, 0.04, 0.12, 0.3), Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
    >>> bool(solve_round(steel, zinc, 1.5e-4, (0.005, np.inf)).current_per_metre < 0.0)
    True
    """
    return _solve(disk, plate, sheet_conductance, radii, _round_block, has_mean=has_mean)


def _solve(
    first: Branches,
    second: Branches,
    sheet_conductance: FloatLike,
    extents: tuple[FloatLike, FloatLike],
    solve_block: Callable[[_Block], _Answer],
    *,
    has_mean: bool,
) -> FilmJoint:
    """Cut the lanes into blocks, solve each and put the answers into the shape of the question."""
    electrodes = stack([first, second])
    conductance = np.asarray(sheet_conductance, dtype=np.float64)[np.newaxis]
    extent = np.stack(np.broadcast_arrays(*(np.asarray(value, dtype=np.float64) for value in extents)))
    _, lanes = electrodes_and_lanes(electrodes, conductance, extent)
    rows = flattened(electrodes, 2, lanes)
    flat = flat_rows(conductance, 1, lanes), flat_rows(extent, 2, lanes)
    total = int(np.prod(lanes, dtype=np.int64))
    answer: dict[str, NDArray[Any]] = {name: np.empty(total, _TYPES.get(name, np.float64)) for name in _NAMES}
    with np.errstate(over="ignore", invalid="ignore", divide="ignore", under="ignore"):
        for block in blocks(total, _FILM_BLOCK):
            anchored = anchor(block_of(rows, block))
            rest = np.broadcast_to(anchored.corrosion_potential, (2, block.stop - block.start))
            sign = np.where(rest[0] <= rest[1], 1.0, -1.0)
            bracket = rest.min(axis=0), rest.max(axis=0)
            part = _Block(anchored, take(flat[0], block), take(flat[1], block), *bracket, sign, has_mean)
            for name, values in solve_block(part).items():
                answer[name][block] = values
    return FilmJoint(**{name: values.reshape(lanes) for name, values in answer.items()})


_NAMES = tuple(field.name for field in fields(FilmJoint))
_TYPES = {"iterations": np.int64, "converged": np.bool_}


def _straight_block(block: _Block) -> _Answer:
    """Solve one block of straight joints, those with and those without an end each in their own way."""
    is_ended = np.broadcast_to(~np.isposinf(block.extents).all(axis=0), block.lower.shape)
    if is_ended.all():
        return _ended_block(block)
    if not is_ended.any():
        return _endless_block(block)
    ended, endless = np.flatnonzero(is_ended), np.flatnonzero(~is_ended)
    answers = _ended_block(block.narrowed(ended)), _endless_block(block.narrowed(endless))
    order = np.argsort(np.concatenate([ended, endless]))
    return {name: np.concatenate([answer[name] for answer in answers])[order] for name in _NAMES}


def _endless_block(block: _Block) -> _Answer:
    """Solve one block of straight joints of endless sides."""
    sides = Sides(block.electrodes, block.conductance, block.extents)
    roots = block.roots(ApproximateMatch(sides, block.sign, has_ends=False))
    at_joint = block.at_joint(roots)
    current = crossing(at_joint.logarithm, at_joint.slope)
    reach, mean = endless_zone(sides, *at_joint.driven, REACH_SHARE, has_mean=block.has_mean)
    return _answer(block, roots, at_joint, current, reach, mean)


def _ended_block(block: _Block) -> _Answer:
    """Solve one block of straight joints of which a side has an end."""
    sides = Sides(block.electrodes, block.conductance, block.extents)
    match = ApproximateMatch(sides, block.sign, has_ends=True)
    begun = block.roots(match, _FIRST_TOLERANCE)
    record = EndRecord.begun(sides, begun.x)
    exact = ExactMatch(match, record, np.arange(begun.x.size))
    exact.evaluate(begun.x)
    found = block.refined(exact, begun.x)
    roots = replace(found, iterations=begun.iterations + found.iterations)
    reach, mean = zone(sides, roots.x, record.theta, REACH_SHARE, has_mean=block.has_mean)
    current = crossing(record.logarithm, record.slope)
    return _answer(block, roots, block.at_joint(roots), current, reach, mean)


def _damped_block(block: _Block) -> _Answer:
    """Solve one block of straight joints whose ends only damp the current."""
    sides = Sides(block.electrodes, block.conductance, block.extents)
    roots = block.roots(ApproximateMatch(sides, block.sign, has_ends=True))
    record = EndRecord.begun(sides, roots.x)
    current = crossing(record.logarithm, record.slope)
    reach, mean = zone(sides, roots.x, record.theta, REACH_SHARE, has_mean=block.has_mean)
    return _answer(block, roots, block.at_joint(roots), current, reach, mean)


def _round_block(block: _Block) -> _Answer:
    """Solve one block of disks in plates."""
    sides = Sides(block.electrodes, block.conductance, np.full((2, 1), np.inf))
    radius, rim = block.extents
    match = RoundMatch(sides, radius, rim, block.sign, not bool(np.isposinf(rim).all()))
    roots = block.roots(match)
    at_joint = block.at_joint(roots)
    bent = match.bent(at_joint.logarithm, at_joint.net, at_joint.drive[1])
    # Both sides carry nearly the same; the straight slopes only say which of them is known better.
    current = crossing(at_joint.logarithm + np.log(bent), at_joint.slope)
    straight, mean = endless_zone(sides, *at_joint.driven, REACH_SHARE, has_mean=block.has_mean)
    reach, area = round_zone(straight, radius, rim, REACH_SHARE)
    if block.has_mean:
        straight_net = REACH_SHARE * np.sqrt(2.0 * block.conductance * at_joint.integral) / straight
        dissolves = np.array([[1.0], [-1.0]]) * block.sign > 0.0
        mean += np.where(dissolves, REACH_SHARE * current / area - straight_net, 0.0)
    return _answer(block, roots, at_joint, current, reach, mean)


def _answer(
    block: _Block,
    roots: Roots,
    at_joint: _AtJoint,
    current: FloatArray,
    reach: FloatArray,
    mean: FloatArray,
) -> _Answer:
    """What straight and round joints report alike; without a difference there is no reach."""
    is_still, anodic = block.is_still, at_joint.anodic
    return {
        "iterations": roots.iterations,
        "converged": (roots.converged & np.isfinite(current)) | (is_still & np.isfinite(anodic).all(axis=0)),
        "joint_potential": at_joint.potential,
        "current_per_metre": np.where(is_still, 0.0, block.sign * current),
        "peak_anodic_current_density": anodic[0],
        "mean_anodic_current_density": np.where(is_still, anodic[0], mean[0]),
        "cathode_anodic_current_density": anodic[1],
        "anodic_reach": np.where(is_still, 0.0, reach[0]),
        "cathodic_reach": np.where(is_still, 0.0, reach[1]),
    }
