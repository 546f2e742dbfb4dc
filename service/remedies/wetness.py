"""Measures that keep water away from a joint: wraps, hoods, dry air, drains, rinsing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.catalogue.records import ElectrolyteClass, Environment, Exposure
from service.judgement.findings import Condition
from service.judgement.regimes import HOURS_PER_YEAR, reason_to_abstain, spells
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation

KEEP_DRY = Condition(
    "keep-dry",
    "Keep the joint dry: inspect and renew what keeps water out before it fails.",
    "maintainer",
    "no water, salt or loose edge at inspection",
)


def exclude_wetness(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Keep water away for most of the time: wraps, hoods, dry air.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``wet_fraction`` of the hours that stay wet [-], ``rain`` false for a hood, ``copper_ions`` false
        where water from copper is led away.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    del situation
    environment = arrangement.environment
    if parameters.get("copper_ions") is False:
        if "copper_ions" not in environment.tags:
            raise NotPossibleError(Obstacle.DONE, "No water from copper is stated to reach this joint.")
        tags = tuple(tag for tag in environment.tags if tag != "copper_ions")
        return [replace(arrangement, environment=replace(environment, tags=tags))]
    rarer = with_wet_share(environment, float(parameters["wet_fraction"]))
    if parameters.get("rain") is False:
        kept = tuple(tag for tag in rarer.tags if tag not in {"rain_washed", "unwashed"})
        sheltered = replace(rarer, is_sheltered=True, tags=(*kept, "unwashed"))
    else:
        sheltered = replace(rarer, is_sheltered=True, exposure=_covered(rarer.exposure))
    return [replace(arrangement, environment=sheltered).needing(KEEP_DRY)]


def drain(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Let water run off, or rinse salt away.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``wet_fraction_factor`` on the wet hours or ``salt_load_factor`` on the salt [-].
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    del situation
    environment = arrangement.environment
    if "salt_load_factor" in parameters:
        factor = float(parameters["salt_load_factor"])
        changed = replace(
            environment,
            salt_load_g_per_m2=_scaled(environment.salt_load_g_per_m2, factor),
            chloride_mg_per_m2_d=_scaled(environment.chloride_mg_per_m2_d, factor),
            tags=tuple(tag for tag in environment.tags if tag != "unwashed"),
        )
    else:
        drained = with_wet_share(environment, float(parameters["wet_fraction_factor"]))
        standing = {"stagnant", "mud_poultice"}
        changed = replace(drained, tags=tuple(tag for tag in drained.tags if tag not in standing))
    return [replace(arrangement, environment=changed)]


def with_wet_share(environment: Environment, share: float) -> Environment:
    """Environment that is wet for a share of its hours, with the mean film of those hours.

    Parameters
    ----------
    environment : Environment
        Not immersed.
    share : float
        Share of the wet hours that are left [-].

    Returns
    -------
    Environment
        Films of different kind are taken together as one.
    """
    if reason_to_abstain(environment) or environment.electrolyte_class is ElectrolyteClass.NONE:
        return replace(environment, wetness_h_per_year=_scaled(environment.wetness_h_per_year, share))
    if environment.exposure is Exposure.IMMERSED:
        return environment
    films = spells(environment)
    wet = sum(film.share_of_year for film in films)
    thickness = sum(film.share_of_year * (film.film_thickness_m or 0.0) for film in films) / wet
    conductivity = sum(film.share_of_year * film.conductivity_S_per_m for film in films) / wet
    return replace(
        environment,
        wetness_h_per_year=min(wet, 1.0) * HOURS_PER_YEAR * share,
        hours_rain_per_year=0.0,
        hours_deliquesced_per_year=min(wet, 1.0) * HOURS_PER_YEAR * share,
        hours_drying_per_year=0.0,
        film_thickness_um=thickness * 1e6,
        film_thickness_low_um=None,
        film_thickness_high_um=None,
        conductivity_S_per_m=conductivity,
        conductivity_low_S_per_m=None,
        conductivity_high_S_per_m=None,
    )


def _covered(exposure: Exposure) -> Exposure:
    is_open = exposure in {Exposure.ATMOSPHERE, Exposure.SPLASH, Exposure.SOIL}
    return Exposure.ENCLOSURE if is_open else exposure


def _scaled(value: float | None, factor: float) -> float | None:
    return None if value is None else value * factor
