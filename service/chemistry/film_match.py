"""Matching the two sides of a joint under a film: the functions whose root is the joint potential.

Both sides carry the same current at the joint line. ``ApproximateMatch`` is exact for endless sides
and starts the search for the others; ``ExactMatch`` honours every width.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, Self

import numpy as np

from service.chemistry.arrays import BoolArray, FloatArray, IntArray, kept
from service.chemistry.film_side import ENDLESS, SHORT, Sides, ended_current, guessed_theta


class Match(Protocol):
    """Two sides of which each carries a current that depends on the joint potential."""

    @property
    def sign(self) -> FloatArray:
        """+1 where the first side is the less noble one, else -1 [-]."""

    def logarithms(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Logarithm of the current per metre of each side, and its derivative [1/V]."""

    def narrowed(self, keep: IntArray) -> Self:
        """The same for some of the lanes."""


@dataclass(frozen=True, slots=True)
class ApproximateMatch:
    """The currents of both sides of a straight joint; ends only damp them.

    ``sign`` is +1 where the first side is the less noble one. ``has_ends`` says whether any side has
    an end; without one the damping is left out, which changes no figure.
    """

    sides: Sides
    sign: FloatArray
    has_ends: bool

    def logarithms(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Logarithm of the current per metre of each side, and its derivative [1/V]."""
        logarithm, slope, _ = self.sides.damped(x) if self.has_ends else self.sides.endless(x)
        return logarithm, slope

    def narrowed(self, keep: IntArray) -> ApproximateMatch:
        """The same for some of the lanes."""
        return ApproximateMatch(self.sides.narrowed(keep), kept(self.sign, keep), self.has_ends)


@dataclass(frozen=True, slots=True)
class SharedBracket:
    r"""Logarithm of the ratio of the currents over the shares of the bracket.

    The unknown is :math:`q = \ln((E - E_1)/(E_2 - E))`. A side close to rest carries a current in
    proportion to its polarization, so the logarithm of the ratio is nearly straight in q where it
    would be crooked in E. ``lower`` is the lower corrosion potential and ``span`` the difference of
    both [V].
    """

    match: Match
    lower: FloatArray
    span: FloatArray

    def potential(self, x: FloatArray) -> FloatArray:
        """Joint potential at the logarithm ``x`` of the shares [V]."""
        return self.lower + self.span / (1.0 + np.exp(-x))

    def evaluate(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Value and derivative at the logarithm ``x`` of the shares [-]."""
        share = 1.0 / (1.0 + np.exp(-x))
        logarithm, slope = self.match.logarithms(self.lower + self.span * share)
        sign = self.match.sign
        stretch = sign * self.span * share * (1.0 - share)
        return sign * (logarithm[0] - logarithm[1]), stretch * (slope[0] - slope[1])

    def narrowed(self, keep: IntArray) -> SharedBracket:
        """The same for some of the lanes."""
        return SharedBracket(self.match.narrowed(keep), self.lower[keep], self.span[keep])


def crossing(logarithm: FloatArray, slope: FloatArray) -> FloatArray:
    r"""Current of a joint from the tangents to the currents of its sides, near the root.

    :math:`\ln I' = \frac{L_1 L_0' - L_0 L_1'}{L_0' - L_1'}`. A side that is almost at rest changes its
    current by decades within a microvolt; the other side then decides.

    Parameters
    ----------
    logarithm : ndarray, shape (2, lanes)
        Logarithm L of the current per metre of each side [ln A/m].
    slope : ndarray, shape (2, lanes)
        Their derivatives by the joint potential [1/V].

    Returns
    -------
    ndarray, shape (lanes,)
        Current per metre [A/m].

    Examples
    --------
    >>> float(crossing(np.zeros((2, 1)), np.array([[20.0], [-20.0]]))[0])
    1.0
    """
    current: FloatArray = np.exp((logarithm[1] * slope[0] - logarithm[0] * slope[1]) / (slope[0] - slope[1]))
    return current


@dataclass(frozen=True, slots=True)
class EndRecord:
    """What is known of both sides of a block, refreshed by every evaluation.

    ``has_end`` marks the sides whose end matters.
    """

    has_end: BoolArray
    theta: FloatArray
    logarithm: FloatArray
    slope: FloatArray

    @classmethod
    def begun(cls, sides: Sides, potential: FloatArray) -> EndRecord:
        """The record of a block whose approximate joint potential is known [V]."""
        logarithm, slope, ratio = sides.damped(potential)
        drive = potential - sides.electrodes.corrosion_potential
        theta = guessed_theta(sides, drive, ratio)
        has_end = (ratio > SHORT) & (theta < ENDLESS)
        return cls(has_end, theta, logarithm, slope)


class ExactMatch:
    """Logarithm of the ratio of the currents of both sides, with the ends where they are.

    Each evaluation moves ``theta`` by one Newton step towards the true width, so that it
    converges together with the joint potential.
    """

    def __init__(self, approximate: ApproximateMatch, record: EndRecord, lanes: IntArray) -> None:
        self.approximate = approximate
        self.record = record
        self.lanes = lanes
        self.side, self.lane = np.nonzero(record.has_end[:, lanes])
        shape = (2, lanes.size)
        self.ended = approximate.sides.selected(shape, self.side * lanes.size + self.lane)

    def evaluate(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Value and derivative at the joint potential ``x`` [V]."""
        logarithm, slope = self.approximate.logarithms(x)
        own = self.side, self.lanes[self.lane]
        theta, own_logarithm, own_slope = ended_current(self.ended, x[self.lane], self.record.theta[own])
        logarithm[self.side, self.lane], slope[self.side, self.lane] = own_logarithm, own_slope
        self.record.theta[own] = theta
        self.record.logarithm[:, self.lanes] = logarithm
        self.record.slope[:, self.lanes] = slope
        sign = self.approximate.sign
        return sign * (logarithm[0] - logarithm[1]), sign * (slope[0] - slope[1])

    def narrowed(self, keep: IntArray) -> ExactMatch:
        """The same for some of the lanes."""
        return ExactMatch(self.approximate.narrowed(keep), self.record, self.lanes[keep])
