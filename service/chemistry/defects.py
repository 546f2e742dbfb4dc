"""Coated, worn and damaged surfaces: what is exposed, and through what resistance.

Severity is judged at the defect. A coat is cut into the surface that is still covered and ``count``
equal openings; current to an opening has to squeeze through the electrolyte around it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.requirements import require


@dataclass(frozen=True, slots=True)
class Openings:
    """A surface cut into covered and exposed parts.

    Attributes
    ----------
    covered_area, exposed_area : ndarray
        The two parts [m2].
    count : ndarray
        Number of openings, at least one where anything is exposed [-].
    """

    covered_area: FloatArray
    exposed_area: FloatArray
    count: FloatArray


def openings(area: FloatLike, exposed_share: FloatLike, radius: FloatLike) -> Openings:
    r"""Cut a surface into its coat and equal round openings.

    :math:`A_e = f A`, :math:`n = \max(1, A_e/\pi a^2)`

    Parameters
    ----------
    area : float or ndarray
        Wetted area [m2].
    exposed_share : float or ndarray
        Share of the area that is exposed [-], 0 to 1.
    radius : float or ndarray
        Radius of one opening [m].

    Returns
    -------
    Openings
        Areas [m2] and number of openings [-].

    Raises
    ------
    OutOfRangeError
        If a share is not between 0 and 1.

    Examples
    --------
    >>> worn = openings(0.01, 0.01, 1e-3)
    >>> float(worn.exposed_area), float(worn.count.round(1))
    (0.0001, 31.8)
    """
    share = np.asarray(exposed_share, dtype=np.float64)
    require((share >= 0.0) & (share <= 1.0), "exposed_share", "between 0 and 1")
    exposed = np.multiply(area, share)
    count = np.where(exposed > 0.0, np.maximum(exposed / (np.pi * np.square(radius)), 1.0), 0.0)
    return Openings(np.asarray(area - exposed), exposed, count)


def opening_resistance(
    conductivity: FloatLike, radius: FloatLike, depth: FloatLike = 0.0, count: FloatLike = 1.0
) -> FloatArray:
    r"""Resistance of round openings in a coat, side by side, to the bulk of the electrolyte.

    :math:`R = \frac{1}{n}\left(\frac{1}{4\kappa a} + \frac{L}{\kappa \pi a^2}\right)`

    Parameters
    ----------
    conductivity : float or ndarray
        Conductivity of the electrolyte [S/m].
    radius : float or ndarray
        Radius of one opening [m].
    depth : float or ndarray
        Thickness of the coat around it [m].
    count : float or ndarray
        Number of equal openings [-].

    Returns
    -------
    ndarray
        Resistance of all of them together [ohm].

    Notes
    -----
    The openings must lie several radii apart.

    Examples
    --------
    >>> float(opening_resistance(5.0, 1e-3, 50e-6).round(2))
    53.18
    """
    mouth = 1.0 / (4.0 * np.multiply(conductivity, radius))
    bore = np.divide(depth, np.multiply(conductivity, np.pi * np.square(radius)))
    return np.asarray((mouth + bore) / count, dtype=np.float64)


def film_opening_resistance(
    conductivity: FloatLike,
    film_thickness: FloatLike,
    radius: FloatLike,
    outer_radius: FloatLike,
    count: FloatLike = 1.0,
) -> FloatArray:
    r"""Resistance of round openings under a film, out to a radius from which the current comes.

    :math:`R = \frac{\ln(b/a)}{2 \pi \kappa h n}`

    Parameters
    ----------
    conductivity : float or ndarray
        Conductivity of the film [S/m].
    film_thickness : float or ndarray
        Thickness of the film [m].
    radius : float or ndarray
        Radius of one opening [m].
    outer_radius : float or ndarray
        Distance from its centre to the cathode [m], more than ``radius``.
    count : float or ndarray
        Number of equal openings [-].

    Returns
    -------
    ndarray
        Resistance of all of them together [ohm].

    Raises
    ------
    OutOfRangeError
        If the outer radius is not the larger one.

    Examples
    --------
    >>> float(film_opening_resistance(5.0, 30e-6, 1e-3, 10e-3).round(0))
    2443.0
    """
    ratio = np.divide(outer_radius, radius)
    require(~(ratio <= 1.0), "outer_radius", "more than radius")
    sheet = 2.0 * np.pi * np.multiply(conductivity, film_thickness)
    return np.asarray(np.log(ratio) / (sheet * count), dtype=np.float64)
