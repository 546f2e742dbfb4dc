"""The sides of a joint under a thin electrolyte film: the first integral, with and without an end.

Along a film ``S E'' = i(E)`` with the sheet conductance ``S``, so ``S E'^2 / 2`` grows by the
integral of the net current density over potential. From a far end where the metal rests at its
corrosion potential the current per metre of joint line is ``sqrt(2 S H)``, with ``H`` the integral
from there to the joint. A side of finite width ends at some potential ``E_e`` short of it, where
no current flows. The unknown is written as ``theta`` with ``E_e - E_corr = (E_j - E_corr) /
cosh(theta)``: for linear kinetics it is width over decay length. It is found from ``width =
integral of dE / |E'|``, by Gauss quadrature in ``u`` with ``E - E_corr = (E_e - E_corr) cosh(u)``,
in which the integrand of linear kinetics is constant.

Arrays are ``(sides, lanes)`` or ``(sides, 1)``.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.chemistry.anchoring import Anchored
from service.chemistry.arrays import FloatArray, IntArray, kept

ENDLESS = 7.0
"""Theta beyond which a side counts as endless; its current differs by less than 1e-5."""

SHORT = 2e-3
"""Theta below which a side counts as equipotential; its current differs by 1e-6."""

SMALLEST_INTEGRAL = 1e-200
"""Integrals are held above this, so that a side at rest has a logarithm [A V/m2]."""

LARGEST_RATIO = 50.0
"""Ratio of currents, and logarithm of one, beyond which nothing changes any more."""

_STEEPER_THAN_LINEAR = 2.2
_FARTHEST_FELT = 100.0
_LARGEST_GUESS = 3.0


def gauss(count: int) -> tuple[FloatArray, FloatArray]:
    """Places and weights of the Gauss rule on 0 to 1.

    Parameters
    ----------
    count : int
        Number of places [-].

    Returns
    -------
    tuple of ndarray, shape (count, 1, 1)
        Places and weights [-].

    Examples
    --------
    >>> gauss(1)[0].item(), gauss(1)[1].item()
    (0.5, 1.0)
    """
    nodes, weights = np.polynomial.legendre.leggauss(count)
    return (0.5 * (nodes + 1.0)).reshape(-1, 1, 1), (0.5 * weights).reshape(-1, 1, 1)


_PLACES, _WEIGHTS = gauss(5)


@dataclass(frozen=True, slots=True)
class Sides:
    """Sides of a block of joints.

    ``conductance`` is the sheet conductance of the film [S] and ``width`` the width of each side
    [m], infinite where it has no end.
    """

    electrodes: Anchored
    conductance: FloatArray
    width: FloatArray

    def narrowed(self, keep: IntArray) -> Sides:
        """The same for some of the lanes."""
        return Sides(self.electrodes.narrowed(keep), kept(self.conductance, keep), kept(self.width, keep))

    def selected(self, shape: tuple[int, int], members: IntArray) -> Sides:
        """Some of the sides in one row, by their number in the flattened ``shape``."""
        return Sides(
            self.electrodes.flat(shape),
            np.broadcast_to(self.conductance, shape).reshape(1, -1),
            np.broadcast_to(self.width, shape).reshape(1, -1),
        ).narrowed(members)

    def net_and_integral(self, potential: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Net current density [A/m2] and its integral from the corrosion potential [A V/m2]."""
        anodic, cathodic, integral = self.electrodes.currents_and_integral(potential)
        return anodic - cathodic, np.maximum(integral, SMALLEST_INTEGRAL)

    def endless(self, potential: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Logarithm of the current per metre of endless sides, its derivative, the net current density."""
        net, integral = self.net_and_integral(potential)
        return 0.5 * np.log(2.0 * self.conductance * integral), 0.5 * net / integral, net

    def endless_and_steepness(
        self, potential: FloatArray
    ) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
        """The same, and the relative derivative of the net current density [1/V]."""
        net, rise, integral = self.electrodes.net_slope_and_integral(potential)
        np.maximum(integral, SMALLEST_INTEGRAL, out=integral)
        logarithm = 0.5 * np.log(2.0 * self.conductance * integral)
        return logarithm, 0.5 * net / integral, net, rise / net

    def damped(self, potential: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """The same for sides with ends, and the ratio ``z`` of equipotential to endless current.

        A side carries ``tanh(z)`` times what an endless one would: exact for linear kinetics and
        in both limits, within some per cent otherwise.
        """
        logarithm, slope, net = self.endless(potential)
        _, _, rise, fall = self.electrodes.partial_currents(potential)
        ratio = self.width * np.abs(net) / np.exp(logarithm)
        capped = np.minimum(ratio, LARGEST_RATIO)
        share = np.divide(2.0 * capped, np.sinh(2.0 * capped), out=np.ones_like(capped), where=capped > 0.0)
        return logarithm + np.log(np.tanh(capped)), slope + share * ((rise - fall) / net - slope), ratio


def guessed_theta(sides: Sides, drive: FloatArray, ratio: FloatArray) -> FloatArray:
    r"""First guess of theta, between linear and exponential kinetics.

    :math:`1 - 1/\cosh\theta = \min(1 - 1/\cosh z, \ln(1 + z^2)\,H/(i\eta))`

    Parameters
    ----------
    sides : Sides
        The sides [-].
    drive : ndarray, shape (sides, lanes)
        Joint potential against the corrosion potential of each side [V].
    ratio : ndarray, shape (sides, lanes)
        Equipotential over endless current, from ``Sides.damped`` [-].

    Returns
    -------
    ndarray, shape (sides, lanes)
        Theta [-]. The steeper the kinetics, the further an end is felt: it is ``ENDLESS`` only where
        the end changes the current by less than 1e-4.
    """
    net, integral = sides.net_and_integral(sides.electrodes.corrosion_potential + drive)
    power = net * drive / integral
    linear = 1.0 - 1.0 / np.cosh(np.minimum(ratio, LARGEST_RATIO))
    exponential = np.log1p(ratio * ratio) / power
    theta = np.arccosh(1.0 / (1.0 - np.minimum(linear, exponential)))
    far = np.where(power > _STEEPER_THAN_LINEAR, _FARTHEST_FELT, ENDLESS)
    return np.where(ratio < far, np.clip(theta, SHORT, _LARGEST_GUESS), ENDLESS)


def width_integral(
    sides: Sides, drive: FloatArray, theta: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    r"""Width of sides that end at a theta, and how it changes.

    :math:`w = \int_0^\theta |E_e - E_c| \sinh u\,\sqrt{S/2\,(H(u) - H_e)}\,du`

    Parameters
    ----------
    sides : Sides
        The sides; their own width is not used [-].
    drive : ndarray, shape (sides, lanes)
        Joint potential against the corrosion potential of each side [V].
    theta : ndarray, shape (sides, lanes)
        Where each side ends [-].

    Returns
    -------
    tuple of ndarray, shape (sides, lanes)
        Width [m], derivative by drive [m/V], derivative by theta [m].

    Notes
    -----
    Five Gauss points. The error of the width reaches some per cent for theta above 3 and steep
    kinetics, where the current no longer depends on it; that of the current stays below 1e-4.
    """
    rest = sides.electrodes.corrosion_potential
    end, slant = drive / np.cosh(theta), np.tanh(theta)
    end_net, end_integral = sides.net_and_integral(rest + end)
    sinh = np.exp(theta * _PLACES)
    cosh = 0.5 / sinh
    sinh *= 0.5
    sinh -= cosh
    cosh *= 2.0
    cosh += sinh
    net, integral = sides.net_and_integral(rest + end * cosh)
    integral -= end_integral
    np.maximum(integral, SMALLEST_INTEGRAL, out=integral)
    length = np.sqrt(0.5 * sides.conductance * end * end / integral)
    length *= sinh
    length *= _WEIGHTS
    integral = 0.5 * end / integral
    by_drive = integral * (end_net - net * cosh)
    by_theta = _PLACES * cosh / sinh - integral * net * _PLACES * sinh - slant * (by_drive + 1.0)
    total = length.sum(axis=0)
    return (
        theta * total,
        theta * (total + (length * by_drive).sum(axis=0)) / drive,
        total + theta * (length * by_theta).sum(axis=0),
    )


def ended_current(
    sides: Sides, potential: FloatArray, theta: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    r"""One Newton step of theta towards the true width, and the current per metre that follows.

    :math:`I' = \sqrt{2 S (H_j - H_e)}`

    Parameters
    ----------
    sides : Sides
        Sides in one row [-].
    potential : ndarray, shape (lanes,)
        Joint potential [V vs SHE].
    theta : ndarray, shape (lanes,)
        Where each side was thought to end [-].

    Returns
    -------
    tuple of ndarray, shape (lanes,)
        Theta [-], logarithm of the current per metre [ln A/m], its derivative by the joint potential
        at constant width [1/V].
    """
    rest = sides.electrodes.corrosion_potential
    drive, old = potential - rest, theta[np.newaxis]
    width, by_drive, by_theta = width_integral(sides, drive, old)
    new = old + np.clip((sides.width - width) / by_theta, -0.5 * old, old)
    new = np.clip(new, 0.5 * SHORT, ENDLESS)
    growth = np.where(new < ENDLESS, -by_drive / by_theta, 0.0)
    share = 1.0 / np.cosh(new)
    end_net, end_integral = sides.net_and_integral(rest + share * drive)
    net, integral = sides.net_and_integral(potential)
    difference = np.maximum(integral - end_integral, SMALLEST_INTEGRAL)
    end_rate = share * (1.0 - drive * np.tanh(new) * growth)
    logarithm = 0.5 * np.log(2.0 * sides.conductance * difference)
    return new[0], logarithm[0], (0.5 * (net - end_net * end_rate) / difference)[0]
