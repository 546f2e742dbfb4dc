"""Solving joints under a film block by block, straight or round."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from service.chemistry.anchoring import Anchored, anchor
from service.chemistry.arrays import BoolArray, FloatArray, FloatLike, IntArray, blocks, flat_rows, take
from service.chemistry.branches import Branches, block_of, electrodes_and_lanes, flattened, stack
from service.chemistry.film_match import ApproximateMatch, EndRecord, ExactMatch, crossing
from service.chemistry.film_side import ENDLESS, Sides, zone
from service.chemistry.roots import RisingFunction, Roots, find_roots
from service.chemistry.round_match import RoundMatch, round_zone

REACH_SHARE = 0.9
"""Share of the current that leaves the metal within the reach."""

TOLERANCE = 1e-5
"""A lane is finished with a Newton step shorter than this [V]. It leaves about 1e-8 V, and a few
microvolts only where a side is that close to rest."""

RELATIVE_TOLERANCE = 1e-3
"""The same against the difference of the corrosion potentials, for couples that hardly differ [-]."""

NEGLIGIBLE_DIFFERENCE = 1e-9
"""Sides whose corrosion potentials differ by less drive no current [V]."""

_FIRST_TOLERANCE = 1e-3
"""Where ends matter the approximate match only has to begin near the root [V]."""

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
class _Block:
    """One block of joints: both sides, their extents ``(2, lanes)`` and the bracket of the root."""

    electrodes: Anchored
    conductance: FloatArray
    extents: FloatArray
    lower: FloatArray
    upper: FloatArray
    sign: FloatArray
    has_mean: bool

    def roots(self, match: RisingFunction, tolerance: FloatLike = TOLERANCE) -> Roots:
        """Joint potentials [V], sought from the middle of the bracket."""
        enough = np.minimum(tolerance, RELATIVE_TOLERANCE * (self.upper - self.lower))
        return find_roots(match, self.lower, self.upper, 0.5 * (self.lower + self.upper), enough)

    def refined(self, match: ExactMatch, begun: Roots, lanes: IntArray) -> Roots:
        """Joint potentials [V] where those of ``lanes`` are sought once more from what was found."""
        lower, upper = self.lower[lanes], self.upper[lanes]
        enough = np.minimum(TOLERANCE, RELATIVE_TOLERANCE * (upper - lower))
        found = find_roots(match, lower, upper, begun.x[lanes], enough, keep_finished=0.0)
        begun.x[lanes] = found.x
        begun.iterations[lanes] += found.iterations
        begun.converged[lanes] = found.converged
        return begun


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
    """Solve one block of straight joints; a lane takes the same way whatever its neighbours are."""
    sides = Sides(block.electrodes, block.conductance, block.extents)
    is_ended = np.broadcast_to(~np.isposinf(block.extents).all(axis=0), block.lower.shape)
    match = ApproximateMatch(sides, block.sign, has_ends=bool(is_ended.any()))
    roots = block.roots(match, np.where(is_ended, _FIRST_TOLERANCE, TOLERANCE))
    ended = np.flatnonzero(is_ended)
    record = EndRecord.begun(sides, roots.x) if ended.size > 0 else EndRecord.endless(sides, roots.x)
    if ended.size > 0:
        exact = ExactMatch(match.narrowed(ended), record, ended)
        exact.evaluate(roots.x[ended])
        roots = block.refined(exact, roots, ended)
    reach, mean = zone(sides, roots.x, record.theta, REACH_SHARE, has_mean=block.has_mean)
    return _answer(block, roots, crossing(record.logarithm, record.slope), reach, mean)


def _damped_block(block: _Block) -> _Answer:
    """Solve one block of straight joints whose ends only damp the current."""
    sides = Sides(block.electrodes, block.conductance, block.extents)
    roots = block.roots(ApproximateMatch(sides, block.sign, has_ends=True))
    record = EndRecord.begun(sides, roots.x)
    reach, mean = zone(sides, roots.x, record.theta, REACH_SHARE, has_mean=block.has_mean)
    return _answer(block, roots, crossing(record.logarithm, record.slope), reach, mean)


def _round_block(block: _Block) -> _Answer:
    """Solve one block of disks in plates."""
    sides = Sides(block.electrodes, block.conductance, np.full((2, 1), np.inf))
    radius, rim = block.extents
    match = RoundMatch(sides, radius, rim, block.sign, not bool(np.isposinf(rim).all()))
    roots = block.roots(match)
    current = crossing(*match.logarithms(roots.x))
    theta = np.full((2, roots.x.size), ENDLESS)
    straight, mean = zone(sides, roots.x, theta, REACH_SHARE, has_mean=block.has_mean)
    reach, area = round_zone(straight, radius, rim, REACH_SHARE)
    if block.has_mean:
        straight_net = REACH_SHARE * np.exp(sides.endless(roots.x)[0]) / straight
        dissolves = np.array([[1.0], [-1.0]]) * block.sign > 0.0
        mean += np.where(dissolves, REACH_SHARE * current / area - straight_net, 0.0)
    return _answer(block, roots, current, reach, mean)


def _answer(block: _Block, roots: Roots, current: FloatArray, reach: FloatArray, mean: FloatArray) -> _Answer:
    """What straight and round joints report alike; without a difference there is no reach."""
    is_still = block.upper - block.lower <= NEGLIGIBLE_DIFFERENCE
    potential = np.where(is_still, 0.5 * (block.lower + block.upper), roots.x)
    anodic, _, _ = block.electrodes.currents_and_integral(potential)
    return {
        "iterations": roots.iterations,
        "converged": (roots.converged & np.isfinite(current)) | (is_still & np.isfinite(anodic).all(axis=0)),
        "joint_potential": potential,
        "current_per_metre": np.where(is_still, 0.0, block.sign * current),
        "peak_anodic_current_density": anodic[0],
        "mean_anodic_current_density": np.where(is_still, anodic[0], mean[0]),
        "cathode_anodic_current_density": anodic[1],
        "anodic_reach": np.where(is_still, 0.0, reach[0]),
        "cathodic_reach": np.where(is_still, 0.0, reach[1]),
    }
