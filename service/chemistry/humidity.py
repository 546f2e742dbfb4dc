r"""How the hours of a year spread around the annual mean humidity and temperature.

Relative humidity is taken as beta distributed: with the mean :math:`m` and one concentration :math:`\nu`
the shape parameters are :math:`m \nu` and :math:`(1 - m) \nu`. Ten hourly records of a year (Alaska to
Florida, Amsterdam, Piedmont) give :math:`\nu` between 3.8 and 11.2; with the default of 5 the hours above
80 % and above freezing come out within a factor 1.35 of those counted (``tests/published``). Maritime
climates lie higher (about 10), continental ones lower (about 4). Temperature is taken as normal.
"""

from __future__ import annotations

import math

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.requirements import require

HUMIDITY_CONCENTRATION = 5.0
"""Default of nu; ten hourly records: 3.8 to 11.2 [-]."""

TEMPERATURE_SPREAD_C = 9.0
"""Default standard deviation of hourly temperature; ten hourly records: 4.3 to 11.2 [degC]."""

_FRACTION_DEPTH = 50  # 1e-13 up to a concentration of 60
_HALVINGS = 40
_log_gamma = np.vectorize(math.lgamma, otypes=[np.float64])
_error_function = np.vectorize(math.erf, otypes=[np.float64])


def _incomplete_beta(x: FloatArray, a: FloatArray, b: FloatArray) -> FloatArray:
    """Regularised incomplete beta function by its continued fraction (DLMF 8.17.20 to 8.17.22)."""
    is_far = x > (a + 1.0) / (a + b + 2.0)
    p, q, y = np.where(is_far, b, a), np.where(is_far, a, b), np.where(is_far, 1.0 - x, x)
    fraction = np.ones_like(y)
    for n in range(_FRACTION_DEPTH, 0, -1):
        m = n // 2
        numerator = -(p + m) * (p + q + m) if n % 2 else m * (q - m)
        fraction = 1.0 + numerator * y / ((p + n - 1.0) * (p + n)) / fraction
    front = _log_gamma(p + q) - _log_gamma(p) - _log_gamma(q) + p * np.log(y) + q * np.log1p(-y)
    value = np.exp(front) / (p * fraction)
    return np.asarray(np.where(is_far, 1.0 - value, value))


def share_above(
    threshold_pct: FloatLike, mean_pct: FloatLike, concentration: FloatLike = HUMIDITY_CONCENTRATION
) -> FloatArray:
    r"""Share of the year in which the relative humidity lies above a threshold.

    :math:`1 - I_x(m \nu, (1 - m) \nu)`, the regularised incomplete beta function.

    Parameters
    ----------
    threshold_pct : float or ndarray
        Threshold, between 0 and 100 [%].
    mean_pct : float or ndarray
        Annual mean relative humidity, between 0 and 100 [%].
    concentration : float or ndarray
        How closely the hours keep to the mean [-].

    Returns
    -------
    ndarray
        Share of the hours, broadcast shape [-].

    Raises
    ------
    OutOfRangeError
        For a threshold or a mean that is not between 0 and 100, or a concentration that is not positive.

    Notes
    -----
    Day and season are lost, and with them whether the humid hours are the warm or the cold ones.

    Examples
    --------
    >>> round(float(share_above(80.0, 79.0)), 3)
    0.565

    References
    ----------
    NIST Digital Library of Mathematical Functions, section 8.17.
    """
    x, m, nu = (
        np.asarray(v, dtype=np.float64) for v in np.broadcast_arrays(threshold_pct, mean_pct, concentration)
    )
    require((x > 0.0) & (x < 100.0), "threshold_pct", "between 0 and 100")  # noqa: PLR2004
    require((m > 0.0) & (m < 100.0), "mean_pct", "between 0 and 100")  # noqa: PLR2004
    require(nu > 0.0, "concentration", "positive")
    return 1.0 - _incomplete_beta(x / 100.0, m / 100.0 * nu, (1.0 - m / 100.0) * nu)


def median_above(
    threshold_pct: FloatLike, mean_pct: FloatLike, concentration: FloatLike = HUMIDITY_CONCENTRATION
) -> FloatArray:
    """Median humidity of the hours above a threshold.

    Parameters
    ----------
    threshold_pct : float or ndarray
        Threshold, between 0 and 100 [%].
    mean_pct : float or ndarray
        Annual mean relative humidity, between 0 and 100 [%].
    concentration : float or ndarray
        How closely the hours keep to the mean [-].

    Returns
    -------
    ndarray
        Relative humidity, broadcast shape [%].

    Notes
    -----
    Against ten hourly records the median above 75.3 % came out within 5 % relative humidity.

    Examples
    --------
    >>> round(float(median_above(75.3, 79.0)), 1)
    89.7

    References
    ----------
    Bisection on :func:`share_above`.
    """
    low, mean, nu = np.broadcast_arrays(np.asarray(threshold_pct, dtype=np.float64), mean_pct, concentration)
    target = 0.5 * share_above(low, mean, nu)
    high = np.full(low.shape, 100.0)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        is_below = share_above(middle, mean, nu) > target
        low, high = np.where(is_below, middle, low), np.where(is_below, high, middle)
    return np.asarray(0.5 * (low + high))


def share_above_freezing(
    mean_C: FloatLike, spread_C: FloatLike = TEMPERATURE_SPREAD_C, freezing_C: FloatLike = 0.0
) -> FloatArray:
    """Share of the year in which the air is warmer than freezing.

    Parameters
    ----------
    mean_C : float or ndarray
        Annual mean temperature [degC].
    spread_C : float or ndarray
        Standard deviation of the hourly temperature, positive [degC].
    freezing_C : float or ndarray
        Freezing point of the film [degC].

    Returns
    -------
    ndarray
        Share of the hours, broadcast shape [-].

    Raises
    ------
    OutOfRangeError
        For a spread that is not positive.

    Examples
    --------
    >>> float(share_above_freezing(0.0))
    0.5

    References
    ----------
    Normal distribution of hourly temperature (model assumption).
    """
    mean, spread, freezing = np.broadcast_arrays(np.asarray(mean_C, dtype=np.float64), spread_C, freezing_C)
    require(spread > 0.0, "spread_C", "positive")
    return np.asarray(0.5 * (1.0 + _error_function((mean - freezing) / (math.sqrt(2.0) * spread))))
