"""The figures by which judged joints are compared: one vector, smaller is better in each place."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import RuleKind
from service.catalogue.surfaces import Surface
from service.judgement import Function, Judgement, Policy, Severity, Verdict
from service.judgement.findings import Witness
from service.judgement.lane_results import LaneResult
from service.judgement.loss import COAT_BASIS
from service.judgement.metals import metal_figures
from service.judgement.rules import Hit
from service.remedies.constraints import Objective

HAZARD_POINTS = MappingProxyType({"": 0.25, "none": 0.0, "slight": 1.0, "moderate": 3.0, "severe": 9.0})
"""Weight of a hazard by its severity; a remark without one counts a little. House rule."""

_HAZARD_KINDS = frozenset({RuleKind.MANDATORY, RuleKind.HAZARD, RuleKind.CREVICE, RuleKind.CATHODE_DAMAGE})
_CONTACTS = frozenset({Function.POWER_CONTACT, Function.SIGNAL_CONTACT})
_VERDICT_PLACE = MappingProxyType(
    {Verdict.SUITABLE: 0.0, Verdict.CONDITIONAL: 0.5, Verdict.UNDETERMINED: 0.75, Verdict.UNSUITABLE: 1.0}
)
_RATIO_OF_WORD = MappingProxyType(
    {Severity.NONE: 0.1, Severity.SLIGHT: 0.5, Severity.MODERATE: 2.0, Severity.SEVERE: 10.0}
)
"""Loss over allowance taken where only a word is known: the upper bound of its band."""

_DECADES = 4.0
_LEAST_RATIO = 1e-2
_MOST_HAZARDS, _MOST_FUNCTION, _MOST_COST, _MOST_EFFORT, _LONG_LIVES = 12.0, 10.0, 10.0, 12.0, 2.0
"""Spans over which objectives are brought to 0..1 for the score; beyond them a difference counts no more."""


LONGEST_YEARS = 100.0
"""Longest life that is told: no figure here is known well enough to say more."""


@dataclass(frozen=True, slots=True)
class Life:
    """Years until a coat or a section is used up, at most :data:`LONGEST_YEARS`; ``basis`` says of what."""

    low_years: float
    high_years: float
    basis: str


@dataclass(frozen=True, slots=True)
class Measures:
    """What a judged joint is compared by.

    ``ratio_*`` are loss over allowance; ``None`` where nothing was computed. ``life`` is ``None`` where it is
    not known. ``vector`` holds the objectives in their order, each brought to 0..1.
    """

    verdict: Verdict
    severity: Severity | None
    ratio_median: float | None
    ratio_95: float | None
    life: Life | None
    hazards: tuple[Hit, ...]
    hazard_points: float
    function_points: float
    cost_tier: int
    effort: int
    vector: NDArray[np.float64]


def measure(
    judgement: Judgement, cost_tier: int, effort: int, catalogue: Catalogue, policy: Policy
) -> Measures:
    """Measure a judged joint.

    Parameters
    ----------
    judgement : Judgement
    cost_tier : int
        Cost tiers of the finishes of both sides together [-].
    effort : int
        Change effort of both sides together [-].
    catalogue : Catalogue
    policy : Policy

    Returns
    -------
    Measures
    """
    outcome = judgement.outcome
    median, high = _ratios(judgement)
    life = life_of(judgement, catalogue, policy)
    hazards = hazards_of(judgement)
    hazard_points = sum(HAZARD_POINTS[hit.rule.severity] for hit in hazards)
    function_points = _function_points(judgement, catalogue)
    years = policy.life_years(judgement.couple)
    places = {
        Objective.VERDICT: _VERDICT_PLACE[outcome.verdict],
        Objective.SEVERITY_95: _ratio_place(high, outcome.severity),
        Objective.SEVERITY_MEDIAN: _ratio_place(median, outcome.severity),
        Objective.LIFE: 1.0 if life is None else max(1.0 - life.low_years / (_LONG_LIVES * years), 0.0),
        Objective.HAZARDS: min(hazard_points / _MOST_HAZARDS, 1.0),
        Objective.FUNCTION: min(function_points / _MOST_FUNCTION, 1.0),
        Objective.COST: min(cost_tier / _MOST_COST, 1.0),
        Objective.EFFORT: min(effort / _MOST_EFFORT, 1.0),
    }
    return Measures(
        outcome.verdict,
        outcome.severity,
        median,
        high,
        life,
        hazards,
        hazard_points,
        function_points,
        cost_tier,
        effort,
        np.array([places[objective] for objective in Objective]),
    )


def hazards_of(judgement: Judgement) -> tuple[Hit, ...]:
    """Rules about damage besides the computed loss that certainly apply."""
    return tuple(hit for hit in judgement.hits if hit.match.is_certain and hit.rule.kind in _HAZARD_KINDS)


def life_of(judgement: Judgement, catalogue: Catalogue, policy: Policy) -> Life | None:
    """Years until the first coat or section is used up by what the couple does to it.

    A coat lasts as the kinetic witness says. A section that loses the share ``x`` of its allowance in the
    design life ``T`` lasts ``T x**(-1/(1 - m))``, with ``i(t) = i_1 t**-m`` and the ``m`` that gives the
    shorter life.

    Parameters
    ----------
    judgement : Judgement
    catalogue : Catalogue
    policy : Policy

    Returns
    -------
    Life or None
        ``None`` where the kinetic witness abstains [years].
    """
    finding = judgement.findings[Witness.KINETICS]
    if not finding.applies:
        return None
    years = policy.life_years(judgement.couple)
    lives = [_lane_life(lane, years, catalogue) for lane in judgement.kinetics.lanes]
    return min(lives, key=lambda life: (life.low_years, life.high_years), default=_ENDLESS)


_ENDLESS = Life(LONGEST_YEARS, LONGEST_YEARS, "no galvanic loss")


def _lane_life(lane: LaneResult, years: float, catalogue: Catalogue) -> Life:
    if lane.is_coat:
        coat = lane.figures["coat_life_years"]
        low, high = (min(years, LONGEST_YEARS) for years in (coat["low"], coat["high"]))
        return Life(low, max(low, high), COAT_BASIS)
    metal = metal_figures(catalogue)[lane.pairing.electrodes[lane.side].electrode_id]
    ratio = lane.figures["loss_over_allowance"]
    low = _section_life(ratio["high"], years, metal.decay_low, metal.decay_high)
    high = _section_life(ratio["median"], years, metal.decay_low, metal.decay_high)
    return Life(low, high, "section allowance")


def _section_life(ratio: float, years: float, decay_low: float, decay_high: float) -> float:
    if ratio <= 0.0:
        return LONGEST_YEARS
    decay = decay_high if ratio > 1.0 else decay_low
    return min(float(f"{years * ratio ** (-1.0 / (1.0 - decay)):.3g}"), LONGEST_YEARS)


def _ratios(judgement: Judgement) -> tuple[float | None, float | None]:
    figures = judgement.findings[Witness.KINETICS].figures
    ratio = figures.get("loss_over_allowance")
    return (ratio["median"], ratio["high"]) if ratio else (None, None)


def _ratio_place(ratio: float | None, severity: Severity | None) -> float:
    """Place of a ratio on a logarithmic scale; a word of another witness that is worse prevails."""
    if severity is None:
        return 1.0
    taken = _RATIO_OF_WORD[severity] if ratio is None else ratio
    if severity.rank >= Severity.MODERATE.rank:
        taken = max(taken, _RATIO_OF_WORD[Severity.SLIGHT])
    decades = math.log10(max(taken, _LEAST_RATIO) / _LEAST_RATIO)
    return min(decades / _DECADES, 1.0)


def _function_points(judgement: Judgement, catalogue: Catalogue) -> float:
    finding = judgement.findings[Witness.FUNCTION]
    points = 5.0 if finding.figures.get("meets_bond_limit") is False else 0.0
    points += 2.0 * sum(condition.code == "bare-contact-face" for condition in finding.conditions)
    if _CONTACTS & set(judgement.couple.functions):
        sides = (judgement.couple.first, judgement.couple.second)
        points += sum(not _is_contact_surface(side, catalogue) for side in sides)
    return points


def _is_contact_surface(surface: Surface, catalogue: Catalogue) -> bool:
    return bool(surface.layers) and catalogue.finishes[surface.layers[0].finish_id].contact_grade
