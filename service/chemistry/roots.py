"""Safeguarded Newton search on many lanes at once.

Each lane has one rising function with one root inside its bracket. The bracket is halved instead of
a Newton step that would leave it, and after a step that did not halve the function; so every lane
ends, and almost all end quadratically.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, Self

import numpy as np

from service.chemistry.arrays import BoolArray, FloatArray, FloatLike, IntArray, blended


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
    keep_finished: float = 0.3,
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
    keep_finished : float
        Share of finished lanes that are carried along before the others are copied together [-];
        0 where evaluating a lane once more would change something.

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
    bracket = lower.copy(), upper.copy(), np.broadcast_to(tolerance, start.shape)
    with np.errstate(over="ignore", divide="ignore", invalid="ignore"):
        _search(function, *bracket, roots, maximum_iterations, keep_finished)
    return roots


def _search(
    function: RisingFunction,
    lower: FloatArray,
    upper: FloatArray,
    enough: FloatArray,
    roots: Roots,
    maximum_iterations: int,
    keep_finished: float,
) -> None:
    """Run the search and write into ``roots``, whose ``x`` holds the first guesses."""
    lanes, x, running = np.arange(lower.size), roots.x.copy(), np.ones(lower.shape, np.bool_)
    last, iteration = np.full(lower.shape, np.inf), 0
    while lanes.size:
        iteration += 1
        value, slope = function.evaluate(x)
        size = np.abs(value)
        lower = blended(value <= 0.0, x, lower)
        upper = blended(value >= 0.0, x, upper)
        following = x - value / slope
        is_inside = following >= lower
        is_inside &= following <= upper
        reached = np.abs(following - x) <= enough
        reached &= is_inside
        last *= 0.5
        is_inside &= size <= last
        crooked = np.flatnonzero(~(is_inside | reached))
        if crooked.size:
            low, high = lower[crooked], upper[crooked]
            following[crooked] = 0.5 * (low + high)
            reached[crooked] = high - low <= enough[crooked]
        x, last = following, size
        ended = running & (reached | np.isnan(value)) if iteration < maximum_iterations else running
        done = np.flatnonzero(ended)
        if done.size:
            places = lanes[done]
            roots.x[places] = np.where(np.isnan(value[done]) & ~reached[done], np.nan, x[done])
            roots.iterations[places] = iteration
            roots.converged[places] = reached[done]
            running &= ~ended
            keep = np.flatnonzero(running)
            if not keep.size:
                return
            if keep.size < lanes.size * (1.0 - keep_finished):
                function, lanes, running = function.narrowed(keep), lanes[keep], running[keep]
                x, lower, upper, last, enough = (part[keep] for part in (x, lower, upper, last, enough))
