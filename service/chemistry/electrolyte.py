"""Sea water, and the film that deposited salt draws from humid air.

Sea water comes from TEOS-10 (exact within its range). The film is a model: its salt is sodium chloride and
magnesium chloride, each in equilibrium with the air on its own, so that thickness and sheet conductance
add. The sheet conductance follows the salt load: humidity moves it by about a factor of two above 76 %, the
thickness nearly tenfold.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

import gsw  # type: ignore[import-untyped]
import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.brine import conductivity_S_per_m, density_kg_per_m3
from service.chemistry.requirements import require
from service.chemistry.solutes import Solute, deliquescence_humidity_pct, equilibrium_molality, mass_fraction

PRACTICAL_PER_G_PER_KG = 35.0 / 35.16504
"""Practical salinity of 1 g/kg of reference-composition salt (TEOS-10 manual, section 2.4)."""

SEA_WATER_RANGE_C = (-2.0, 40.0)
SEA_WATER_RANGE_G_PER_KG = (0.0, 42.0)

WETTEST_HUMIDITY_PCT = 98.0
"""Above it the equilibrium film would grow without bound, while a real one runs off."""


class Deposit(StrEnum):
    """What lies on the surface."""

    SEA_SALT = "sea salt"
    SODIUM_CHLORIDE = "sodium chloride"


# Mass shares. Sea salt: all magnesium and calcium of the reference composition (Millero et al., Deep-Sea
# Res. I 55 (2008) 50, 10.1016/j.dsr.2007.10.001, from memory) counted as magnesium chloride, the rest as
# sodium chloride.
SHARES: Mapping[Deposit, Mapping[Solute, float]] = MappingProxyType(
    {
        Deposit.SEA_SALT: MappingProxyType({Solute.SODIUM_CHLORIDE: 0.829, Solute.MAGNESIUM_CHLORIDE: 0.171}),
        Deposit.SODIUM_CHLORIDE: MappingProxyType({Solute.SODIUM_CHLORIDE: 1.0}),
    }
)


@dataclass(frozen=True, slots=True)
class SaltFilm:
    """A film in equilibrium with the air; all arrays of one shape, zero where the salt is dry."""

    thickness_m: FloatArray
    conductivity_S_per_m: FloatArray
    sheet_conductance_S: FloatArray


def sea_water_conductivity(temperature_C: FloatLike, salinity_g_per_kg: FloatLike = 35.0) -> FloatArray:
    """Conductivity of sea water or of its dilution.

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature, -2 to 40 [degC].
    salinity_g_per_kg : float or ndarray
        Salt of reference composition in the water, 0 to 42 [g/kg].

    Returns
    -------
    ndarray
        Conductivity; not-a-number outside the ranges [S/m].

    Examples
    --------
    >>> round(float(sea_water_conductivity(25.0)), 3)
    5.285

    References
    ----------
    Practical Salinity Scale 1978 and TEOS-10, ``gsw.C_from_SP``.
    """
    temperature, salinity = _within_sea_water(temperature_C, salinity_g_per_kg)
    return np.asarray(0.1 * gsw.C_from_SP(salinity * PRACTICAL_PER_G_PER_KG, temperature, 0.0))


def sea_water_salinity(temperature_C: FloatLike, conductivity_S_per_m: FloatLike) -> FloatArray:
    """Salt in sea water or its dilution, from its conductivity.

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature, -2 to 40 [degC].
    conductivity_S_per_m : float or ndarray
        Conductivity, that of 0 to 42 g/kg [S/m].

    Returns
    -------
    ndarray
        Salt of reference composition; not-a-number outside the ranges [g/kg].

    Examples
    --------
    >>> round(float(sea_water_salinity(25.0, 5.285)), 2)
    35.0

    References
    ----------
    Practical Salinity Scale 1978 and TEOS-10, ``gsw.SP_from_C``.
    """
    practical = gsw.SP_from_C(10.0 * np.asarray(conductivity_S_per_m, dtype=np.float64), temperature_C, 0.0)
    return _within_sea_water(temperature_C, practical / PRACTICAL_PER_G_PER_KG)[1]


def sea_water_oxygen(temperature_C: FloatLike, salinity_g_per_kg: FloatLike = 35.0) -> FloatArray:
    """Oxygen in sea water that is saturated with air at one atmosphere.

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature, -2 to 40 [degC].
    salinity_g_per_kg : float or ndarray
        Salt of reference composition in the water, 0 to 42 [g/kg].

    Returns
    -------
    ndarray
        Concentration; not-a-number outside the ranges [mol/m3].

    Notes
    -----
    Harbours, deep water and water with sulfide hold less; photosynthesis adds some.

    Examples
    --------
    >>> round(float(sea_water_oxygen(25.0)), 4)
    0.2118

    References
    ----------
    H. E. Garcia and L. I. Gordon, Limnol. Oceanogr. 37 (1992) 1307, 10.4319/lo.1992.37.6.1307, through
    ``gsw.O2sol_SP_pt``; density by TEOS-10.
    """
    temperature, salinity = _within_sea_water(temperature_C, salinity_g_per_kg)
    per_kg = 1e-6 * gsw.O2sol_SP_pt(salinity * PRACTICAL_PER_G_PER_KG, temperature)
    density = gsw.rho(salinity, gsw.CT_from_t(salinity, temperature, 0.0), 0.0)
    return np.asarray(per_kg * density)


def _within_sea_water(
    temperature_C: FloatLike, salinity_g_per_kg: FloatLike
) -> tuple[FloatArray, FloatArray]:
    """Both inputs in one shape, not-a-number where either lies outside its range."""
    temperature, salinity = np.broadcast_arrays(temperature_C, salinity_g_per_kg)
    (coldest, warmest), (freshest, saltiest) = SEA_WATER_RANGE_C, SEA_WATER_RANGE_G_PER_KG
    is_inside = (temperature >= coldest) & (temperature <= warmest)
    is_inside &= (salinity >= freshest) & (salinity <= saltiest)
    return np.where(is_inside, temperature, np.nan), np.where(is_inside, salinity, np.nan)


def salt_film(
    relative_humidity_pct: FloatLike,
    salt_load_g_per_m2: FloatLike,
    temperature_C: FloatLike = 25.0,
    deposit: Deposit = Deposit.SEA_SALT,
) -> SaltFilm:
    r"""Film on a surface with deposited salt, in equilibrium with humid air.

    .. math:: h = \sum_i \frac{s_i L}{w_i \rho_i}, \quad \kappa h = \sum_i \kappa_i h_i

    where solute *i* has the share :math:`s_i` of the load *L* and its own concentration :math:`w_i` at the
    humidity of the air, and counts only above its deliquescence.

    Parameters
    ----------
    relative_humidity_pct : float or ndarray
        Relative humidity at the surface; taken as 98 above that [%].
    salt_load_g_per_m2 : float or ndarray
        Salt on the surface, zero or more [g/m2].
    temperature_C : float or ndarray
        Temperature [degC].
    deposit : Deposit
        What the salt is [-].

    Returns
    -------
    SaltFilm
        Thickness [m], conductivity [S/m] and sheet conductance [S] of the broadcast shape.

    Raises
    ------
    OutOfRangeError
        For a negative salt load.

    Notes
    -----
    Mixing after Zdanovskii, Stokes and Robinson: solutions of equal water activity mix without taking up
    water. Neglected: hysteresis (a drying film stays liquid below deliquescence), sulfate and carbonate,
    corrosion products that hold water, and drops, whose mean thickness this is. For 1 g/m2 of sea salt a
    published estimate is 3 to 30 um above 75 % and 0.3 to 0.7 um below (Shinohara et al. 2003).

    Examples
    --------
    >>> film = salt_film(80.0, 1.0, deposit=Deposit.SODIUM_CHLORIDE)
    >>> round(float(film.thickness_m) * 1e6, 2)
    3.69

    References
    ----------
    R. H. Stokes and R. A. Robinson, J. Phys. Chem. 70 (1966) 2126, 10.1021/j100879a010 (mixing rule, from
    memory); T. Shinohara, W. Oshikawa, S. Motoda, Zairyo-to-Kankyo 52 (2003) 293.
    """
    humidity, load, temperature = np.broadcast_arrays(
        np.minimum(relative_humidity_pct, WETTEST_HUMIDITY_PCT), salt_load_g_per_m2, temperature_C
    )
    require(load >= 0.0, "salt_load_g_per_m2", "0 or more")
    thickness = np.zeros(humidity.shape)
    sheet = np.zeros(humidity.shape)
    for solute, share in SHARES[deposit].items():
        is_wet = humidity >= deliquescence_humidity_pct(solute, temperature)
        wet_humidity = np.where(is_wet, humidity, WETTEST_HUMIDITY_PCT)
        fraction = mass_fraction(solute, equilibrium_molality(solute, wet_humidity))
        layer = 1e-3 * share * load / (fraction * density_kg_per_m3(solute, fraction, temperature))
        layer = np.where(is_wet, layer, 0.0)
        thickness = thickness + layer
        sheet = sheet + layer * conductivity_S_per_m(solute, fraction, temperature)
    conductivity = np.divide(sheet, thickness, out=np.zeros(humidity.shape), where=thickness > 0.0)
    return SaltFilm(thickness, conductivity, sheet)


def dissolved_salt_conductivity(
    salt_load_g_per_m2: FloatLike, thickness_m: FloatLike, temperature_C: FloatLike
) -> FloatArray:
    """Conductivity of a film of given thickness in which a salt load has dissolved.

    Parameters
    ----------
    salt_load_g_per_m2 : float or ndarray
        Salt on the surface, zero or more [g/m2].
    thickness_m : float or ndarray
        Thickness of the film, positive [m].
    temperature_C : float or ndarray
        Temperature [degC].

    Returns
    -------
    ndarray
        Conductivity, at most that of the saturated solution [S/m].

    Raises
    ------
    OutOfRangeError
        For a negative load or a thickness that is not positive.

    Notes
    -----
    All salt is counted as sodium chloride: sea salt conducts some 5 % less at the same load.

    Examples
    --------
    >>> round(float(dissolved_salt_conductivity(1.0, 100e-6, 20.0)), 2)
    1.59

    References
    ----------
    Conservation of mass with the density and conductivity of :mod:`service.chemistry.brine`.
    """
    load = np.asarray(salt_load_g_per_m2, dtype=np.float64)
    thickness = np.asarray(thickness_m, dtype=np.float64)
    require(load >= 0.0, "salt_load_g_per_m2", "0 or more")
    require(thickness > 0.0, "thickness_m", "positive")
    solute = Solute.SODIUM_CHLORIDE
    saturated = mass_fraction(solute, equilibrium_molality(solute, 75.3))
    concentration = 1e-3 * load / thickness
    fraction = np.zeros_like(concentration)
    for _ in range(12):  # the density changes by at most a fifth, so each round gains most of a digit
        fraction = np.minimum(concentration / density_kg_per_m3(solute, fraction, temperature_C), saturated)
    return conductivity_S_per_m(solute, fraction, temperature_C)
