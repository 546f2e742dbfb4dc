"""Hours of the year that a surface spends under rain, under a brine film and drying.

The year is 8766 h. Humid hours come from the distribution in :mod:`service.chemistry.humidity`, films from
:mod:`service.chemistry.electrolyte`. What is neglected: dew on surfaces colder than the air, the order of
rain and dry spells, sun on the surface, and films below freezing (brine freezes later than water, so cold
marine sites are wetter than computed).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike, IntArray
from service.chemistry.electrolyte import Deposit, dissolved_salt_conductivity, salt_film
from service.chemistry.humidity import (
    HUMIDITY_CONCENTRATION,
    TEMPERATURE_SPREAD_C,
    median_above,
    share_above,
    share_above_freezing,
)
from service.chemistry.rain import (
    HOURS_PER_YEAR,
    RAIN_CONDUCTIVITY_S_PER_M,
    RAIN_EVENT_H,
    RAIN_FILM_M,
    drying_time_h,
)
from service.chemistry.requirements import require
from service.chemistry.solutes import Solute, deliquescence_humidity_pct

WET_HUMIDITY_PCT = 80.0
"""ISO 9223: a surface counts as wet above this humidity and above 0 degC."""

WETNESS_CLASSES = ("tau1", "tau2", "tau3", "tau4", "tau5")
WETNESS_LIMITS_H = (10.0, 250.0, 2500.0, 5500.0)
"""Upper limits of tau1 to tau4 (ISO 9223; 5500 h from memory) [h/y]."""


@dataclass(frozen=True, slots=True)
class Climate:
    """What is known of a place; figures or arrays of one shape.

    ``rain_h_per_year`` counts liquid rain and is ignored where ``is_sheltered``. ``salt_load_g_per_m2`` is
    the mean load that lies on the surface, after washing where rain washes it.
    """

    temperature_C: FloatLike
    relative_humidity_pct: FloatLike
    salt_load_g_per_m2: FloatLike
    rain_h_per_year: FloatLike = 0.0
    is_sheltered: bool = False
    deposit: Deposit = Deposit.SEA_SALT
    rain_conductivity_S_per_m: FloatLike = RAIN_CONDUCTIVITY_S_PER_M
    humidity_concentration: FloatLike = HUMIDITY_CONCENTRATION
    temperature_spread_C: FloatLike = TEMPERATURE_SPREAD_C


@dataclass(frozen=True, slots=True)
class Film:
    """Electrolyte of one state; zero thickness and conductivity where there is none."""

    thickness_m: FloatArray
    conductivity_S_per_m: FloatArray
    temperature_C: FloatArray


@dataclass(frozen=True, slots=True)
class FilmHours:
    """Hours of the year in each state; rain, deliquesced, drying and dry add up to 8766.

    ``residual_brine_h`` is the part of ``dry_h`` in which sea salt still holds a brine of magnesium
    chloride, thinner than a micrometre for each g/m2: too thin to predict rates from.
    """

    rain_h: FloatArray
    deliquesced_h: FloatArray
    drying_h: FloatArray
    dry_h: FloatArray
    residual_brine_h: FloatArray
    rain: Film
    deliquesced: Film
    drying: Film
    residual_brine: Film


def time_of_wetness_h(climate: Climate) -> FloatArray:
    """Hours of the year above 80 % relative humidity and above 0 degC.

    Parameters
    ----------
    climate : Climate
        The place [-].

    Returns
    -------
    ndarray
        Time of wetness [h/y].

    Notes
    -----
    Humidity and temperature are taken as independent: against ten hourly records the result lies between
    0.77 and 1.35 of the count. Rain, dew and salt play no part in this definition.

    Examples
    --------
    >>> round(float(time_of_wetness_h(Climate(9.8, 79.0, 0.0))), -2)
    4300.0

    References
    ----------
    ISO 9223, definition of time of wetness.
    """
    humid = share_above(WET_HUMIDITY_PCT, climate.relative_humidity_pct, climate.humidity_concentration)
    return HOURS_PER_YEAR * humid * _thawed_share(climate)


def wetness_class(time_of_wetness: FloatLike) -> IntArray:
    """Class of a time of wetness; the upper limit belongs to the class.

    Parameters
    ----------
    time_of_wetness : float or ndarray
        Time of wetness, zero or more [h/y].

    Returns
    -------
    ndarray of int
        Place in :data:`WETNESS_CLASSES` [-].

    Raises
    ------
    OutOfRangeError
        For a negative time.

    Examples
    --------
    >>> WETNESS_CLASSES[int(wetness_class(3942.0))]
    'tau4'

    References
    ----------
    ISO 9223, classes tau1 to tau5.
    """
    hours = np.asarray(time_of_wetness, dtype=np.float64)
    require(hours >= 0.0, "time_of_wetness", "0 or more")
    return np.asarray(np.searchsorted(WETNESS_LIMITS_H, hours, side="left"), dtype=np.int64)


def film_hours(climate: Climate) -> FilmHours:
    """Hours and films of the year at a place.

    Rain lasts as stated; each spell leaves a film that dries in air of mean humidity; the other humid hours
    are spent under the brine that the salt draws from the air, represented by its film at their median.

    Parameters
    ----------
    climate : Climate
        The place [-].

    Returns
    -------
    FilmHours
        Hours [h/y] with thickness [m], conductivity [S/m] and temperature [degC] of each film.

    Raises
    ------
    OutOfRangeError
        For a negative salt load, or rain hours that are negative or exceed the year.

    Notes
    -----
    Deliquesced hours begin at the deliquescence of sodium chloride; without salt there are none. A drying
    film is represented by the geometric mean of its first and last thickness, with the whole salt load
    dissolved in it. All films have the annual mean temperature: in ten records humid hours were between 2
    degC colder and 4 degC warmer.

    Examples
    --------
    >>> hours = film_hours(Climate(10.0, 80.0, 0.5, rain_h_per_year=600.0))
    >>> float(round(hours.rain_h + hours.deliquesced_h + hours.drying_h + hours.dry_h, 6))
    8766.0

    References
    ----------
    Model of this project; its parts cite their sources.
    """
    temperature, humidity, load, rain, rain_conductivity = np.broadcast_arrays(
        np.asarray(climate.temperature_C, dtype=np.float64),
        climate.relative_humidity_pct,
        climate.salt_load_g_per_m2,
        0.0 if climate.is_sheltered else climate.rain_h_per_year,
        climate.rain_conductivity_S_per_m,
    )
    require((rain >= 0.0) & (rain <= HOURS_PER_YEAR), "rain_h_per_year", "between 0 and 8766")
    threshold = deliquescence_humidity_pct(Solute.SODIUM_CHLORIDE, temperature)
    median = median_above(threshold, humidity, climate.humidity_concentration)
    brine = salt_film(median, load, temperature, climate.deposit)
    last = np.maximum(brine.thickness_m, RAIN_FILM_M / 100.0)
    drying_film = np.sqrt(RAIN_FILM_M * last)
    humid_h = (
        HOURS_PER_YEAR
        * _thawed_share(climate)
        * share_above(threshold, humidity, climate.humidity_concentration)
    )
    drying_h = np.minimum(
        rain / RAIN_EVENT_H * drying_time_h(RAIN_FILM_M, temperature, humidity), HOURS_PER_YEAR - rain
    )
    deliquesced_h = np.where(load > 0.0, np.maximum(humid_h - rain - drying_h, 0.0), 0.0)
    residual_h, residual = _residual_brine(climate, threshold, temperature, load, humid_h)
    dry_h = HOURS_PER_YEAR - rain - drying_h - deliquesced_h
    drying_conductivity = rain_conductivity * RAIN_FILM_M / drying_film + dissolved_salt_conductivity(
        load, drying_film, temperature
    )
    return FilmHours(
        rain_h=rain,
        deliquesced_h=deliquesced_h,
        drying_h=drying_h,
        dry_h=dry_h,
        residual_brine_h=np.minimum(residual_h, dry_h),
        rain=Film(np.full(rain.shape, RAIN_FILM_M), rain_conductivity, temperature),
        deliquesced=Film(brine.thickness_m, brine.conductivity_S_per_m, temperature),
        drying=Film(drying_film, drying_conductivity, temperature),
        residual_brine=residual,
    )


def _thawed_share(climate: Climate) -> FloatArray:
    return share_above_freezing(climate.temperature_C, climate.temperature_spread_C)


def _residual_brine(
    climate: Climate, threshold: FloatArray, temperature: FloatArray, load: FloatArray, humid_h: FloatArray
) -> tuple[FloatArray, Film]:
    """Hours between the deliquescence of magnesium and of sodium chloride, and the film at their middle."""
    lowest = deliquescence_humidity_pct(Solute.MAGNESIUM_CHLORIDE, temperature)
    above = (
        HOURS_PER_YEAR
        * _thawed_share(climate)
        * share_above(lowest, climate.relative_humidity_pct, climate.humidity_concentration)
    )
    film = salt_film(0.5 * (lowest + threshold), load, temperature, climate.deposit)
    hours = np.where(film.thickness_m > 0.0, above - humid_h, 0.0)
    return hours, Film(film.thickness_m, film.conductivity_S_per_m, temperature)
