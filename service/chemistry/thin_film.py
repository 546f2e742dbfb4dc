"""Joints under a thin electrolyte film, without a mesh.

The two sides are matched in one unknown, the potential at the joint line; see ``film_side`` for
the first integral. The roles *anode* and *cathode* are only names for the two sides: a lane whose
sample reverses the polarity is solved like any other and returns a negative current.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from service.chemistry.anchoring import Anchored, anchor
from service.chemistry.arrays import BoolArray, FloatArray, FloatLike, IntArray, blocks, flat_rows, take
from service.chemistry.branches import Branches, block_of, electrodes_and_lanes, flattened, stack
from service.chemistry.film_match import ApproximateMatch, EndRecord, ExactMatch
from service.chemistry.film_side import ENDLESS, Sides, zone
from service.chemistry.roots import find_roots

REACH_SHARE = 0.9
"""Share of the current that leaves the metal within the reach."""

TOLERANCE = 1e-5
"""A lane is finished with a Newton step shorter than this, which leaves about 1e-8 V [V]."""

_FILM_BLOCK = 2048


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


def strip_joint(
    anode: Branches,
    cathode: Branches,
    conductivity: FloatLike,
    film_thickness: FloatLike,
    anode_width: FloatLike | None = None,
    cathode_width: FloatLike | None = None,
) -> FilmJoint:
    r"""Two plates that meet in a straight line under a film.

    :math:`I' = \sqrt{2\kappa h\,|\int_{E_\infty}^{E_j} i\,dE|}` on either side; a side of finite
    width :math:`w` ends at :math:`E_e` instead, with :math:`w = \int dE/|E'|`.

    Parameters
    ----------
    anode, cathode : Branches
        The two sides; all lanes broadcast [units of ``Branches``].
    conductivity : float or ndarray
        Conductivity of the film [S/m].
    film_thickness : float or ndarray
        Thickness of the film [m].
    anode_width, cathode_width : float or ndarray, optional
        Width of each side away from the joint line [m]; without it the side has no end.

    Returns
    -------
    FilmJoint
        Potential, currents and reaches [V, A/m, A/m2, m].

    Notes
    -----
    The film is taken as thin against the width of the attack, as equally thick everywhere and as
    one solution. The current agrees with a fine mesh within 2e-4.

    Examples
    --------
    >>> zinc = Branches(-0.80, 0.10, 0.04, 0.12, 0.3)
    >>> steel = Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
    >>> wide, narrow = (strip_joint(zinc, steel, 5.0, 30e-6, None, width) for width in (1.0, 1e-3))
    >>> bool(narrow.current_per_metre < 0.2 * wide.current_per_metre)
    True

    References
    ----------
    J. T. Waber, B. Fagan, Journal of the Electrochemical Society 103 (1956) 64 (films of limited
    thickness; from memory). The first integral is derived in ``film_side``.
    """
    return sheet_joint(anode, cathode, np.multiply(conductivity, film_thickness), anode_width, cathode_width)


def pipe_bore(
    anode: Branches,
    cathode: Branches,
    conductivity: FloatLike,
    bore: FloatLike,
    anode_length: FloatLike | None = None,
    cathode_length: FloatLike | None = None,
) -> FilmJoint:
    r"""Two pipes of one bore that meet end to end, full of electrolyte.

    :math:`d^2E/dx^2 = i\,P/(\kappa A)`: the sheet conductance of the film is replaced by
    :math:`\kappa A/P = \kappa d/4`.

    Parameters
    ----------
    anode, cathode : Branches
        The two pipes; all lanes broadcast [units of ``Branches``].
    conductivity : float or ndarray
        Conductivity of the electrolyte [S/m].
    bore : float or ndarray
        Inner diameter [m].
    anode_length, cathode_length : float or ndarray, optional
        Length of each pipe away from the joint [m]; without it the pipe has no end.

    Returns
    -------
    FilmJoint
        As for ``strip_joint``; the current is per metre of the bore's circumference
        [V, A/m, A/m2, m].

    Notes
    -----
    Valid where the reach is longer than the bore, so that the potential is even across it.

    Examples
    --------
    >>> iron = Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
    >>> copper = Branches(0.0, 0.01, 0.06, 0.12, 0.3)
    >>> bool(pipe_bore(iron, copper, 5.0, 0.05).anodic_reach > 0.05)
    True
    """
    return sheet_joint(anode, cathode, np.multiply(conductivity, bore) / 4.0, anode_length, cathode_length)


def sheet_joint(
    anode: Branches,
    cathode: Branches,
    sheet_conductance: FloatLike,
    anode_width: FloatLike | None = None,
    cathode_width: FloatLike | None = None,
) -> FilmJoint:
    r"""Two sides joined along a line by a conducting sheet: films, bores and crevices alike.

    :math:`S\,E'' = i(E)` with :math:`S = \kappa h` or :math:`\kappa A/P`.

    Parameters
    ----------
    anode, cathode : Branches
        The two sides; all lanes broadcast [units of ``Branches``].
    sheet_conductance : float or ndarray
        Conductivity times cross-section over wetted perimeter [S].
    anode_width, cathode_width : float or ndarray, optional
        Width of each side away from the joint line [m]; without it the side has no end.

    Returns
    -------
    FilmJoint
        Potential, currents and reaches [V, A/m, A/m2, m].

    Examples
    --------
    >>> zinc = Branches(-0.80, 0.10, 0.04, 0.12, 0.3)
    >>> steel = Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
    >>> bool(sheet_joint(zinc, steel, 1.5e-4).converged)
    True
    """
    electrodes = stack([anode, cathode])
    conductance = np.asarray(sheet_conductance, dtype=np.float64)[np.newaxis]
    ends = [np.inf if end is None else end for end in (anode_width, cathode_width)]
    width = np.stack(np.broadcast_arrays(*(np.asarray(end, dtype=np.float64) for end in ends)))
    _, lanes = electrodes_and_lanes(electrodes, conductance, width)
    rows = flattened(electrodes, 2, lanes)
    flat = flat_rows(conductance, 2, lanes), flat_rows(width, 2, lanes)
    total = int(np.prod(lanes, dtype=np.int64))
    answer = {field.name: np.empty(total) for field in fields(FilmJoint)}
    with np.errstate(over="ignore", invalid="ignore", divide="ignore", under="ignore"):
        for block in blocks(total, _FILM_BLOCK):
            sides = anchor(block_of(rows, block))
            solved = _solve_block(sides, take(flat[0], block), take(flat[1], block), block.stop - block.start)
            for name, values in solved.items():
                answer[name][block] = values
    shaped = {name: values.reshape(lanes) for name, values in answer.items()}
    return FilmJoint(
        **shaped
        | {"iterations": shaped["iterations"].astype(np.int64), "converged": shaped["converged"] == 1.0}
    )


def _solve_block(
    electrodes: Anchored, conductance: FloatArray, width: FloatArray, lanes: int
) -> dict[str, FloatArray | IntArray | BoolArray]:
    """Solve one block of joints."""
    rest = np.broadcast_to(electrodes.corrosion_potential, (2, lanes))
    lower, upper = rest.min(axis=0), rest.max(axis=0)
    sides = Sides(electrodes, conductance, width)
    sign = np.where(rest[0] <= rest[1], 1.0, -1.0)
    has_ends = not bool(np.isposinf(width).all())
    match = ApproximateMatch(sides, sign, has_ends)
    roots = find_roots(match, lower, upper, 0.5 * (lower + upper), TOLERANCE)
    theta = np.full((2, lanes), ENDLESS)
    iterations = roots.iterations
    if has_ends:
        record = EndRecord.begun(sides, roots.x)
        exact = ExactMatch(match, record, np.arange(lanes))
        exact.evaluate(roots.x)
        roots = find_roots(exact, lower, upper, roots.x, TOLERANCE)
        current, theta, iterations = record.current(roots.x), record.theta, iterations + roots.iterations
    else:
        current = np.exp(sides.endless(roots.x)[0][0])
    anodic, _, _ = electrodes.currents_and_integral(roots.x)
    reach, mean = zone(sides, roots.x, theta, REACH_SHARE)
    return {
        "joint_potential": roots.x,
        "current_per_metre": sign * current,
        "peak_anodic_current_density": anodic[0],
        "mean_anodic_current_density": mean[0],
        "cathode_anodic_current_density": anodic[1],
        "anodic_reach": reach[0],
        "cathodic_reach": reach[1],
        "iterations": iterations,
        "converged": roots.converged & np.isfinite(current),
    }
