"""The functions whose root is a mixed potential, with and without resistances."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.chemistry.anchoring import Anchored
from service.chemistry.arrays import FloatArray, IntArray, kept
from service.chemistry.roots import find_roots

_LARGEST_LOGIT = 40.0
_LOGIT_TOLERANCE = 1e-5
_NEAR_REST = 1e-8


@dataclass(frozen=True, slots=True)
class Currents:
    """Local potential [V], partial and net currents [A], all ``(electrodes, lanes)``."""

    potential: FloatArray
    anodic: FloatArray
    cathodic: FloatArray
    net: FloatArray


class Balance:
    """Logarithm of the ratio of all anodic to all cathodic current, without resistances.

    ``electrodes`` are scaled by their areas. ``tolerance`` is the length of the last Newton step [V]: the
    function is so nearly straight that its square leaves about 1e-8 V at most.
    """

    tolerance = 1e-5

    def __init__(self, electrodes: Anchored) -> None:
        self.electrodes = electrodes

    def evaluate(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Value and derivative at the potential ``x`` [V]."""
        anodic, cathodic, rise, fall = (part.sum(axis=0) for part in self.electrodes.partial_currents(x))
        return np.log(anodic / cathodic), rise / anodic - fall / cathodic

    def narrowed(self, keep: IntArray) -> Balance:
        """The same for some of the lanes."""
        return Balance(self.electrodes.narrowed(keep))

    def currents(self, x: FloatArray) -> Currents:
        """What flows at the potential ``x`` [V]."""
        anodic, cathodic, rise, fall = self.electrodes.partial_currents(x)
        return Currents(
            np.broadcast_to(x, anodic.shape), anodic, cathodic, _closed(anodic - cathodic, rise - fall)
        )


class ResistiveBalance:
    """Logarithm of the ratio of the positive to the negative net currents, behind resistances.

    ``logit`` is carried from one evaluation to the next as the start of the inner search. The
    function has a corner where an electrode turns from cathode to anode, hence the smaller
    ``tolerance`` [V].
    """

    tolerance = 1e-7

    def __init__(
        self,
        electrodes: Anchored,
        areas: FloatArray,
        resistances: FloatArray,
        logit: FloatArray | None = None,
    ) -> None:
        self.electrodes = electrodes
        self.areas = areas
        self.resistances = resistances
        self.logit = logit

    def evaluate(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Value and derivative at the common potential ``x`` [V]."""
        net, slope = self._net(x)[1:3]
        outward, inward = net > 0.0, net < 0.0
        out, into = np.where(outward, net, 0.0).sum(axis=0), np.where(inward, -net, 0.0).sum(axis=0)
        steepness = np.where(outward, slope, 0.0).sum(axis=0) / out
        return np.log(out / into), steepness + np.where(inward, slope, 0.0).sum(axis=0) / into

    def narrowed(self, keep: IntArray) -> ResistiveBalance:
        """The same for some of the lanes."""
        return ResistiveBalance(
            self.electrodes.narrowed(keep),
            kept(self.areas, keep),
            kept(self.resistances, keep),
            None if self.logit is None else self.logit.take(keep, axis=1),
        )

    def currents(self, x: FloatArray) -> Currents:
        """What flows at the common potential ``x`` [V]."""
        self.logit = None
        local, net, slope, anodic, cathodic = self._net(x)
        return Currents(local, self.areas * anodic, self.areas * cathodic, _closed(net, slope))

    def _net(self, x: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray, FloatArray]:
        """Local potential, net current and its slope, both partial current densities.

        A stiff electrode stands so close to rest that its net current is known only from the drop
        over its resistance.
        """
        local = self._local_potential(x)
        anodic, cathodic, rise, fall = self.electrodes.partial_currents(local)
        conductance = self.areas * (rise - fall)
        stiffness = self.resistances * conductance
        net = self.areas * (anodic - cathodic)
        np.divide(x - local, self.resistances, out=net, where=stiffness > 1.0)
        return local, net, conductance / (1.0 + stiffness), anodic, cathodic

    def _local_potential(self, x: FloatArray) -> FloatArray:
        """Potential of each electrode against the solution next to it [V]."""
        shape = (self.areas.shape[0], x.size)
        rest = np.broadcast_to(self.electrodes.corrosion_potential, shape).reshape(-1)
        drive = np.broadcast_to(x, shape).reshape(-1) - rest
        weight = np.broadcast_to(self.areas * self.resistances, shape).reshape(-1)
        start = np.zeros(drive.shape) if self.logit is None else self.logit.reshape(-1)
        split = _Split(self.electrodes.flat(shape), weight, drive)
        bound = np.full(drive.shape, _LARGEST_LOGIT)
        logit = find_roots(split, -bound, bound, start, _LOGIT_TOLERANCE).x
        self.logit = logit.reshape(shape)
        return (rest + drive * _logistic(logit)).reshape(shape)


class _Split:
    """How the drive of one electrode is shared between its kinetics and its resistance.

    The unknown is q, the logarithm of the ratio of the two shares. Then ``q + ln(A R g) = 0``
    with the mean conductance g of the electrode, which is straight both for a small and for a
    large resistance.
    """

    def __init__(self, electrodes: Anchored, weight: FloatArray, drive: FloatArray) -> None:
        self.electrodes = electrodes
        self.weight = weight
        self.drive = drive

    def evaluate(self, x: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Value and derivative at the logarithm ``x`` of the ratio of the shares [-]."""
        share = _logistic(x)
        polarization = self.drive * share
        local = self.electrodes.corrosion_potential + polarization
        anodic, cathodic, rise, fall = self.electrodes.partial_currents(local)
        net, slope = (anodic - cathodic)[0], (rise - fall)[0]
        is_polarized = np.abs(polarization) > _NEAR_REST
        conductance = np.divide(net, polarization, out=slope.copy(), where=is_polarized)
        bend = np.where(is_polarized, slope / conductance - 1.0, 0.0)
        return x + np.log(self.weight * conductance), 1.0 + bend * (1.0 - share)

    def narrowed(self, keep: IntArray) -> _Split:
        """The same for some of the electrodes."""
        return _Split(self.electrodes.narrowed(keep), self.weight[keep], self.drive[keep])


def _closed(net: FloatArray, slope: FloatArray) -> FloatArray:
    """Net currents that add up to nothing: the steepest electrode takes what the others leave.

    Its own current is the difference of two large ones and carries all the error of the potential.
    """
    is_steepest = np.arange(len(slope))[:, np.newaxis] == np.argmax(slope, axis=0)
    left = net * ~is_steepest
    closed: FloatArray = left - is_steepest * left.sum(axis=0)
    return closed


def _logistic(x: FloatArray) -> FloatArray:
    """The share that belongs to the logarithm ``x`` of the ratio of two shares."""
    return 1.0 / (1.0 + np.exp(-x))
