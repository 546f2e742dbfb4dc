"""Immersed couples: whether the potential is even over a part, and the resistances where it is not."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import BoolArray, FloatArray, FloatLike
from service.chemistry.kinetics import Branches, net_current_slope


def wagner_length(conductivity: FloatLike, potential: FloatLike, branches: Branches) -> FloatArray:
    r"""Length over which an electrode evens out its own current.

    :math:`W = \kappa\,|d\eta/di|`; on a Tafel branch :math:`\kappa b/(\ln 10\, i)`.

    Parameters
    ----------
    conductivity : float or ndarray
        Conductivity of the electrolyte [S/m].
    potential : float or ndarray
        Potential of the electrode [V vs SHE].
    branches : Branches
        The electrode [units of ``Branches``].

    Returns
    -------
    ndarray
        Wagner length [m].

    Examples
    --------
    >>> steel = Branches(-0.40, 0.1, 0.06, 0.12, 0.3)
    >>> bool(wagner_length(5.0, -0.3, steel) > wagner_length(0.05, -0.3, steel))
    True

    References
    ----------
    C. Wagner, J. Electrochem. Soc. 98 (1951) 116 (from memory).
    """
    return np.asarray(conductivity / net_current_slope(potential, branches), dtype=np.float64)


def is_lumped(wagner: FloatLike, size: FloatLike) -> BoolArray:
    """Whether a part can be taken at one potential: Wagner length longer than the part.

    Parameters
    ----------
    wagner : float or ndarray
        Wagner length of the electrode that polarizes less [m].
    size : float or ndarray
        Largest distance that the current has to bridge [m].

    Returns
    -------
    ndarray of bool
        True for one potential, false for local attack at the joint [-].

    Examples
    --------
    >>> is_lumped(np.array([0.9, 0.009]), 0.1).tolist()
    [True, False]
    """
    return np.asarray(np.asarray(wagner) > np.asarray(size), dtype=np.bool_)


def disk_resistance(conductivity: FloatLike, radius: FloatLike) -> FloatArray:
    r"""Resistance from a disk in an insulating plane to the bulk of the electrolyte.

    :math:`R = 1/(4\kappa a)`

    Parameters
    ----------
    conductivity : float or ndarray
        Conductivity of the electrolyte [S/m].
    radius : float or ndarray
        Radius of the disk [m].

    Returns
    -------
    ndarray
        Resistance [ohm].

    Examples
    --------
    >>> float(disk_resistance(5.0, 0.01))
    5.0

    References
    ----------
    J. Newman, J. Electrochem. Soc. 113 (1966) 501, doi 10.1149/1.2424003 (primary distribution on a
    disk; from memory).
    """
    return np.asarray(1.0 / (4.0 * np.multiply(conductivity, radius)), dtype=np.float64)


def spool_resistance(conductivity: FloatLike, length: FloatLike, cross_section: FloatLike) -> FloatArray:
    r"""Resistance of an insulating length of pipe full of electrolyte.

    :math:`R = L/(\kappa A)`

    Parameters
    ----------
    conductivity : float or ndarray
        Conductivity of the electrolyte [S/m].
    length : float or ndarray
        Length of the spool [m].
    cross_section : float or ndarray
        Cross-section of its bore [m2].

    Returns
    -------
    ndarray
        Resistance [ohm].

    Examples
    --------
    >>> float(spool_resistance(5.0, 1.0, 0.02))
    10.0
    """
    return np.asarray(np.divide(length, np.multiply(conductivity, cross_section)), dtype=np.float64)
