"""Indoor classes of ISO 11844-1 and severity levels of ISA-71.04, and the rates that they stand for.

The two scales rest on other measures (loss of metal in a year; growth of a corrosion film in thirty days)
and cannot be converted into each other. ISO 11844-1 limits are from memory; ISA-71.04-2013 was read in a
laboratory's reproduction of its table.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike, IntArray
from service.chemistry.requirements import require


class IndoorMetal(StrEnum):
    """Reference metals of ISO 11844-1 with a known limit (lead, added in 2020, is missing)."""

    CARBON_STEEL = "carbon_steel"
    ZINC = "zinc"
    COPPER = "copper"
    SILVER = "silver"


class FilmMetal(StrEnum):
    """Reference metals of ISA-71.04-2013."""

    COPPER = "copper"
    SILVER = "silver"


INDOOR_CLASSES = ("IC1", "IC2", "IC3", "IC4", "IC5")
BEYOND_IC5 = len(INDOOR_CLASSES)
SEVERITY_LEVELS = ("G1", "G2", "G3", "GX")

# ISO 11844-1 Table 1 (2006 values, from memory): upper limits of IC1 to IC5, loss of mass in mg/(m2 y).
MASS_LOSS_MG_PER_M2_Y: Mapping[IndoorMetal, tuple[float, ...]] = MappingProxyType(
    {
        IndoorMetal.CARBON_STEEL: (70.0, 1000.0, 10_000.0, 70_000.0, 200_000.0),
        IndoorMetal.ZINC: (50.0, 250.0, 700.0, 2500.0, 5000.0),
        IndoorMetal.COPPER: (50.0, 200.0, 900.0, 2000.0, 5000.0),
        IndoorMetal.SILVER: (170.0, 670.0, 3000.0, 6700.0, 16_700.0),
    }
)

# Handbook densities (from memory), g/cm3.
DENSITY_G_PER_CM3: Mapping[IndoorMetal, float] = MappingProxyType(
    {
        IndoorMetal.CARBON_STEEL: 7.86,
        IndoorMetal.ZINC: 7.14,
        IndoorMetal.COPPER: 8.96,
        IndoorMetal.SILVER: 10.49,
    }
)

# ANSI/ISA-71.04-2013, reactivity table: upper limits of G1 to G3, film in angstrom in 30 days.
FILM_ANGSTROM_PER_30_D: Mapping[FilmMetal, tuple[float, float, float]] = MappingProxyType(
    {FilmMetal.COPPER: (300.0, 1000.0, 2000.0), FilmMetal.SILVER: (200.0, 1000.0, 2000.0)}
)


@dataclass(frozen=True, slots=True)
class IndoorBand:
    """Ends of a class; the flags mark an end that the standard leaves open."""

    low: float
    typical: float
    high: float
    is_low_assumed: bool
    is_high_assumed: bool


def indoor_class(metal: IndoorMetal, loss_mg_per_m2_y: FloatLike) -> IntArray:
    """Class of a measured loss; the upper limit belongs to the class.

    Parameters
    ----------
    metal : IndoorMetal
        Which reference metal [-].
    loss_mg_per_m2_y : float or ndarray
        Loss of mass in a year, zero or more [mg/(m2 y)].

    Returns
    -------
    ndarray of int
        Place in :data:`INDOOR_CLASSES`, :data:`BEYOND_IC5` above the table [-].

    Raises
    ------
    OutOfRangeError
        For a loss that is negative or not a number.

    Notes
    -----
    The standard says what was measured, not what other metals will do; report one class for each metal.

    Examples
    --------
    >>> INDOOR_CLASSES[int(indoor_class(IndoorMetal.COPPER, 120.0))]
    'IC2'

    References
    ----------
    ISO 11844-1, Table 1 (from memory).
    """
    loss = np.asarray(loss_mg_per_m2_y, dtype=np.float64)
    require(loss >= 0.0, "loss_mg_per_m2_y", "0 or more")
    return np.asarray(np.searchsorted(MASS_LOSS_MG_PER_M2_Y[metal], loss, side="left"), dtype=np.int64)


def indoor_rate_band_um_per_year(metal: IndoorMetal, class_name: str) -> IndoorBand:
    """Loss of thickness in a year that a class stands for.

    Parameters
    ----------
    metal : IndoorMetal
        Which reference metal [-].
    class_name : str
        One of :data:`INDOOR_CLASSES` [-].

    Returns
    -------
    IndoorBand
        Low, typical (geometric mean) and high loss [um/y].

    Raises
    ------
    OutOfRangeError
        For an unknown class.

    Notes
    -----
    IC1 has no lower limit: a tenth of its upper limit is assumed.

    Examples
    --------
    >>> round(indoor_rate_band_um_per_year(IndoorMetal.ZINC, "IC3").high, 3)
    0.098

    References
    ----------
    ISO 11844-1, Table 1 (from memory).
    """
    require(class_name in INDOOR_CLASSES, "class_name", "one of " + ", ".join(INDOOR_CLASSES))
    index = INDOOR_CLASSES.index(class_name)
    limits = np.array(MASS_LOSS_MG_PER_M2_Y[metal]) * 1e-3 / DENSITY_G_PER_CM3[metal]
    return _band(limits, index)


def film_growth_per_30_days(film: FloatLike, days: FloatLike) -> FloatArray:
    """Film measured after some days, brought to thirty days in proportion: ``film * 30 / days``.

    Parameters
    ----------
    film : float or ndarray
        Thickness after the exposure [any].
    days : float or ndarray
        Length of the exposure, positive [d].

    Returns
    -------
    ndarray
        Thickness in 30 days [as given].

    Raises
    ------
    OutOfRangeError
        For a time that is not positive.

    Notes
    -----
    Growth is seldom linear: exposures far from 30 days mislead.

    Examples
    --------
    >>> float(film_growth_per_30_days(600.0, 90.0))
    200.0

    References
    ----------
    ANSI/ISA-71.04-2013, normalisation of the exposure time.
    """
    time = np.asarray(days, dtype=np.float64)
    require(time > 0.0, "days", "positive")
    return np.asarray(np.asarray(film, dtype=np.float64) * 30.0 / time)


def severity_level(copper_angstrom_per_30_d: FloatLike, silver_angstrom_per_30_d: FloatLike) -> IntArray:
    """Severity of the air of a room: the worse of what copper and silver show.

    Parameters
    ----------
    copper_angstrom_per_30_d : float or ndarray
        Film on copper in 30 days, zero or more [angstrom].
    silver_angstrom_per_30_d : float or ndarray
        Film on silver in 30 days, zero or more [angstrom].

    Returns
    -------
    ndarray of int
        Place in :data:`SEVERITY_LEVELS`; a limit belongs to the harsher level [-].

    Raises
    ------
    OutOfRangeError
        For a film that is negative or not a number.

    Examples
    --------
    >>> SEVERITY_LEVELS[int(severity_level(250.0, 400.0))]
    'G2'

    References
    ----------
    ANSI/ISA-71.04-2013, reactivity table.
    """
    levels = []
    films = ((FilmMetal.COPPER, copper_angstrom_per_30_d), (FilmMetal.SILVER, silver_angstrom_per_30_d))
    for metal, film in films:
        thickness = np.asarray(film, dtype=np.float64)
        require(thickness >= 0.0, f"{metal}_angstrom_per_30_d", "0 or more")
        levels.append(np.searchsorted(FILM_ANGSTROM_PER_30_D[metal], thickness, side="right"))
    return np.asarray(np.maximum(*levels), dtype=np.int64)


def severity_film_band_nm_per_year(metal: FilmMetal, level: str) -> IndoorBand:
    """Growth of the corrosion film that a level stands for, if it went on for a year.

    Parameters
    ----------
    metal : FilmMetal
        Which reference metal [-].
    level : str
        One of :data:`SEVERITY_LEVELS` [-].

    Returns
    -------
    IndoorBand
        Low, typical (geometric mean) and high growth [nm/y].

    Raises
    ------
    OutOfRangeError
        For an unknown level.

    Notes
    -----
    A film of corrosion product, not a loss of metal. G1 has no lower limit (a tenth of the upper one is
    assumed) and GX no upper one (twice the lower one is assumed). A straight line through a year is an
    upper estimate, since films slow down.

    Examples
    --------
    >>> round(severity_film_band_nm_per_year(FilmMetal.SILVER, "G1").high, 1)
    243.5

    References
    ----------
    ANSI/ISA-71.04-2013, reactivity table.
    """
    require(level in SEVERITY_LEVELS, "level", "one of " + ", ".join(SEVERITY_LEVELS))
    limits = np.array([*FILM_ANGSTROM_PER_30_D[metal], np.inf]) * 0.1 * 365.25 / 30.0
    return _band(limits, SEVERITY_LEVELS.index(level))


def _band(limits: FloatArray, index: int) -> IndoorBand:
    """Band between two limits of a table, closing an open end by the factors in the docstrings."""
    is_high_assumed, is_low_assumed = not np.isfinite(limits[index]), index == 0
    high = float(2.0 * limits[index - 1] if is_high_assumed else limits[index])
    low = float(0.1 * high if is_low_assumed else limits[index - 1])
    return IndoorBand(low, float(np.sqrt(low * high)), high, is_low_assumed, is_high_assumed)
