"""Rain on a surface: its hours, what it dissolves, and how long its film takes to dry."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.constants import ZERO_CELSIUS
from service.chemistry.electrolyte import dissolved_salt_conductivity
from service.chemistry.requirements import require

HOURS_PER_YEAR = 8766.0

RAIN_FILM_M = 100e-6
"""Film under rain on a vertical to inclined surface; 50 to 300 um (from memory) [m]."""

RAIN_CONDUCTIVITY_S_PER_M = 0.005
"""Rain; 0.001 inland to 0.05 near surf (from memory) [S/m]."""

RAIN_INTENSITY_MM_PER_H = 1.7
"""Mean over hours with rain; 1.5 to 1.9 counted at three stations on one coast, 2013 [mm/h]."""

RAIN_EVENT_H = 3.3
"""Mean length of a spell of rain; 3.1 to 3.5 h counted at the same stations [h]."""

MASS_TRANSFER_M_PER_S = 0.005
"""Vapour from a wet surface in light wind, from a heat transfer coefficient of 6 W/(m2 K) by the
Chilton-Colburn analogy (common practice, no source) [m/s]."""

DAMPEST_DRYING_PCT = 95.0
"""Drying is computed in air no damper than this: in saturated air a film would never dry."""


def rain_hours_per_year(
    precipitation_mm_per_year: FloatLike, intensity_mm_per_h: FloatLike = RAIN_INTENSITY_MM_PER_H
) -> FloatArray:
    """Hours with rain, from the yearly depth and the mean intensity of rainy hours.

    Parameters
    ----------
    precipitation_mm_per_year : float or ndarray
        Depth of liquid precipitation, zero or more [mm/y].
    intensity_mm_per_h : float or ndarray
        Mean intensity, about 1 in drizzly and 3 in tropical climates, positive [mm/h].

    Returns
    -------
    ndarray
        Hours, at most the whole year [h/y].

    Raises
    ------
    OutOfRangeError
        For a negative depth or an intensity that is not positive.

    Examples
    --------
    >>> float(rain_hours_per_year(850.0))
    500.0

    References
    ----------
    Definition; default intensity counted from hourly records (``tests/published/data``).
    """
    depth = np.asarray(precipitation_mm_per_year, dtype=np.float64)
    intensity = np.asarray(intensity_mm_per_h, dtype=np.float64)
    require(depth >= 0.0, "precipitation_mm_per_year", "0 or more")
    require(intensity > 0.0, "intensity_mm_per_h", "positive")
    return np.minimum(depth / intensity, HOURS_PER_YEAR)


def rain_conductivity_S_per_m(
    chloride_mg_per_m2_d: FloatLike, precipitation_mm_per_year: FloatLike
) -> FloatArray:
    """Conductivity of rain that carries a year's chloride off a surface.

    Parameters
    ----------
    chloride_mg_per_m2_d : float or ndarray
        Deposition of chloride, zero or more [mg/(m2 d)].
    precipitation_mm_per_year : float or ndarray
        Depth of rain, positive [mm/y].

    Returns
    -------
    ndarray
        Conductivity [S/m].

    Raises
    ------
    OutOfRangeError
        For a negative deposition or a depth that is not positive.

    Notes
    -----
    Clean rain is taken as 0.001 S/m. The first minutes of a shower are saltier, the rest cleaner.

    Examples
    --------
    >>> round(float(rain_conductivity_S_per_m(60.0, 800.0)), 4)
    0.0097

    References
    ----------
    Conservation of mass: the year's chloride, as sodium chloride, dissolved in the year's rain.
    """
    chloride = np.asarray(chloride_mg_per_m2_d, dtype=np.float64)
    depth = np.asarray(precipitation_mm_per_year, dtype=np.float64)
    require(chloride >= 0.0, "chloride_mg_per_m2_d", "0 or more")
    require(depth > 0.0, "precipitation_mm_per_year", "positive")
    salt_g_per_m2 = chloride * 365.25e-3 / 0.6066  # chloride is 0.6066 of sodium chloride by mass
    return 0.001 + dissolved_salt_conductivity(salt_g_per_m2, depth * 1e-3, 20.0)


def drying_time_h(
    thickness_m: FloatLike, temperature_C: FloatLike, relative_humidity_pct: FloatLike
) -> FloatArray:
    r"""Time in which a film of water dries: :math:`t = \rho h / [k\,c_s(T)\,(1 - H)]`.

    Parameters
    ----------
    thickness_m : float or ndarray
        Thickness of the film [m].
    temperature_C : float or ndarray
        Temperature of surface and air [degC].
    relative_humidity_pct : float or ndarray
        Relative humidity, taken as 95 above that [%].

    Returns
    -------
    ndarray
        Time [h].

    Notes
    -----
    Light wind, no sun: a sunlit surface dries in a fraction of it.

    Examples
    --------
    >>> round(float(drying_time_h(100e-6, 15.0, 85.0)), 1)
    2.9

    References
    ----------
    Saturation vapour by the Magnus formula, WMO No. 8, annex 4.B (from memory); transfer coefficient
    :data:`MASS_TRANSFER_M_PER_S`.
    """
    temperature = np.asarray(temperature_C, dtype=np.float64)
    deficit = 1.0 - np.minimum(relative_humidity_pct, DAMPEST_DRYING_PCT) / 100.0
    pressure = 611.2 * np.exp(17.62 * temperature / (243.12 + temperature))
    saturated_kg_per_m3 = pressure / (461.5 * (temperature + ZERO_CELSIUS))
    seconds = 1000.0 * np.asarray(thickness_m) / (MASS_TRANSFER_M_PER_S * saturated_kg_per_m3 * deficit)
    return np.asarray(seconds / 3600.0)
