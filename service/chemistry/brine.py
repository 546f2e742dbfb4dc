"""Density and conductivity of sodium and magnesium chloride solutions.

The conductivity table is that of 20 degC (magnesium chloride read in a reproduction, sodium chloride from
memory); it is carried to other temperatures as the conductivity of sea water moves.
"""

from __future__ import annotations

import gsw  # type: ignore[import-untyped]
import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.requirements import require
from service.chemistry.solutes import SOLUTES, Solute

LARGEST_PERCENT = 40.0
"""Beyond the saturation of either salt; a larger figure is a mistake [% by mass]."""


def density_kg_per_m3(solute: Solute, fraction: FloatLike, temperature_C: FloatLike) -> FloatArray:
    r"""Density of a solution: :math:`1/\rho = (1-w)/\rho_w + w/\rho_s`.

    Parameters
    ----------
    solute : Solute
        The salt [-].
    fraction : float or ndarray
        Mass fraction of salt, to 0.27 (sodium) or 0.32 (magnesium chloride) [-].
    temperature_C : float or ndarray
        Temperature, 0 to 95 [degC].

    Returns
    -------
    ndarray
        Density [kg/m3].

    Notes
    -----
    Between 0.32 and saturation the fit for magnesium chloride is extrapolated.

    Examples
    --------
    >>> round(float(density_kg_per_m3(Solute.SODIUM_CHLORIDE, 0.10, 20.0)), 1)
    1070.8

    References
    ----------
    M. Laliberte, J. Chem. Eng. Data 54 (2009) 1725, 10.1021/je8008123, supporting tables.
    """
    c0, c1, c2, c3, c4 = SOLUTES[solute].density
    w = np.asarray(fraction, dtype=np.float64)
    t = np.asarray(temperature_C, dtype=np.float64)
    cubic = ((-2.8054253e-10 * t + 1.0556302e-7) * t - 4.6170461e-5) * t - 0.0079870401
    water = ((cubic * t + 16.945176) * t + 999.83952) / (1.0 + 0.01687985 * t)
    salt = (c0 * w + c1) * np.exp(1e-6 * (t + c4) ** 2) / (w + c2 + c3 * t)
    return np.asarray(1.0 / ((1.0 - w) / water + w / salt))


def conductivity_S_per_m(solute: Solute, fraction: FloatLike, temperature_C: FloatLike) -> FloatArray:
    r"""Conductivity of a solution.

    :math:`\kappa = w\,g(\sqrt w)\,s(T)`: the table's quotient of conductivity and mass per cent is
    interpolated along the root of the concentration (Kohlrausch), and :math:`s` is how the conductivity of
    sea water moves with temperature.

    Parameters
    ----------
    solute : Solute
        The salt [-].
    fraction : float or ndarray
        Mass fraction of salt, zero to saturation [-].
    temperature_C : float or ndarray
        Temperature, -2 to 60 [degC].

    Returns
    -------
    ndarray
        Conductivity [S/m].

    Raises
    ------
    OutOfRangeError
        For a mass fraction below zero or above 0.4.

    Notes
    -----
    The conductivity of magnesium chloride has its peak near 18 per cent and falls beyond; that of sodium
    chloride still rises at saturation. Beyond the last table row the curve is continued straight. Against
    McCleskey's equation for dilute solutions the error stays below 5 % at 20 degC and 8 % at 60 degC.

    Examples
    --------
    >>> round(float(conductivity_S_per_m(Solute.SODIUM_CHLORIDE, 0.05, 20.0)), 2)
    7.01

    References
    ----------
    CRC Handbook of Chemistry and Physics, "Electrical Conductivity of Aqueous Solutions", 20 degC.
    """
    figures = SOLUTES[solute]
    w = 100.0 * np.asarray(fraction, dtype=np.float64)
    require((w >= 0.0) & (w <= LARGEST_PERCENT), "fraction", "between 0 and 0.4")
    percent, kappa = np.array(figures.table_percent), np.array(figures.table_S_per_m)
    nodes = np.sqrt(np.concatenate(([0.0], percent)))
    quotient = np.concatenate(([figures.dilute], kappa / percent))
    last_slope = (kappa[-1] - kappa[-2]) / (percent[-1] - percent[-2])
    inside = np.minimum(w, percent[-1])
    at_20 = inside * np.interp(np.sqrt(inside), nodes, quotient) + last_slope * (w - inside)
    return np.asarray(at_20 * sea_water_temperature_factor(temperature_C))


def sea_water_temperature_factor(temperature_C: FloatLike) -> FloatArray:
    """Conductivity of standard sea water over that at 20 degC.

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature, -2 to 60; defined to 35 and extrapolated above [degC].

    Returns
    -------
    ndarray
        Ratio of conductivities [-].

    Examples
    --------
    >>> round(float(sea_water_temperature_factor(25.0)), 4)
    1.1075

    References
    ----------
    Practical Salinity Scale 1978 through TEOS-10 (gsw).
    """
    temperature = np.asarray(temperature_C, dtype=np.float64)
    return np.asarray(gsw.C_from_SP(35.0, temperature, 0.0) / gsw.C_from_SP(35.0, 20.0, 0.0))
