"""Ranked alternatives."""

from __future__ import annotations

from service.remedies import Objective
from service.web.schemas import answers
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.remedy_parts import (
    AboutRemedies,
    ChangedOutcome,
    JudgedJoint,
    ShownLife,
    ShownSurface,
)


class AlikePair(Schema):
    """Another way out of the same kind."""

    first: ShownSurface = nested("The first surface.")
    second: ShownSurface = nested("The second surface.")


class AlternativeRow(JudgedJoint):
    """One way out with what gets better and what gets worse."""

    rank: int = described("Place in the ranking, from 1.", 1)
    is_on_pareto_front: bool = described("Whether nothing beats it in every objective.", example=True)
    score: float = described("Weighted sum of the objectives, 0 is best.", 0.117)
    conditions: tuple[answers.Condition, ...] = nested("What must be done for the verdict to hold.")
    requirements: tuple[answers.Condition, ...] = nested("What the order must state for the process to work.")
    life: ShownLife | None = nested("How long it lasts; null where that is not known.")
    hazard_points: float = described("Weight of its hazards.", 1.0)
    function_points: float = described("Weight of what it costs the functions.", 0.0)
    cost_tier: int = described("Cost tiers of both finishes together.", 2)
    change_effort: int = described("How much changes: 3 for a finish, 6 for a material.", 3)
    better: tuple[str, ...] = described("What gets better.", ["Attack falls from severe to slight."])
    worse: tuple[str, ...] = described("What gets worse.", ["Cost tiers rise from 0 to 2."])
    when_worn: ChangedOutcome | None = nested("The verdict with its finishes worn; null for bare metal.")
    alike: tuple[AlikePair, ...] = nested("Others with the same metals outside and the same outcome.")


class SearchSize(Schema):
    """How much was searched."""

    couples_judged: int = described("Couples that were judged.", 3511)
    found: int = described("Ways out, each finish once.", 412)
    shown: int = described("Rows shown; the others are alike or beyond the limit.", 20)


class ExcludedGroup(Schema):
    """What was left out for one reason."""

    reason: str = described("Stable word for the reason.", "substance-needs-opt-in")
    constraint: str = described("The constraint behind it.", "substances that need the caller's consent")
    unit: str = described("What is counted: `surface` or `couple`.", "surface")
    count: int = described("How many, each under its first reason.", 37)
    example: str = described("One of them.", "holds Cd, which was not asked for")


class ShownBlocker(Schema):
    """A constraint that stands in the way where nothing was found."""

    constraint: str = described("Which constraint.", "cost tier")
    options_without_it: int = described("Ways out without it; 0 where it is not the caller's.", 12)
    example: str = described("One of them, or why the nearest falls short.", "Aluminium and tinned copper")


class AlternativesAnswer(AboutRemedies):
    """Everything that could stand in for a couple, ranked."""

    searched: SearchSize = nested("How much was searched.")
    weights: dict[Objective, float] = described("Share of each objective.", {"severity_95": 0.25})
    how_ranked: str = described("The order in words.", "Options that no other option beats come first.")
    alternatives: tuple[AlternativeRow, ...] = nested("Ways out, best first.")
    excluded: tuple[ExcludedGroup, ...] = nested("What was left out and why, counted.")
    blocked_by: tuple[ShownBlocker, ...] = nested("What blocks, where nothing was found.")
