"""From current to loss: equivalent weights, penetration, deepest attack, life of a plating."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.constants import FARADAY, SECONDS_PER_YEAR
from service.chemistry.elements import atomic_weight
from service.chemistry.errors import MissingValenceError
from service.chemistry.requirements import require

LEAST_SHARE = 0.01
"""Alloying elements below this mass fraction are left out (ASTM G102, clause 4; from memory)."""

_KILOGRAM_PER_GRAM = 1e-3


def equivalent_weight(composition: Mapping[str, float], valences: Mapping[str, int]) -> float:
    r"""Equivalent weight of a metal or alloy.

    :math:`EW = 1 / \sum_k \frac{n_k f_k}{W_k}` over the elements of at least 1 % by mass, whose
    fractions are scaled to one.

    Parameters
    ----------
    composition : mapping of str to float
        Mass fraction of each element [-]; need not add up to one.
    valences : mapping of str to int
        Charge of the dissolving ion of each element [-]. Zero for one that does not dissolve
        (silicon particles).

    Returns
    -------
    float
        Equivalent weight [g/mol of electrons].

    Raises
    ------
    UnknownElementError
        If an element has no atomic weight here.
    MissingValenceError
        If an element of at least 1 % has no valence.
    OutOfRangeError
        If nothing is left that dissolves.

    Notes
    -----
    The alloy is taken to dissolve evenly; dezincification and the like need the part that goes.

    Examples
    --------
    >>> round(equivalent_weight({"Fe": 0.7175, "Cr": 0.19, "Ni": 0.0925}, {"Fe": 2, "Cr": 3, "Ni": 2}), 2)
    25.12

    References
    ----------
    ASTM G102-89(2015)e1, clause 4, equations 1 to 3 and table 1 (from memory).
    """
    counted = {element: share for element, share in composition.items() if share >= LEAST_SHARE}
    for element in counted:
        if element not in valences:
            raise MissingValenceError(element)
    equivalents = sum(valences[e] * share / atomic_weight(e) for e, share in counted.items())
    require(equivalents > 0.0, "composition", "partly of elements that dissolve")
    return float(sum(counted.values()) / equivalents)


def mass_loss_rate(current_density: FloatLike, weight: FloatLike) -> FloatArray:
    r"""Loss of mass by Faraday's law.

    :math:`MR = i\,EW/F`

    Parameters
    ----------
    current_density : float or ndarray
        Anodic current density [A/m2].
    weight : float or ndarray
        Equivalent weight [g/mol of electrons].

    Returns
    -------
    ndarray
        Loss of mass [kg/(m2 s)].

    Examples
    --------
    >>> float((mass_loss_rate(1.0, 32.69) * 86400e3).round(2))
    29.27

    References
    ----------
    ASTM G102-89(2015)e1, clause 4, equation 5 (from memory).
    """
    return np.asarray(np.multiply(current_density, weight) * (_KILOGRAM_PER_GRAM / FARADAY), dtype=np.float64)


def penetration_rate(current_density: FloatLike, weight: FloatLike, density_kg_m3: FloatLike) -> FloatArray:
    r"""Mean penetration by Faraday's law.

    :math:`CR = i\,EW/(F \rho)`

    Parameters
    ----------
    current_density : float or ndarray
        Anodic current density [A/m2].
    weight : float or ndarray
        Equivalent weight [g/mol of electrons].
    density_kg_m3 : float or ndarray
        Density of the metal [kg/m3].

    Returns
    -------
    ndarray
        Loss of thickness [m/s].

    Examples
    --------
    >>> float((per_year(penetration_rate(0.01, 27.92, 7860.0)) * 1e3).round(4))
    0.0116

    References
    ----------
    ASTM G102-89(2015)e1, clause 4, equation 4 (from memory).
    """
    return np.asarray(mass_loss_rate(current_density, weight) / density_kg_m3, dtype=np.float64)


def per_year(rate: FloatLike) -> FloatArray:
    """A rate per second as one per year of 365.25 days.

    Parameters
    ----------
    rate : float or ndarray
        Any rate [1/s].

    Returns
    -------
    ndarray
        The same rate [1/year].

    Examples
    --------
    >>> float(per_year(1.0))
    31557600.0
    """
    return np.asarray(np.multiply(rate, SECONDS_PER_YEAR), dtype=np.float64)


def dissolved_current(net_current: FloatLike, charge_efficiency: FloatLike) -> FloatArray:
    r"""Current that a metal loses where part of its dissolution makes hydrogen on the spot.

    :math:`i = i_{net}/\epsilon`; magnesium has :math:`\epsilon \approx 0.5`, so it loses twice what
    an ammeter shows.

    Parameters
    ----------
    net_current : float or ndarray
        Net anodic current or current density [A or A/m2].
    charge_efficiency : float or ndarray
        Share of the dissolved charge that leaves as net current [-], above 0 to 1.

    Returns
    -------
    ndarray
        Dissolving current [unit of net_current].

    Raises
    ------
    OutOfRangeError
        If an efficiency is not above 0 and at most 1.

    Examples
    --------
    >>> float(dissolved_current(1.0, 0.5))
    2.0
    """
    efficiency = np.asarray(charge_efficiency, dtype=np.float64)
    require((efficiency > 0.0) & (efficiency <= 1.0), "charge_efficiency", "above 0 and at most 1")
    return np.asarray(net_current / efficiency, dtype=np.float64)


def deepest_attack(mean_loss: FloatLike, pitting_factor: FloatLike) -> FloatArray:
    r"""Depth of the deepest pit from the mean loss.

    :math:`d_{max} = p\,\bar d`, with the pitting factor p of at least one.

    Parameters
    ----------
    mean_loss : float or ndarray
        Mean loss of thickness [m].
    pitting_factor : float or ndarray
        Deepest over mean attack [-]; taken as one where smaller.

    Returns
    -------
    ndarray
        Depth [m].

    Examples
    --------
    >>> float(deepest_attack(1e-5, 5.0))
    5e-05

    References
    ----------
    ASTM G46-94, clause on the pitting factor (from memory).
    """
    return np.asarray(np.multiply(mean_loss, np.maximum(pitting_factor, 1.0)), dtype=np.float64)


def loss_after(years: FloatLike, first_year_loss: FloatLike, decay_exponent: FloatLike) -> FloatArray:
    r"""Loss after some years of a current that decays.

    :math:`i(t) = i_1 t^{-m}` gives :math:`d(t) = d_1\,t^{1-m}` beyond the first year; within it the
    loss grows in proportion, because nothing is known of its course.

    Parameters
    ----------
    years : float or ndarray
        Time of exposure [year].
    first_year_loss : float or ndarray
        Loss in the first year [m].
    decay_exponent : float or ndarray
        Exponent m [-], 0 to below 1.

    Returns
    -------
    ndarray
        Loss of thickness [m].

    Raises
    ------
    OutOfRangeError
        If an exponent is not from 0 to below 1.

    Examples
    --------
    >>> loss_after(np.array([0.5, 4.0]), 10e-6, 0.5).tolist()
    [5e-06, 2e-05]
    """
    time = np.asarray(years, dtype=np.float64)
    exponent = _valid_exponent(decay_exponent)
    return np.asarray(first_year_loss * np.minimum(time, np.maximum(time, 1.0) ** (1.0 - exponent)))


@dataclass(frozen=True, slots=True)
class LifeInterval:
    """Years until a thickness is gone; the truth lies between the two.

    Attributes
    ----------
    undecayed : ndarray
        At the rate of the first year [year].
    decayed : ndarray
        With the current dying down [year].
    """

    undecayed: FloatArray
    decayed: FloatArray


def plating_life_years(
    thickness: FloatLike, first_year_loss: FloatLike, decay_exponent: FloatLike
) -> LifeInterval:
    r"""Years that a plating lasts, between no decay and decay.

    :math:`t = d/d_1` and, beyond the first year, :math:`t = (d/d_1)^{1/(1-m)}`.

    Parameters
    ----------
    thickness : float or ndarray
        Thickness of the plating [m].
    first_year_loss : float or ndarray
        Loss in the first year [m].
    decay_exponent : float or ndarray
        Exponent m of the current [-], 0 to below 1.

    Returns
    -------
    LifeInterval
        Both lives [year]; infinite where nothing is lost.

    Raises
    ------
    OutOfRangeError
        If an exponent is not from 0 to below 1.

    Examples
    --------
    >>> life = plating_life_years(20e-6, 5e-6, 0.5)
    >>> float(life.undecayed), float(life.decayed)
    (4.0, 16.0)
    """
    exponent = _valid_exponent(decay_exponent)
    with np.errstate(divide="ignore"):
        undecayed = np.divide(thickness, np.asarray(first_year_loss, dtype=np.float64))
    decayed = np.where(undecayed > 1.0, undecayed ** (1.0 / (1.0 - exponent)), undecayed)
    return LifeInterval(np.asarray(undecayed), decayed)


def _valid_exponent(decay_exponent: FloatLike) -> FloatArray:
    """The exponent of decay, if it is one."""
    exponent = np.asarray(decay_exponent, dtype=np.float64)
    require((exponent >= 0.0) & (exponent < 1.0), "decay_exponent", "from 0 to below 1")
    return exponent
