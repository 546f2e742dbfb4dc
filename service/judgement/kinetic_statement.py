"""What the computed loss of one pairing means, in sentences."""

from __future__ import annotations

import math
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.judgement.couples import Couple
from service.judgement.exposed import Exposure
from service.judgement.lane_results import NO_ATTACK_UM_PER_YEAR, LaneResult
from service.judgement.policy import Policy
from service.judgement.severity import Severity
from service.judgement.surface_names import capitalised, coat_name, in_sentence, short_names

_LEAST_YEARS = 2.0
"""Shorter lives are told in months, and those below as many months in days."""

OPENINGS = {
    Exposure.PORE: "pores",
    Exposure.WORN: "worn spots",
    Exposure.DAMAGE: "damage",
    Exposure.EDGE: "edges and holes",
}
"""Where a coat leaves metal open, in words."""


def kinetic_statement(couple: Couple, lane: LaneResult, catalogue: Catalogue, policy: Policy) -> str:
    """What is lost, how fast, out of how much, and why it counts for no more than it does.

    Parameters
    ----------
    couple : Couple
    lane : LaneResult
        Its figures hold the rate at first [um/y] and the loss over the design life [um].
    catalogue : Catalogue
    policy : Policy
        Gives the default design life [years] and the bounds of severities [-].

    Returns
    -------
    str
    """
    subject = capitalised(_subject(couple, lane, catalogue))
    partner = short_names(couple.first, couple.second, catalogue)[1 - lane.side]
    years = f"{policy.life_years(couple):.3g} years"
    sentences = [f"{subject} {_lost(lane.figures, partner, years)}."]
    if lane.is_coat and (spent := _spent(lane.figures)):
        sentences.append(spent)
    if lane.severity.rank < policy.severity(lane.figures["loss_over_allowance"]["high"]).rank:
        sentences.append(_why_milder(lane))
    return " ".join(sentences)


def _subject(couple: Couple, lane: LaneResult, catalogue: Catalogue) -> str:
    """The metal that dissolves, with the coat that it is or that it lies under."""
    surface = (couple.first, couple.second)[lane.side]
    name = short_names(couple.first, couple.second, catalogue)[lane.side]
    exposed = lane.pairing.electrodes[lane.side]
    if exposed.exposure is not Exposure.OUTER:
        material = catalogue.materials.get(surface.material_id or "")
        is_base = material is not None and material.electrode_id == exposed.electrode_id
        bare = (
            name if is_base else f"{in_sentence(catalogue.electrodes[exposed.electrode_id].name)} on {name}"
        )
        return f"{bare}, laid bare at {OPENINGS[exposed.exposure]} of its coat,"
    if lane.is_coat and surface.layers:
        return f"the coat of {name} ({coat_name(surface.layers[0], catalogue)})"
    return name


def _lost(figures: dict[str, Any], partner: str, years: str) -> str:
    rate, loss = figures["galvanic_rate_um_per_year"], figures["galvanic_loss_um"]
    allowance = f"against an allowance of {figures['allowance_um']:g} µm ({figures['allowance_basis']})"
    if rate["high"] < NO_ATTACK_UM_PER_YEAR:
        return f"loses less than {NO_ATTACK_UM_PER_YEAR:g} µm a year to {partner}, {allowance}"
    if loss["median"] == 0.0:
        return (
            f"most likely loses nothing to {partner}; at the 95 % bound it loses {loss['high']:g} µm beside "
            f"the joint in {years}, {allowance}"
        )
    return (
        f"loses {rate['median']:g} µm a year to {partner} beside the joint at first "
        f"({rate['low']:g} to {rate['high']:g}) and {loss['median']:g} µm in {years} "
        f"({loss['low']:g} to {loss['high']:g}), {allowance}"
    )


def _spent(figures: dict[str, Any]) -> str:
    """When a coat is used up, where that may be within the design life."""
    ratio = figures["loss_over_allowance"]
    told = "The coat is used up" if ratio["median"] > 1.0 else "The coat may be used up"
    life = figures["coat_life_years"]
    if ratio["high"] <= 1.0 or not math.isfinite(life["low"]):
        return ""
    if life["low"] < life["high"] < _LEAST_YEARS:
        share, unit = (12.0, "months") if life["high"] >= _LEAST_YEARS / 12.0 else (365.0, "days")
        return f"{told} there after {share * life['low']:.2g} to {share * life['high']:.2g} {unit}."
    if math.isfinite(life["high"]) and life["high"] > life["low"]:
        return f"{told} there after {life['low']:g} to {life['high']:g} years."
    return f"{told} there after {life['low']:g} years or more."


def _why_milder(lane: LaneResult) -> str:
    if not lane.is_coat:
        return f"Such pits stay few and small beside the section and count as {lane.severity} at most."
    if lane.severity is Severity.SLIGHT:
        return "It protects metal of its partner's kind as intended, which counts as slight at most."
    return f"A coat can be renewed, so that by itself this counts as {lane.severity} at most."
