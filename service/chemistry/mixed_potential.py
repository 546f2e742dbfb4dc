"""The common potential of electrodes that are joined in one electrolyte.

The root of ``sum A_k i_k(E) = 0`` lies between the lowest and the highest corrosion potential and
is the only one, because every net current rises with potential. It is sought on the logarithm of
the ratio of all anodic to all cathodic current, which is nearly straight, by Newton steps; a step
that leaves the bracket or does not halve the last one is replaced by halving the bracket.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.chemistry.anchoring import Anchored, anchor
from service.chemistry.arrays import BoolArray, FloatArray, FloatLike, IntArray, blocks, flat_rows, take
from service.chemistry.balance import Balance, ResistiveBalance
from service.chemistry.branches import Branches, block_of, electrodes_and_lanes, flattened, stack
from service.chemistry.roots import find_roots

RELATIVE_TOLERANCE = 1e-4
"""Length of the last Newton step against the difference of the corrosion potentials, where that is
less than the tolerance of the balance [-]."""

SMALLEST_TOLERANCE = 1e-10
"""Corrosion potentials that differ by less are equal [V]."""


@dataclass(frozen=True, slots=True)
class MixedPotential:
    """Solved couples. ``lanes`` is the common shape of all inputs behind the electrode axis.

    Attributes
    ----------
    potential : ndarray, shape lanes
        Potential of the joined metals, seen from the common solution [V vs SHE].
    electrode_potential : ndarray, shape (electrodes, *lanes)
        Potential of each electrode against the solution next to it; differs from ``potential``
        only behind a resistance [V vs SHE].
    net_current, anodic_current, cathodic_current : ndarray, shape (electrodes, *lanes)
        Galvanic current, as an ammeter shows it (anodic positive), and both partial currents
        [A]. The anodic one is what dissolves.
    iterations : ndarray of int, shape lanes
        Evaluations of the sum of currents [-].
    converged : ndarray of bool, shape lanes
        False where no answer was found, as with a not-a-number input [-].
    """

    potential: FloatArray
    electrode_potential: FloatArray
    net_current: FloatArray
    anodic_current: FloatArray
    cathodic_current: FloatArray
    iterations: IntArray
    converged: BoolArray


_PER_ELECTRODE = ("electrode_potential", "net_current", "anodic_current", "cathodic_current")


def solve(branches: Sequence[Branches] | Branches, areas: FloatLike) -> MixedPotential:
    r"""Mixed potential of two or more electrodes in one electrolyte.

    :math:`\sum_k A_k\,i_k(E) = 0`, solved as :math:`\ln\sum A_k i_{a,k} - \ln\sum A_k i_{c,k} = 0`.

    Parameters
    ----------
    branches : sequence of Branches, or Branches
        The electrodes; as one ``Branches`` its fields have the electrodes on axis 0
        [units of ``Branches``].
    areas : ndarray, shape (electrodes, *lanes)
        Wetted areas [m2]; lanes broadcast from the right.

    Returns
    -------
    MixedPotential
        Potential, currents, iterations and flag of each lane [V, A].

    Notes
    -----
    The root is always bracketed. Lanes are solved in blocks, so that memory beyond inputs and
    outputs does not grow with their number.

    Examples
    --------
    >>> zinc = Branches(-0.80, 0.10, 0.04, 0.12, 0.3)
    >>> steel = Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
    >>> couple = solve([zinc, steel], np.array([1.0, 1.0]))
    >>> bool(-0.80 < couple.potential < -0.40), bool(couple.converged)
    (True, True)

    References
    ----------
    C. Wagner, W. Traud, Zeitschrift fuer Elektrochemie 44 (1938) 391 (mixed potentials; from memory).
    """
    return _solve(branches, areas, None)


def solve_with_resistance(
    branches: Sequence[Branches] | Branches, areas: FloatLike, resistances: FloatLike
) -> MixedPotential:
    r"""Mixed potential of electrodes that reach the common solution through resistances.

    :math:`\sum_k I_k = 0` with :math:`I_k = A_k\,i_k(E - R_k I_k)`. The inner equation of each
    electrode is solved for every trial potential; the outer root stays bracketed by the corrosion
    potentials, because each current still rises with the common potential and is zero at its own.

    Parameters
    ----------
    branches : sequence of Branches, or Branches
        The electrodes; as one ``Branches`` its fields have the electrodes on axis 0
        [units of ``Branches``].
    areas : ndarray, shape (electrodes, *lanes)
        Wetted areas [m2]; lanes broadcast from the right.
    resistances : ndarray, shape (electrodes, *lanes)
        Resistance between each electrode and the common solution [ohm]; zero for none.

    Returns
    -------
    MixedPotential
        Potential, currents, iterations and flag of each lane [V, A].

    Notes
    -----
    Exact for any number of electrodes that meet in one point of the solution.

    Examples
    --------
    >>> zinc = Branches(-0.80, 0.10, 0.04, 0.12, 0.3)
    >>> steel = Branches(-0.40, 0.10, 0.06, 0.12, 0.3)
    >>> short = solve([zinc, steel], np.ones(2)).net_current[0]
    >>> far = solve_with_resistance([zinc, steel], np.ones(2), np.array([0.0, 1e3])).net_current[0]
    >>> bool(far < 0.01 * short)
    True
    """
    return _solve(branches, areas, resistances)


def _solve(
    branches: Sequence[Branches] | Branches, areas: FloatLike, resistances: FloatLike | None
) -> MixedPotential:
    """Cut the lanes into blocks, solve each and put the answers into the shape of the question."""
    electrodes = branches if isinstance(branches, Branches) else stack(branches)
    others = [areas] if resistances is None else [areas, resistances]
    count, lanes = electrodes_and_lanes(electrodes, *others)
    rows = flattened(electrodes, count, lanes)
    flat = [flat_rows(np.asarray(other, dtype=np.float64), count, lanes) for other in others]
    total = int(np.prod(lanes, dtype=np.int64))
    answer = MixedPotential(
        potential=np.empty(total),
        **{name: np.empty((count, total)) for name in _PER_ELECTRODE},
        iterations=np.empty(total, np.int64),
        converged=np.empty(total, np.bool_),
    )
    with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
        for block in blocks(total):
            _solve_block(anchor(block_of(rows, block)), [take(other, block) for other in flat], answer, block)
    return MixedPotential(
        potential=answer.potential.reshape(lanes),
        **{name: getattr(answer, name).reshape(count, *lanes) for name in _PER_ELECTRODE},
        iterations=answer.iterations.reshape(lanes),
        converged=answer.converged.reshape(lanes),
    )


def _solve_block(electrodes: Anchored, flat: list[FloatArray], answer: MixedPotential, block: slice) -> None:
    """Solve one block of lanes and write it into the answer."""
    rest = np.broadcast_to(electrodes.corrosion_potential, (flat[0].shape[0], block.stop - block.start))
    lower, upper = rest.min(axis=0), rest.max(axis=0)
    areas = flat[0]
    balance = Balance(electrodes.scaled(areas)) if len(flat) == 1 else ResistiveBalance(electrodes, *flat)
    tolerance = np.clip(RELATIVE_TOLERANCE * (upper - lower), SMALLEST_TOLERANCE, balance.tolerance)
    roots = find_roots(balance, lower, upper, upper, tolerance)
    currents = balance.currents(roots.x)
    answer.potential[block] = roots.x
    answer.electrode_potential[:, block] = currents.potential
    answer.anodic_current[:, block] = currents.anodic
    answer.cathodic_current[:, block] = currents.cathodic
    answer.net_current[:, block] = currents.net
    answer.iterations[block] = roots.iterations
    answer.converged[block] = roots.converged
