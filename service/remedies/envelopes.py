"""Acceptance envelopes: all finishes and thicknesses of a side with which a joint keeps a stated verdict.

Every member is judged over its whole range: at the thickness classes of the finish, where a rule or the pores
turn, and between. Between those points the judgement moves one way only, so the range holds.
"""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Finish, FinishRole
from service.catalogue.surfaces import Layer, Surface
from service.judgement import DEFAULT_POLICY, Couple, Judgement, Policy, Verdict
from service.judgement.findings import Condition
from service.remedies.admission import Demands, exclusions
from service.remedies.batch import judge_cases
from service.remedies.constraints import Constraints
from service.remedies.feasibility import FeasibleSurface, feasible_surfaces, is_usual_class

POINTS = 7
"""Thicknesses between the least and the most of a finish that are judged besides those of note."""

JUST_ABOVE = 1.001
_ORDER = (Verdict.SUITABLE, Verdict.CONDITIONAL, Verdict.UNDETERMINED, Verdict.UNSUITABLE)


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat of a member with the range of its thickness, ``None`` where none is counted."""

    finish_id: str
    thickness_min_um: float | None
    thickness_max_um: float | None


@dataclass(frozen=True, slots=True)
class Member:
    """A stack of coats on one side; ``verdict`` is the worst that was judged within its ranges."""

    side: str
    material_id: str | None
    coats: tuple[Coat, ...]
    verdict: Verdict
    conditions: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Envelope:
    """All members for one joint, one side changed at a time."""

    couple: Couple
    environment: Environment
    accept: Verdict
    members: tuple[Member, ...]
    judged: int
    catalogue: Catalogue
    policy: Policy


def find_envelope(
    couple: Couple,
    environment: Environment,
    catalogue: Catalogue,
    policy: Policy = DEFAULT_POLICY,
    constraints: Constraints | None = None,
    sides: Sequence[str] = ("first", "second"),
) -> Envelope:
    """Find every finish and thickness that keeps a joint at or above a verdict.

    Parameters
    ----------
    couple : Couple
        The joint; the side that is not changed stays as it is here.
    environment : Environment
    catalogue : Catalogue
    policy : Policy
    constraints : Constraints, optional
        ``accept`` is the verdict to be kept; substances and needs bind the members.
    sides : sequence of str
        ``first``, ``second`` or both.

    Returns
    -------
    Envelope
    """
    bounds = constraints or Constraints()
    trials = [
        (side, option, list(_points(option, catalogue)))
        for side in sides
        for option in _stacks(couple, environment, side, bounds, catalogue)
    ]
    cases = [
        (_with(couple, side, surface), environment)
        for side, _, points in trials
        for _, surfaces in points
        for surface in surfaces
    ]
    judged = iter(judge_cases(cases, catalogue, policy))
    members = []
    for side, option, points in trials:
        ladder = [(thickness, [next(judged) for _ in surfaces]) for thickness, surfaces in points]
        member = _member(side, option, ladder, bounds.accept)
        if member is not None:
            members.append(member)
    return Envelope(couple, environment, bounds.accept, tuple(members), len(cases), catalogue, policy)


def _with(couple: Couple, side: str, surface: Surface) -> Couple:
    return replace(couple, first=surface) if side == "first" else replace(couple, second=surface)


def _stacks(
    couple: Couple,
    environment: Environment,
    side: str,
    constraints: Constraints,
    catalogue: Catalogue,
) -> Iterator[FeasibleSurface]:
    """Stacks that may be offered on a side, each once."""
    demands = Demands(couple, environment, constraints, is_second=side == "second")
    surface = couple.second if side == "second" else couple.first
    for option in feasible_surfaces(surface, catalogue):
        if is_usual_class(option) and not exclusions(option, demands, catalogue):
            yield option


_Point = tuple[float | None, tuple[Surface, ...]]
"""Thickness of the outermost coat, and the surfaces to judge there: underplates usual and at their most."""


def _points(option: FeasibleSurface, catalogue: Catalogue) -> Iterator[_Point]:
    if option.finish is None:
        yield None, (option.surface,)
        return
    outer, *beneath = option.surface.layers
    thickest = tuple(replace(layer, thickness_um=_most(layer, catalogue)) for layer in beneath)
    for thickness in _thicknesses(option.finish, catalogue):
        coat = replace(outer, thickness_um=thickness)
        stacks = dict.fromkeys([(coat, *beneath), (coat, *thickest)])
        yield thickness, tuple(replace(option.surface, layers=layers) for layers in stacks)


def _thicknesses(finish: Finish, catalogue: Catalogue) -> Sequence[float | None]:
    least, most = finish.thickness_min_um, finish.thickness_max_um
    if finish.role is not FinishRole.METALLIC or not least or not most:
        return [finish.thickness_typical_um]
    turns = {finish.thickness_typical_um, finish.pore_free_above_um}
    for edge in _turning_points_um(catalogue):
        turns |= {edge, edge * JUST_ABOVE}
    between = np.geomspace(least, most, POINTS)
    values = {least, most, *(float(f"{value:.3g}") for value in between)}
    values |= {turn for turn in turns if turn and least < turn < most}
    return sorted(values)


@lru_cache(maxsize=16)
def _turning_points_um(catalogue: Catalogue) -> frozenset[float]:
    """Thicknesses at which a rule begins or ends to apply [um]."""
    found = set()
    for rule in catalogue.rules.values():
        trigger = json.loads(rule.trigger)
        for side in (trigger.get("one", {}), *trigger.get("pair", ())):
            matcher = side.get("thickness_um", {})
            found |= {float(value) for value in matcher.values()} if isinstance(matcher, dict) else set()
    return frozenset(found)


def _most(layer: Layer, catalogue: Catalogue) -> float | None:
    return catalogue.finishes[layer.finish_id].thickness_max_um or layer.thickness_um


_Rung = tuple[float | None, list[Judgement]]


def _member(side: str, option: FeasibleSurface, ladder: Sequence[_Rung], accept: Verdict) -> Member | None:
    """The longest unbroken range of thickness in which every judgement is good enough."""
    runs = [
        list(run)
        for is_good, run in itertools.groupby(ladder, key=lambda rung: _is_good(rung[1], accept))
        if is_good
    ]
    if not runs:
        return None
    best = max(runs, key=len)
    judgements = [judgement for _, found in best for judgement in found]
    verdict = max((each.outcome.verdict for each in judgements), key=_ORDER.index)
    conditions = dict.fromkeys(condition for each in judgements for condition in each.outcome.conditions)
    return Member(
        side,
        option.surface.material_id,
        _coats(option, best[0][0], best[-1][0]),
        verdict,
        (*option.requirements, *conditions),
    )


def _is_good(judgements: Sequence[Judgement], accept: Verdict) -> bool:
    return all(_ORDER.index(each.outcome.verdict) <= _ORDER.index(accept) for each in judgements)


def _coats(option: FeasibleSurface, least: float | None, most: float | None) -> tuple[Coat, ...]:
    coats = []
    for place, (layer, finish) in enumerate(zip(option.surface.layers, option.coats, strict=True)):
        if finish.role is not FinishRole.METALLIC:
            coats.append(Coat(layer.finish_id, None, None))
        elif place == 0:
            coats.append(Coat(layer.finish_id, least, most))
        else:
            coats.append(Coat(layer.finish_id, layer.thickness_um, finish.thickness_max_um))
    return tuple(coats)
