"""What a place does by itself: how wet its year is, and what each standard metal loses there."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from service.catalogue.records import ElectrolyteClass, Environment, Exposure
from service.chemistry.atmosphere import LONG_TERM_EXPONENTS, StandardMetal
from service.chemistry.corrosivity import CATEGORIES
from service.chemistry.electrolyte import sea_water_oxygen, sea_water_salinity
from service.chemistry.indoor import (
    FilmMetal,
    IndoorMetal,
    indoor_rate_band_um_per_year,
    severity_film_band_nm_per_year,
)
from service.chemistry.indoor import IndoorBand as Band
from service.chemistry.rounding import three_significant
from service.chemistry.wetness import WETNESS_CLASSES, time_of_wetness_h, wetness_class
from service.judgement.regimes import (
    HOURS_PER_YEAR,
    OXYGEN_G_PER_MOL,
    climate_of,
    reason_to_abstain,
    spells,
)
from service.judgement.uncoupled import first_year_loss, growth


@dataclass(frozen=True, slots=True)
class Range:
    """A figure with its ends."""

    median: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class MetalLoss:
    """What a standard metal loses in open air; ``category`` is its own, as ISO 9223 has one for each metal.

    ``loss_um`` holds over the years asked for: with the mean exponent of ISO 9224, and with the conservative
    one, each of the median first year.
    """

    metal: str
    first_year_um: Range
    category: str
    basis: str
    loss_um: float
    conservative_loss_um: float
    outside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Wetness:
    """Time of wetness by the definition of ISO 9223 [h/y] and its class."""

    hours_per_year: float
    wetness_class: str


@dataclass(frozen=True, slots=True)
class FilmState:
    """A state of the electrolyte; ``thickness_um`` is ``None`` for a bulk electrolyte."""

    name: str
    hours_per_year: float
    thickness_um: float | None
    conductivity_S_per_m: float
    temperature_C: float


@dataclass(frozen=True, slots=True)
class Water:
    """Salt and the oxygen of air-saturated water, from the conductivity; within the range of TEOS-10."""

    salinity_g_per_kg: float
    saturated_oxygen_mg_per_L: float


@dataclass(frozen=True, slots=True)
class IndoorBand:
    """What an indoor class says of one metal; an assumed end is one that the standard leaves open."""

    metal: str
    low: float
    typical: float
    high: float
    is_low_assumed: bool
    is_high_assumed: bool


@dataclass(frozen=True, slots=True)
class Site:
    """A place as the kinetic model sees it; empty where a standard does not apply there.

    ``kinetics_abstain`` is why couples are not computed here, empty where they are. ``indoor_um_per_year``
    and ``film_nm_per_year`` are the bands of the ISO 11844 class and of the ISA-71.04 level.
    """

    kinetics_abstain: str
    metals: tuple[MetalLoss, ...]
    wetness: Wetness | None
    films: tuple[FilmState, ...]
    water: Water | None
    indoor_um_per_year: tuple[IndoorBand, ...]
    film_nm_per_year: tuple[IndoorBand, ...]


def site_of(environment: Environment, years: float) -> Site:
    """Describe what a place does by itself.

    Parameters
    ----------
    environment : Environment
        Climate and electrolyte [units in the field names].
    years : float
        Time over which losses are given [years].

    Returns
    -------
    Site
        Figures of three significant digits.

    References
    ----------
    ISO 9223:2012, Eq. (1) to (4) and Table 2; ISO 9224:2012, Eq. (1); ISO 11844-1, Table 1;
    ANSI/ISA-71.04-2013.
    """
    abstains = reason_to_abstain(environment)
    losses = (_loss(metal, environment, years) for metal in StandardMetal)
    return Site(
        kinetics_abstain=abstains,
        metals=tuple(loss for loss in losses if loss is not None),
        wetness=_wetness(environment),
        films=() if abstains else _films(environment),
        water=_water(environment),
        indoor_um_per_year=_indoor(environment.iso11844_category),
        film_nm_per_year=_growth(environment.isa7104_level),
    )


def _loss(metal: StandardMetal, environment: Environment, years: float) -> MetalLoss | None:
    first = first_year_loss(metal, environment)
    if first is None:
        return None
    mean, conservative = (
        _rounded(first.um_per_year * growth(exponent, years)) for exponent in LONG_TERM_EXPONENTS[metal]
    )
    median, low, high = three_significant(
        np.array([first.um_per_year, first.um_per_year / first.spread, first.um_per_year * first.spread])
    ).tolist()
    return MetalLoss(
        metal.value,
        Range(median, low, high),
        first.category if first.category in CATEGORIES else f"above {CATEGORIES[-1]}",
        first.basis,
        mean,
        conservative,
        first.outside,
    )


def _wetness(environment: Environment) -> Wetness | None:
    if environment.exposure is not Exposure.ATMOSPHERE or environment.relative_humidity_pct is None:
        return None
    hours = float(three_significant(time_of_wetness_h(climate_of(environment))))
    return Wetness(hours, WETNESS_CLASSES[int(wetness_class(hours))])


def _films(environment: Environment) -> tuple[FilmState, ...]:
    return tuple(
        FilmState(
            spell.name,
            _rounded(spell.share_of_year * HOURS_PER_YEAR),
            None if spell.film_thickness_m is None else _rounded(spell.film_thickness_m * 1e6),
            _rounded(spell.conductivity_S_per_m),
            spell.temperature_C,
        )
        for spell in spells(environment)
    )


def _water(environment: Environment) -> Water | None:
    conductivity, temperature = environment.conductivity_S_per_m, environment.temperature_C
    is_water = environment.electrolyte_class in {ElectrolyteClass.CHLORIDE, ElectrolyteClass.FRESH}
    if environment.exposure is not Exposure.IMMERSED or not is_water:
        return None
    if conductivity is None or temperature is None:
        return None
    salinity = float(sea_water_salinity(temperature, conductivity))
    if math.isnan(salinity):
        return None
    oxygen = float(sea_water_oxygen(temperature, salinity)) * OXYGEN_G_PER_MOL
    return Water(_rounded(salinity), _rounded(oxygen))


def _indoor(category: str) -> tuple[IndoorBand, ...]:
    if not category:
        return ()
    return tuple(_band(metal, indoor_rate_band_um_per_year(metal, category)) for metal in IndoorMetal)


def _growth(level: str) -> tuple[IndoorBand, ...]:
    if not level:
        return ()
    return tuple(_band(metal, severity_film_band_nm_per_year(metal, level)) for metal in FilmMetal)


def _band(metal: StrEnum, band: Band) -> IndoorBand:
    low, typical, high = three_significant(np.array([band.low, band.typical, band.high])).tolist()
    return IndoorBand(metal.value, low, typical, high, band.is_low_assumed, band.is_high_assumed)


def _rounded(value: float) -> float:
    return float(three_significant(value))
