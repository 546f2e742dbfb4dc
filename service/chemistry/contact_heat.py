"""Voltage drop, heat and temperature of an electric contact, and what is left of its budget."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.constants import ZERO_CELSIUS
from service.chemistry.requirements import require

LORENZ_V2_PER_K2 = 2.45e-8
"""Lorenz number of contact metals, some 5 % either way (from memory); theory 2.443e-8 [V2/K2]."""


def voltage_drop_V(current_A: FloatLike, resistance_ohm: FloatLike) -> FloatArray:
    """Voltage over a contact: ``U = I R``.

    Parameters
    ----------
    current_A : float or ndarray
        Direct or effective current [A].
    resistance_ohm : float or ndarray
        Resistance of the contact, zero or more [ohm].

    Returns
    -------
    ndarray
        Magnitude of the voltage drop [V].

    Raises
    ------
    OutOfRangeError
        For a negative resistance.

    Notes
    -----
    Cold resistance: a warm contact has up to a third more near its melting voltage.

    Examples
    --------
    >>> float(voltage_drop_V(100.0, 1e-4))
    0.01

    References
    ----------
    Ohm's law.
    """
    resistance = np.asarray(resistance_ohm, dtype=np.float64)
    require(resistance >= 0.0, "resistance_ohm", "0 or more")
    return np.asarray(np.abs(current_A) * resistance)


def heat_W(current_A: FloatLike, resistance_ohm: FloatLike) -> FloatArray:
    """Heat set free in a contact: ``P = I^2 R``.

    Parameters
    ----------
    current_A : float or ndarray
        Direct or effective current [A].
    resistance_ohm : float or ndarray
        Resistance of the contact, zero or more [ohm].

    Returns
    -------
    ndarray
        Power [W].

    Raises
    ------
    OutOfRangeError
        For a negative resistance.

    Notes
    -----
    How warm the joint gets as a whole depends on its cooling, which is not computed; only the excess of the
    spot over the joint is, by :func:`spot_temperature_C`.

    Examples
    --------
    >>> float(heat_W(100.0, 1e-4))
    1.0

    References
    ----------
    Joule's law.
    """
    return np.asarray(voltage_drop_V(current_A, resistance_ohm) * np.abs(current_A))


def spot_temperature_C(voltage_V: FloatLike, body_temperature_C: FloatLike) -> FloatArray:
    r"""Temperature of the hottest spot of a contact: :math:`T_m = \sqrt{T_0^2 + U^2 / 4L}`.

    Parameters
    ----------
    voltage_V : float or ndarray
        Voltage over the contact [V].
    body_temperature_C : float or ndarray
        Temperature of the members away from the constriction [degC].

    Returns
    -------
    ndarray
        Highest temperature in the constriction [degC].

    Raises
    ------
    OutOfRangeError
        For a body temperature at or below absolute zero.

    Notes
    -----
    Holds for any shape, in a steady state, with heat and current on the same path and both members alike.
    Fails for films that carry the drop, for very thin members cooled from the side, and where one member is a
    poor metal. It reproduces the tabled softening and melting voltages within about a fifth.

    Examples
    --------
    >>> round(float(spot_temperature_C(0.1, 20.0)), 3)
    160.414

    References
    ----------
    F. Kohlrausch, Ann. Phys. 306 (1900) 132; Holm 1967, chapter on the potential-temperature relation (from
    memory).
    """
    body_K = np.asarray(body_temperature_C, dtype=np.float64) + ZERO_CELSIUS
    require(body_K > 0.0, "body_temperature_C", "above absolute zero")
    voltage = np.asarray(voltage_V, dtype=np.float64)
    return np.asarray(np.sqrt(body_K**2 + voltage**2 / (4.0 * LORENZ_V2_PER_K2)) - ZERO_CELSIUS)


def voltage_for_spot_temperature_V(
    spot_temperature_C: FloatLike, body_temperature_C: FloatLike = 20.0
) -> FloatArray:
    r"""Voltage at which the hottest spot reaches a temperature: :math:`U = 2 \sqrt{L (T_m^2 - T_0^2)}`.

    Parameters
    ----------
    spot_temperature_C : float or ndarray
        Temperature of interest, such as softening or melting, not below the body's [degC].
    body_temperature_C : float or ndarray
        Temperature of the members away from the constriction [degC].

    Returns
    -------
    ndarray
        Voltage over the contact [V].

    Raises
    ------
    OutOfRangeError
        For a spot colder than the body, or a body at or below absolute zero.

    Notes
    -----
    Limits as in :func:`spot_temperature_C`. A measured softening voltage outranks it.

    Examples
    --------
    >>> round(float(voltage_for_spot_temperature_V(190.0)), 4)
    0.1122

    References
    ----------
    Inverse of :func:`spot_temperature_C`.
    """
    spot_K = np.asarray(spot_temperature_C, dtype=np.float64) + ZERO_CELSIUS
    body_K = np.asarray(body_temperature_C, dtype=np.float64) + ZERO_CELSIUS
    require(body_K > 0.0, "body_temperature_C", "above absolute zero")
    require(spot_K >= body_K, "spot_temperature_C", "not below the body's")
    return np.asarray(2.0 * np.sqrt(LORENZ_V2_PER_K2 * (spot_K**2 - body_K**2)))


def share_of_budget_left(used: FloatLike, budget: FloatLike) -> FloatArray:
    """Share that is left of a budget of voltage, resistance or temperature rise: ``1 - used / budget``.

    Parameters
    ----------
    used : float or ndarray
        Computed figure, zero or more [any].
    budget : float or ndarray
        What is allowed, positive [same].

    Returns
    -------
    ndarray
        Share; negative where the budget is exceeded [-].

    Raises
    ------
    OutOfRangeError
        For a negative use or a budget that is not positive.

    Notes
    -----
    The share left on the first day. What corrosion takes of it stays a judgement of words.

    Examples
    --------
    >>> float(share_of_budget_left(0.0005, 0.0025))
    0.8

    References
    ----------
    Definition.
    """
    spent = np.asarray(used, dtype=np.float64)
    allowed = np.asarray(budget, dtype=np.float64)
    require(spent >= 0.0, "used", "0 or more")
    require(allowed > 0.0, "budget", "positive")
    return np.asarray(1.0 - spent / allowed)
