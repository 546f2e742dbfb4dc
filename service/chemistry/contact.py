"""Resistance of a closed, clean electric contact: load-bearing area, constriction, film, force.

Relations are Holm's (R. Holm, Electric Contacts, 4th ed., Springer 1967; from memory unless a function says
otherwise). They describe the joint as made. What corrosion adds with time is not computed anywhere here.
"""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.requirements import require


def _positive(value: FloatLike, quantity: str) -> FloatArray:
    array = np.asarray(value, dtype=np.float64)
    require(array > 0.0, quantity, "positive")
    return array


def _not_negative(value: FloatLike, quantity: str) -> FloatArray:
    array = np.asarray(value, dtype=np.float64)
    require(array >= 0.0, quantity, "0 or more")
    return array


def contact_area_m2(
    force_N: FloatLike, hardness_Pa: FloatLike, pressure_share: FloatLike = 1.0
) -> FloatArray:
    r"""Area that carries the load: :math:`A = F / (\xi H)`.

    Parameters
    ----------
    force_N : float or ndarray
        Contact force, positive [N].
    hardness_Pa : float or ndarray
        Indentation hardness of the softer side, positive [Pa].
    pressure_share : float or ndarray
        Mean pressure over hardness: 1 for plastic spots, down to 0.2 where part of them is elastic [-].

    Returns
    -------
    ndarray
        Load-bearing area [m2].

    Raises
    ------
    OutOfRangeError
        For a figure that is not positive.

    Notes
    -----
    Neglects work hardening, creep and films: only part of the load-bearing area conducts where films remain.

    Examples
    --------
    >>> float(contact_area_m2(10.0, 500e6))
    2e-08

    References
    ----------
    Holm 1967, section 1 (from memory).
    """
    pressure = _positive(pressure_share, "pressure_share") * _positive(hardness_Pa, "hardness_Pa")
    return np.asarray(_positive(force_N, "force_N") / pressure)


def spot_resistance_ohm(
    first_resistivity_ohm_m: FloatLike, second_resistivity_ohm_m: FloatLike, spot_radius_m: FloatLike
) -> FloatArray:
    r"""Constriction resistance of one circular spot between two members: :math:`R = (\rho_1 + \rho_2)/4a`.

    Parameters
    ----------
    first_resistivity_ohm_m, second_resistivity_ohm_m : float or ndarray
        Resistivities of the members, positive [ohm m].
    spot_radius_m : float or ndarray
        Radius of the conducting spot, positive [m].

    Returns
    -------
    ndarray
        Resistance [ohm].

    Raises
    ------
    OutOfRangeError
        For a figure that is not positive.

    Notes
    -----
    Neglects heating of the spot, the finite size of the members, and the mean free path (spots under some
    50 nm resist more). At radio frequency the skin effect changes the current's path.

    Examples
    --------
    >>> float(spot_resistance_ohm(1.75e-8, 1.75e-8, 8.75e-5))
    0.0001

    References
    ----------
    Holm 1967, section 3 (from memory).
    """
    first = _positive(first_resistivity_ohm_m, "first_resistivity_ohm_m")
    second = _positive(second_resistivity_ohm_m, "second_resistivity_ohm_m")
    return np.asarray((first + second) / (4.0 * _positive(spot_radius_m, "spot_radius_m")))


def cluster_resistance_ohm(
    resistivity_ohm_m: FloatLike, spots: FloatLike, spot_radius_m: FloatLike, cluster_radius_m: FloatLike
) -> FloatArray:
    r"""Constriction of many spots in a round cluster: :math:`R = \rho/(2 n a) + \rho/(2 \alpha)`.

    Parameters
    ----------
    resistivity_ohm_m : float or ndarray
        Mean resistivity of the two members, positive [ohm m].
    spots : float or ndarray
        Number of spots, 1 or more [-].
    spot_radius_m : float or ndarray
        Mean radius of a spot, positive [m].
    cluster_radius_m : float or ndarray
        Radius of the cluster (Holm radius), positive [m].

    Returns
    -------
    ndarray
        Resistance [ohm].

    Raises
    ------
    OutOfRangeError
        For a figure that is not positive, or less than one spot.

    Notes
    -----
    For spots spread evenly; neglects clustering within the cluster. With many spots the second term rules,
    which is why the number of spots is uncritical.

    Examples
    --------
    >>> round(float(cluster_resistance_ohm(1.75e-8, 10.0, 2e-5, 1e-3)), 8)
    5.25e-05

    References
    ----------
    J. A. Greenwood, Br. J. Appl. Phys. 17 (1966) 1621, 10.1088/0508-3443/17/12/310 (from memory).
    """
    rho = _positive(resistivity_ohm_m, "resistivity_ohm_m")
    count = np.asarray(spots, dtype=np.float64)
    require(count >= 1.0, "spots", "1 or more")
    own = rho / (2.0 * count * _positive(spot_radius_m, "spot_radius_m"))
    return np.asarray(own + rho / (2.0 * _positive(cluster_radius_m, "cluster_radius_m")))


