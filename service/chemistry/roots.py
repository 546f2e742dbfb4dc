"""Safeguarded Newton search on many lanes at once.

Each lane has one rising function with one root inside its bracket. A Newton step that leaves the
bracket, or that is longer than half the one before, is replaced by halving the bracket; so every
lane ends, and almost all end quadratically. Finished lanes are dropped at once, so that no lane
depends on its neighbours.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, Self

import numpy as np

from service.chemistry.arrays import BoolArray, FloatArray, FloatLike, IntArray


class RisingFunction(Protocol):
    """Functions of one variable, one for each lane."""

    def evaluate(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Values and derivatives at ``x``."""

    def narrowed(self, keep: IntArray) -> Self:
        """The same functions for some of the lanes."""


@dataclass(frozen=True, slots=True)
class Roots:
    """Where the functions cross zero, and how the search went.

    Attributes
    ----------
    x : ndarray, shape (lanes,)
        The roots; not-a-number where a function is [unit of the bracket].
    iterations : ndarray of int, shape (lanes,)
        Evaluations spent [-].
    converged : ndarray of bool, shape (lanes,)
        Whether the last step or the bracket is shorter than the tolerance [-].
    """

    x: FloatArray
    iterations: IntArray
    converged: BoolArray


def find_roots(
    function: RisingFunction,
    lower: FloatArray,
    upper: FloatArray,
    start: FloatArray,
    tolerance: FloatLike,
    maximum_iterations: int = 60,
) -> Roots:
    """Find the root of each rising function inside its bracket.

    Parameters
    ----------
    function : RisingFunction
        Values and derivatives of all lanes [any].
    lower, upper : ndarray, shape (lanes,)
        Bracket [unit of x].
    start : ndarray, shape (lanes,)
        First guess, inside the bracket [unit of x].
    tolerance : float or ndarray, shape (lanes,)
        Length of the last Newton step, which is still taken and leaves an error of its square, or
        of the bracket [unit of x].
    maximum_iterations : int
        Evaluations after which a lane is given up [-].

    Returns
    -------
    Roots
        Roots, iterations and flags [unit of x].

    Examples
    --------
    >>> class Line:
    ...     def evaluate(self, x): return x - 0.25, np.ones_like(x)
    ...     def narrowed(self, keep): return self
    >>> find_roots(Line(), np.zeros(1), np.ones(1), np.full(1, 0.5), 1e-9).x.tolist()
    [0.25]
    """
    roots = Roots(start.copy(), np.zeros(start.shape, np.int64), np.zeros(start.shape, np.bool_))
    with np.errstate(over="ignore", divide="ignore", invalid="ignore"):
        _search(
            function,
            lower.copy(),
            upper.copy(),
            np.broadcast_to(tolerance, start.shape),
            roots,
            maximum_iterations,
        )
    return roots


def _search(
    function: RisingFunction,
    lower: FloatArray,
    upper: FloatArray,
    enough: FloatArray,
    roots: Roots,
    maximum_iterations: int,
) -> None:
    """Run the search and write into ``roots``, whose ``x`` holds the first guesses."""
    lanes, x, last = np.arange(lower.size), roots.x.copy(), upper - lower
    for iteration in range(1, maximum_iterations + 1):
        value, slope = function.evaluate(x)
        np.copyto(lower, x, where=value <= 0.0)
        np.copyto(upper, x, where=value >= 0.0)
        step = -value / slope
        length, following = np.abs(step), x + step
        is_inside = (following >= lower) & (following <= upper)
        settled = is_inside & (length <= enough)
        np.copyto(following, 0.5 * (lower + upper), where=~(is_inside & (2.0 * length <= last)) & ~settled)
        last, x = np.abs(following - x), following
        reached = settled | (upper - lower <= enough)
        roots.x[lanes] = np.where(np.isnan(value) & ~reached, np.nan, x)
        roots.iterations[lanes] = iteration
        roots.converged[lanes] = reached
        keep = np.flatnonzero(~(reached | np.isnan(value)))
        if keep.size == 0:
            return
        if keep.size < lanes.size:
            function, lanes = function.narrowed(keep), lanes[keep]
            x, lower, upper, last, enough = (part[keep] for part in (x, lower, upper, last, enough))
