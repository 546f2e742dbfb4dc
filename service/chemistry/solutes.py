"""Sodium and magnesium chloride, the two solutes that a sea-salt film is made of, and their water.

Grades of the figures:

- water activity: Pitzer's equations at 25 degC, coefficients read in a reproduction; gives the humidity
  of the saturated solutions within 0.3 % relative humidity;
- humidity of the saturated solution: CRC Handbook, "Constant Humidity Solutions" (read in a reproduction);
- density: Laliberte's fit (read in an open data library);
- conductivity: CRC Handbook, "Electrical Conductivity of Aqueous Solutions" at 20 degC (magnesium chloride
  read in a reproduction, sodium chloride from memory), carried to other temperatures as sea water is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.constants import ZERO_CELSIUS


class Solute(StrEnum):
    """Salts with known brines."""

    SODIUM_CHLORIDE = "sodium chloride"
    MAGNESIUM_CHLORIDE = "magnesium chloride"


@dataclass(frozen=True, slots=True)
class SoluteFigures:
    """Figures of one salt.

    ``pitzer`` is (beta0, beta1, C_phi); ``density`` Laliberte's c0 to c4; ``saturation`` the A and B of
    ``RH = A exp(B/T)``; ``table_S_per_m`` the conductivity at 20 degC at ``table_percent`` of salt by mass,
    and ``dilute`` its limit, in S/m for each per cent, in infinite dilution.
    """

    molar_mass_g_per_mol: float
    cations: int
    anions: int
    largest_molality: float
    pitzer: tuple[float, float, float]
    density: tuple[float, float, float, float, float]
    saturation: tuple[float, float]
    dilute: float
    table_percent: tuple[float, ...]
    table_S_per_m: tuple[float, ...]


# Pitzer and Mayorga, J. Phys. Chem. 77 (1973) 2300, 10.1021/j100638a009, tables for 1:1 and 2:1 salts.
# Laliberte, J. Chem. Eng. Data 54 (2009) 1725, 10.1021/je8008123. CRC Handbook, sections 5 and 15.
# Dilute limit: McCleskey, J. Chem. Eng. Data 56 (2011) 317, 10.1021/je101012n, at 20 degC.
SOLUTES: Mapping[Solute, SoluteFigures] = MappingProxyType(
    {
        Solute.SODIUM_CHLORIDE: SoluteFigures(
            molar_mass_g_per_mol=58.443,
            cations=1,
            anions=1,
            largest_molality=6.5,
            pitzer=(0.0765, 0.2664, 0.00127),
            density=(
                -0.00324112223655149,
                0.0636354335906616,
                1.01371399467365,
                0.0145951015210159,
                3317.34854426537,
            ),
            saturation=(69.20, 25.0),
            dilute=1.956,
            table_percent=(0.5, 1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 25.0),
            table_S_per_m=(0.82, 1.60, 3.02, 7.01, 12.6, 17.1, 20.4, 22.2),
        ),
        Solute.MAGNESIUM_CHLORIDE: SoluteFigures(
            molar_mass_g_per_mol=95.211,
            cations=1,
            anions=2,
            largest_molality=5.9,
            pitzer=(0.35235, 1.6815, 0.00519),
            density=(
                -0.0215001423271867,
                0.0441202083909434,
                1.53227586827304,
                -0.0098078506056196,
                -3478.36496883693,
            ),
            saturation=(29.26, 34.0),
            dilute=2.452,
            table_percent=(0.5, 1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0),
            table_S_per_m=(0.86, 1.66, 3.12, 6.69, 10.8, 12.9, 13.4, 12.2, 9.8),
        ),
    }
)

DEBYE_HUECKEL = 0.3915
"""Osmotic Debye-Hueckel slope at 25 degC [kg^0.5/mol^0.5]."""

WATER_KG_PER_MOL = 0.0180153


def water_activity(solute: Solute, molality: FloatLike) -> FloatArray:
    r"""Water activity of a solution, equal to the relative humidity with which it is in equilibrium.

    .. math:: \ln a_w = -M_w \nu m \phi, \quad
        \phi = 1 - |z_+ z_-| \frac{A \sqrt I}{1 + 1.2 \sqrt I}
        + \frac{2 \nu_+ \nu_-}{\nu} m (\beta_0 + \beta_1 e^{-2 \sqrt I})
        + \frac{2 (\nu_+ \nu_-)^{3/2}}{\nu} m^2 C_\phi

    Parameters
    ----------
    solute : Solute
        The salt [-].
    molality : float or ndarray
        Salt in the water, from zero to saturation [mol/kg].

    Returns
    -------
    ndarray
        Water activity [-].

    Notes
    -----
    Coefficients of 25 degC; between 0 and 40 degC the activity at given molality moves by under 0.01.

    Examples
    --------
    >>> round(float(water_activity(Solute.SODIUM_CHLORIDE, 2.827)), 4)
    0.9

    References
    ----------
    K. S. Pitzer and G. Mayorga, J. Phys. Chem. 77 (1973) 2300, 10.1021/j100638a009.
    """
    figures = SOLUTES[solute]
    m = np.asarray(molality, dtype=np.float64)
    beta0, beta1, c_phi = figures.pitzer
    ions, product = figures.cations + figures.anions, figures.cations * figures.anions
    root = np.sqrt(0.5 * (figures.cations * figures.anions**2 + figures.anions * figures.cations**2) * m)
    osmotic = (
        1.0
        - product * DEBYE_HUECKEL * root / (1.0 + 1.2 * root)
        + 2.0 * product / ions * m * (beta0 + beta1 * np.exp(-2.0 * root))
        + 2.0 * product**1.5 / ions * m**2 * c_phi
    )
    return np.asarray(np.exp(-WATER_KG_PER_MOL * ions * m * osmotic))


@cache
def _activity_table(solute: Solute) -> tuple[FloatArray, FloatArray]:
    molality = np.linspace(0.0, SOLUTES[solute].largest_molality, 4001)
    return water_activity(solute, molality)[::-1], molality[::-1]


def equilibrium_molality(solute: Solute, relative_humidity_pct: FloatLike) -> FloatArray:
    """Molality of the solution that neither takes up nor loses water in air of a given humidity.

    Parameters
    ----------
    solute : Solute
        The salt [-].
    relative_humidity_pct : float or ndarray
        Relative humidity [%].

    Returns
    -------
    ndarray
        Molality; not-a-number where the salt is dry, zero at 100 % [mol/kg].

    Notes
    -----
    Solutions that stay liquid below their saturation humidity (supersaturated) are not described.

    Examples
    --------
    >>> round(float(equilibrium_molality(Solute.SODIUM_CHLORIDE, 80.0)), 3)
    5.146

    References
    ----------
    Inverse of :func:`water_activity` on a table of 4001 molalities.
    """
    activity, molality = _activity_table(solute)
    humidity = np.asarray(relative_humidity_pct, dtype=np.float64) / 100.0
    return np.asarray(np.interp(humidity, activity, molality, left=np.nan))


def deliquescence_humidity_pct(solute: Solute, temperature_C: FloatLike) -> FloatArray:
    """Humidity above which a dry salt takes up water until it has dissolved: ``A exp(B/T)``.

    Parameters
    ----------
    solute : Solute
        The salt [-].
    temperature_C : float or ndarray
        Temperature, 5 to 40 [degC].

    Returns
    -------
    ndarray
        Relative humidity over the saturated solution [%].

    Notes
    -----
    Generally good to 2 % relative humidity. On drying a film may stay liquid to lower humidities.

    Examples
    --------
    >>> round(float(deliquescence_humidity_pct(Solute.MAGNESIUM_CHLORIDE, 25.0)), 1)
    32.8

    References
    ----------
    CRC Handbook of Chemistry and Physics, "Constant Humidity Solutions", after L. Greenspan, J. Res. NBS
    81A (1977) 89.
    """
    a, b = SOLUTES[solute].saturation
    return np.asarray(a * np.exp(b / (np.asarray(temperature_C, dtype=np.float64) + ZERO_CELSIUS)))


def mass_fraction(solute: Solute, molality: FloatLike) -> FloatArray:
    """Mass of salt in a mass of solution: ``w = m M / (1 + m M)``.

    Parameters
    ----------
    solute : Solute
        The salt [-].
    molality : float or ndarray
        Salt in the water [mol/kg].

    Returns
    -------
    ndarray
        Mass fraction [-].

    Examples
    --------
    >>> round(float(mass_fraction(Solute.SODIUM_CHLORIDE, 0.6073)), 5)
    0.03428

    References
    ----------
    Definition.
    """
    per_water = np.asarray(molality, dtype=np.float64) * SOLUTES[solute].molar_mass_g_per_mol / 1000.0
    return np.asarray(per_water / (1.0 + per_water))