def constriction_resistance_ohm(
    first_resistivity_ohm_m: FloatLike,
    second_resistivity_ohm_m: FloatLike,
    hardness_Pa: FloatLike,
    force_N: FloatLike,
    pressure_share: FloatLike = 1.0,
) -> FloatArray:
    r"""Constriction of a clean contact from its force: :math:`R = \frac{\rho_1+\rho_2}{4}\sqrt{\pi \xi H/F}`.

    Parameters
    ----------
    first_resistivity_ohm_m, second_resistivity_ohm_m : float or ndarray
        Resistivities of the members, positive [ohm m].
    hardness_Pa : float or ndarray
        Hardness of the softer side, positive [Pa].
    force_N : float or ndarray
        Contact force, positive [N].
    pressure_share : float or ndarray
        See :func:`contact_area_m2` [-].

    Returns
    -------
    ndarray
        Resistance [ohm].

    Raises
    ------
    OutOfRangeError
        For a figure that is not positive.

    Notes
    -----
    All load on one round plastic spot, free of films. Several spots share the same load at less resistance,
    films raise it; bolted joints of clean metal are seen to fall as F to the power 0.5 to 0.7.

    Examples
    --------
    >>> round(float(constriction_resistance_ohm(1.75e-8, 1.75e-8, 500e6, 10.0)) * 1e6, 3)
    109.665

    References
    ----------
    Holm 1967, section 1 (from memory); exponent for busbars: Doduco, Data Book of Electrical Contacts,
    section 6.4.2 (read in an open reproduction).
    """
    area = contact_area_m2(force_N, hardness_Pa, pressure_share)
    radius = np.sqrt(area / np.pi)
    return spot_resistance_ohm(first_resistivity_ohm_m, second_resistivity_ohm_m, radius)


def film_resistance_ohm(
    film_resistivity_ohm_m: FloatLike, film_thickness_m: FloatLike, area_m2: FloatLike
) -> FloatArray:
    r"""Resistance of an unbroken film over the load-bearing area: :math:`R = \rho_f d / A`.

    Parameters
    ----------
    film_resistivity_ohm_m : float or ndarray
        Resistivity of the film, zero or more [ohm m].
    film_thickness_m : float or ndarray
        Thickness of the film, zero or more [m].
    area_m2 : float or ndarray
        Area under load, positive [m2].

    Returns
    -------
    ndarray
        Resistance [ohm].

    Raises
    ------
    OutOfRangeError
        For a negative film or an area that is not positive.

    Notes
    -----
    Resistivities of corrosion products are known to a decade or two. Neglects tunnelling (films under 2 nm
    hardly resist), cracking under load and wiping, and electrical breakdown (fritting).

    Examples
    --------
    >>> round(float(film_resistance_ohm(1e3, 10e-9, 2e-8)), 6)
    500.0

    References
    ----------
    Holm 1967, section 1 (from memory).
    """
    resistivity = _not_negative(film_resistivity_ohm_m, "film_resistivity_ohm_m")
    thickness = _not_negative(film_thickness_m, "film_thickness_m")
    return np.asarray(resistivity * thickness / _positive(area_m2, "area_m2"))


def minimum_force_N(
    first_resistivity_ohm_m: FloatLike,
    second_resistivity_ohm_m: FloatLike,
    hardness_Pa: FloatLike,
    resistance_ohm: FloatLike,
) -> FloatArray:
    r"""Force that a clean contact needs for a resistance: :math:`F = \pi H (\rho_1+\rho_2)^2 / (16 R^2)`.

    Parameters
    ----------
    first_resistivity_ohm_m, second_resistivity_ohm_m : float or ndarray
        Resistivities of the members, positive [ohm m].
    hardness_Pa : float or ndarray
        Hardness of the softer side, positive [Pa].
    resistance_ohm : float or ndarray
        Resistance not to be exceeded, positive [ohm].

    Returns
    -------
    ndarray
        Force [N].

    Raises
    ------
    OutOfRangeError
        For a figure that is not positive.

    Notes
    -----
    The least force for clean metal, without margin for films, relaxation or vibration, which usually decide.

    Examples
    --------
    >>> round(float(minimum_force_N(1.75e-8, 1.75e-8, 500e6, 109.665e-6)), 3)
    10.0

    References
    ----------
    Inverse of :func:`constriction_resistance_ohm`.
    """
    first = _positive(first_resistivity_ohm_m, "first_resistivity_ohm_m")
    second = _positive(second_resistivity_ohm_m, "second_resistivity_ohm_m")
    hardness = _positive(hardness_Pa, "hardness_Pa")
    resistance = _positive(resistance_ohm, "resistance_ohm")
    return np.asarray(np.pi * hardness * (first + second) ** 2 / (16.0 * resistance**2))
