"""From an environment to the spells of electrolyte in which a couple can act.

Immersion is one spell that lasts all year. Open air is up to three film states (rain,
deliquesced salt, drying), each with its hours, thickness and conductivity. Where the environment
is outside what the kinetic model covers, the witness abstains and says why.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from service.catalogue.records import ElectrolyteClass, Environment, Exposure
from service.chemistry.oxygen import oxygen_solubility
from service.chemistry.wetness import Climate, film_hours

HOURS_PER_YEAR = 8766.0
PH_RANGE = (5.0, 9.0)
TEMPERATURE_RANGE_C = (0.0, 60.0)
"""Stated validity of the kinetic model (design: one electrolyte class, no complexing agents)."""

THINNEST_FILM_UM = 5.0
"""No prediction below this thickness: the film is no longer a continuous bulk electrolyte."""

DEFAULT_FILM_UM = 20.0
"""Thickness of a film where the environment states none (common practice, no source)."""

DEFAULT_TEMPERATURE_C = 15.0
"""Where the environment states none: year mean of temperate coasts (common practice, no source)."""

RAIN_HOURS_PER_YEAR = 600.0
"""Hours of rain where the environment states none: temperate Europe, common practice, no source."""

HUMIDITY_RANGE_PCT = (1.0, 99.0)
"""Year means beyond are taken as these: at 0 or 100 % no hour could differ from another."""

SEA_WATER_S_PER_M = 4.29
SEA_WATER_G_PER_KG = 35.0
"""Conductivity of sea water at 15 degC and its salinity."""

CONDUCTIVITY_RISE_PER_K = 0.02
"""Rise of conductivity with temperature, two per cent for a kelvin (from memory)."""

SALTIEST_G_PER_KG = 200.0
"""Highest salinity that the oxygen of an electrolyte is asked for."""

LARGEST_OXYGEN_RATIO = 1.2
OXYGEN_G_PER_MOL = 31.998

_BARRED_TAGS = {
    "ammonia": "ammonia complexes copper and zinc",
    "sulfide": "sulfide changes the films on copper and silver",
    "deaerated": "without oxygen the cathodic reaction is another one",
    "organic_acid": "organic acids complex the dissolving metal",
    "citrate": "citrate complexes the dissolving metal",
}
_COVERED = {Exposure.IMMERSED, Exposure.ATMOSPHERE, Exposure.SPLASH, Exposure.INDOOR, Exposure.ENCLOSURE}


@dataclass(frozen=True, slots=True)
class Spell:
    """One state of the electrolyte.

    ``film_thickness_m`` is ``None`` for a bulk electrolyte. Spreads are factors (68 %) of a
    log-normal distribution. ``oxygen_ratio`` is dissolved oxygen against saturation.
    """

    name: str
    share_of_year: float
    conductivity_S_per_m: float
    conductivity_spread: float
    film_thickness_m: float | None
    film_spread: float
    temperature_C: float
    flow_m_per_s: float
    oxygen_ratio: float


def reason_to_abstain(environment: Environment) -> str:  # noqa: PLR0911 - one return for each reason
    """Why the kinetic model does not cover an environment.

    Parameters
    ----------
    environment : Environment
        Exposure, electrolyte, pH, temperature [degC], conductivity [S/m] and hours of wetness [h].

    Returns
    -------
    str
        Empty where it does.
    """
    if environment.exposure not in _COVERED:
        return f"{environment.exposure.value} is outside the kinetic model"
    if environment.electrolyte_class not in {ElectrolyteClass.CHLORIDE, ElectrolyteClass.FRESH}:
        return f"{environment.electrolyte_class.value} electrolyte is outside the kinetic model"
    for tag, reason in _BARRED_TAGS.items():
        if tag in environment.tags:
            return reason
    if environment.pH is not None and not PH_RANGE[0] <= environment.pH <= PH_RANGE[1]:
        return f"pH {environment.pH:g} is outside {PH_RANGE[0]:g} to {PH_RANGE[1]:g}"
    low, high = TEMPERATURE_RANGE_C
    if environment.temperature_C is not None and not low <= environment.temperature_C <= high:
        return f"{environment.temperature_C:g} degC is outside {low:g} to {high:g} degC"
    if environment.conductivity_S_per_m is None:
        return "the conductivity of the electrolyte is not known"
    if not spells(environment):
        return f"no film of {THINNEST_FILM_UM:g} µm or more is known to last here"
    return ""


@lru_cache(maxsize=1024)
def spells(environment: Environment) -> tuple[Spell, ...]:
    """Spells of wetness of an environment that the model covers.

    Parameters
    ----------
    environment : Environment
        Hours [h], film thickness [um], conductivity [S/m], temperature [degC], flow [m/s].

    Returns
    -------
    tuple of Spell
        One for immersion, up to four for open air; none where no film of 5 um or more is known to
        last.
    """
    if environment.exposure is Exposure.IMMERSED:
        return (_spell("immersed", HOURS_PER_YEAR, environment, None, environment.conductivity_S_per_m),)
    return tuple(
        _spell(name, hours, environment, thickness, conductivity)
        for name, hours, thickness, conductivity in _films(environment)
        if hours > 0.0 and thickness >= THINNEST_FILM_UM * 1e-6
    )


_Film = tuple[str, float, float, float | None]
"""Name, hours per year, thickness in metres, conductivity in S/m of one film state."""


def _films(environment: Environment) -> list[_Film]:
    stated = (
        environment.hours_rain_per_year,
        environment.hours_deliquesced_per_year,
        environment.hours_drying_per_year,
    )
    has_climate = (
        environment.exposure is Exposure.ATMOSPHERE and environment.relative_humidity_pct is not None
    )
    is_rain_alone = stated[0] is not None and stated[1:] == (None, None)
    if any(hours is not None for hours in stated) and not (has_climate and is_rain_alone):
        return _stated_films(environment, [hours or 0.0 for hours in stated])
    if has_climate:
        return _climate_films(environment)
    hours = environment.wetness_h_per_year or 0.0
    return [("wet", hours, _film_m(environment), environment.conductivity_S_per_m)]


def _film_m(environment: Environment) -> float:
    return (environment.film_thickness_um or DEFAULT_FILM_UM) * 1e-6


def _stated_films(environment: Environment, hours: Sequence[float]) -> list[_Film]:
    middle = _film_m(environment)
    thick = max((environment.film_thickness_high_um or 0.0) * 1e-6, middle)
    thin = max((environment.film_thickness_low_um or 0.0) * 1e-6, middle / 2.0)
    conductivity = environment.conductivity_S_per_m
    low = environment.conductivity_low_S_per_m or conductivity
    high = environment.conductivity_high_S_per_m or conductivity
    return [
        ("rain", hours[0], thick, low),
        ("deliquesced", hours[1], middle, high),
        ("drying", hours[2], thin, conductivity),
    ]


def climate_of(environment: Environment) -> Climate:
    """Return the climate of a place in open air.

    Parameters
    ----------
    environment : Environment
        Temperature [degC], humidity [%], salt load [g/m2] and hours of rain [h], temperate if not stated.

    Returns
    -------
    Climate
        The same in the terms of :mod:`service.chemistry.wetness`.
    """
    rain_h = environment.hours_rain_per_year
    driest, dampest = HUMIDITY_RANGE_PCT
    return Climate(
        temperature_C=_temperature_C(environment),
        relative_humidity_pct=min(max(environment.relative_humidity_pct or 0.0, driest), dampest),
        salt_load_g_per_m2=environment.salt_load_g_per_m2 or 0.0,
        rain_h_per_year=min(RAIN_HOURS_PER_YEAR if rain_h is None else rain_h, HOURS_PER_YEAR),
        is_sheltered=environment.is_sheltered,
    )


def _climate_films(environment: Environment) -> list[_Film]:
    """Film states from climate and salt load; wet hours that neither rain nor salt explains are dew."""
    year = film_hours(climate_of(environment))
    films: list[_Film] = [
        (name, float(hours), float(state.thickness_m), float(state.conductivity_S_per_m))
        for name, hours, state in (
            ("rain", year.rain_h, year.rain),
            ("deliquesced", year.deliquesced_h, year.deliquesced),
            ("drying", year.drying_h, year.drying),
        )
    ]
    explained = sum(hours for _, hours, thickness, _ in films if thickness >= THINNEST_FILM_UM * 1e-6)
    dew = max((environment.wetness_h_per_year or 0.0) - explained, 0.0)
    return [*films, ("dew", dew, _film_m(environment), environment.conductivity_S_per_m)]


def _temperature_C(environment: Environment) -> float:
    return DEFAULT_TEMPERATURE_C if environment.temperature_C is None else environment.temperature_C


def _spell(
    name: str,
    hours: float,
    environment: Environment,
    thickness: float | None,
    conductivity: float | None,
) -> Spell:
    temperature = _temperature_C(environment)
    return Spell(
        name=name,
        share_of_year=min(hours / HOURS_PER_YEAR, 1.0),
        conductivity_S_per_m=conductivity or environment.conductivity_S_per_m or 0.0,
        conductivity_spread=_spread(
            environment.conductivity_low_S_per_m, environment.conductivity_high_S_per_m
        ),
        film_thickness_m=thickness,
        film_spread=_spread(environment.film_thickness_low_um, environment.film_thickness_high_um),
        temperature_C=temperature,
        flow_m_per_s=environment.flow_m_per_s or 0.0,
        oxygen_ratio=_oxygen_ratio(environment, temperature),
    )


def _spread(low: float | None, high: float | None) -> float:
    """One-sigma factor of a range read as 5 to 95 %, at least 1.1 and at most 3."""
    if not low or not high:
        return 1.5
    return float(min(max((high / low) ** (1.0 / 3.29), 1.1), 3.0))


def _oxygen_ratio(environment: Environment, temperature_C: float) -> float:
    """Dissolved oxygen against saturation; 1 where it is not stated or in a film in air."""
    if environment.oxygen_mg_per_L is None or environment.exposure is not Exposure.IMMERSED:
        return 1.0
    salinity = salinity_g_per_kg(environment.conductivity_S_per_m or 0.0, temperature_C)
    saturation_mg_per_L = float(oxygen_solubility(temperature_C, salinity)) * OXYGEN_G_PER_MOL
    return min(environment.oxygen_mg_per_L / saturation_mg_per_L, LARGEST_OXYGEN_RATIO)


def salinity_g_per_kg(conductivity_S_per_m: float, temperature_C: float) -> float:
    """Salinity that gives a conductivity, in proportion to sea water at 15 degC.

    Parameters
    ----------
    conductivity_S_per_m : float
        Conductivity of the electrolyte [S/m].
    temperature_C : float
        Temperature at which it was measured [degC].

    Returns
    -------
    float
        Salt [g/kg], 200 at most.

    Examples
    --------
    >>> round(salinity_g_per_kg(5.4, 25.0))
    37
    """
    warmth = 1.0 + CONDUCTIVITY_RISE_PER_K * (temperature_C - 15.0)
    return min(SEA_WATER_G_PER_KG * conductivity_S_per_m / (SEA_WATER_S_PER_M * warmth), SALTIEST_G_PER_KG)
