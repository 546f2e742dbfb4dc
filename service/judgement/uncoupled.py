"""What a metal loses by itself in open air: the anchor of every atmospheric answer (ISO 9223)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from service.catalogue.records import Environment, Exposure
from service.chemistry.atmosphere import (
    DOSE_RESPONSE,
    LONG_TERM_EXPONENTS,
    StandardMetal,
    cumulative_loss,
    first_year_rate_um_per_year,
    validity,
)
from service.chemistry.corrosivity import CATEGORIES, category_rate_band, corrosivity_category
from service.chemistry.errors import ChemistryError

STEEL_UM_PER_YEAR_PER_A_PER_M2 = 1160.0
"""Penetration of iron as Fe(II) (ASTM G102: equivalent weight 27.92, density 7.87 g/cm3)."""


@dataclass(frozen=True, slots=True)
class FirstYearLoss:
    """First-year loss of a standard metal; ``spread`` is the stated factor (95 %) either way.

    ``basis`` says how it was found; ``outside`` names inputs beyond the fitted intervals.
    """

    um_per_year: float
    spread: float
    category: str
    basis: str
    outside: tuple[str, ...]
    exponent: float


@lru_cache(maxsize=1024)
def first_year_loss(metal: StandardMetal, environment: Environment) -> FirstYearLoss | None:
    """First-year loss of a standard metal in an environment.

    Climate figures go through the dose-response functions; an environment with a category only
    gives the middle of the category's band.

    Parameters
    ----------
    metal : StandardMetal
    environment : Environment
        Temperature [degC], humidity [%], deposition of sulfur dioxide and chloride [mg/(m2 d)], or
        a category.

    Returns
    -------
    FirstYearLoss or None
        Rate [um/y]; ``None`` where ISO 9223 does not apply.
    """
    if environment.exposure is not Exposure.ATMOSPHERE or environment.is_sheltered:
        return None
    exponent = LONG_TERM_EXPONENTS[metal][0]
    drivers = (
        environment.temperature_C,
        environment.relative_humidity_pct,
        environment.so2_mg_per_m2_d,
        environment.chloride_mg_per_m2_d,
    )
    if all(driver is not None for driver in drivers):
        temperature, humidity, so2, chloride = (float(driver or 0.0) for driver in drivers)
        rate = float(first_year_rate_um_per_year(metal, temperature, humidity, so2, chloride))
        outside = validity(temperature, humidity, so2, chloride).outside()
        index = int(corrosivity_category(metal, rate))
        category = CATEGORIES[index] if index < len(CATEGORIES) else "beyond CX"
        spread = DOSE_RESPONSE[metal].uncertainty_factor
        return FirstYearLoss(rate, spread, category, "ISO 9223 dose-response function", outside, exponent)
    if environment.iso9223_category not in CATEGORIES:
        return None
    try:
        band = category_rate_band(metal, environment.iso9223_category)
    except ChemistryError:
        return None
    spread = float(np.sqrt(band.high_um_per_year / band.low_um_per_year))
    return FirstYearLoss(
        band.typical_um_per_year,
        spread,
        environment.iso9223_category,
        "middle of the ISO 9223 category",
        (),
        exponent,
    )


@lru_cache(maxsize=1024)
def growth(exponent: float, years: float) -> float:
    """Loss after some years over that of the first (ISO 9224), a straight line beyond 20 years.

    Parameters
    ----------
    exponent : float
        Exponent of the standard [-].
    years : float
        Time of exposure, zero or more [y].

    Returns
    -------
    float
        Ratio [-].
    """
    return float(cumulative_loss(1.0, exponent, years))


def oxygen_capacity_A_per_m2(environment: Environment) -> float | None:
    """Year-mean cathodic current density that the open air can feed, from bare steel's own rate.

    A rusting steel surface consumes oxygen at its corrosion rate; no cathode of the same site can
    take up much more in the mean of a year.

    Parameters
    ----------
    environment : Environment

    Returns
    -------
    float or None
        Current density [A/m2]; ``None`` where ISO 9223 does not apply.
    """
    steel = first_year_loss(StandardMetal.CARBON_STEEL, environment)
    return None if steel is None else steel.um_per_year / STEEL_UM_PER_YEAR_PER_A_PER_M2
