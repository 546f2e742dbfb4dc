"""Immersed couples: whether the potential is even over a part, and the resistances where it is not."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
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
