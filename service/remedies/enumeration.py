"""All couples that could stand in for the one asked about, and what kept other surfaces out.

A change of one side is tried in every thickness class. Changes of both sides are tried in the usual class,
which keeps the search within a few thousand couples. Where a material may change, it changes on one side at
a time: the bare alloy and its finishes in the usual class.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement import Couple
from service.judgement.findings import Condition as Requirement
from service.remedies.admission import Demands, exclusions
from service.remedies.constraints import Change, Constraints
from service.remedies.feasibility import BARE_FINISH, FeasibleSurface, feasible_surfaces, is_usual_class
from service.remedies.reasons import Exclusion, Reason

MOST_COUPLES = 12_000
"""Couples that one search judges at most; beyond it, changes of both sides are left out first."""

WELL_KNOWN_FROM = 7
"""Designations from which an alloy is taken as widely traded; rarer ones only where the caller names them."""

STRUCTURAL_FAMILIES = frozenset(
    {
        "wrought aluminium",
        "cast aluminium",
        "carbon steel",
        "low-alloy steel",
        "cast iron",
        "stainless steel",
        "copper",
        "brass",
        "bronze",
        "copper-nickel",
        "nickel silver",
        "nickel",
        "titanium",
        "zinc die cast",
    }
)
"""Families from which parts are made; others stand in only where the caller names them."""


CHECK_DESIGN = Requirement(
    "check-design",
    "Check strength, stiffness, fabrication and supply: another material takes the place of the present one.",
    "designer",
    "design calculation with the properties of the new material",
)


class Effort(IntEnum):
    """How much changes on one side; a house scale."""

    NONE = 0
    THICKNESS = 1
    PREFERRED_FINISH = 2
    FINISH = 3
    MATERIAL = 6


@dataclass(frozen=True, slots=True)
class Option:
    """A surface that one side may get. ``blocked_by`` is empty where it may be offered."""

    surface: Surface
    effort: Effort
    cost_tier: int
    requirements: tuple[Requirement, ...] = ()
    blocked_by: tuple[Exclusion, ...] = ()
    is_usual: bool = True


@dataclass(frozen=True, slots=True)
class Candidate:
    """A couple that is to be judged, with what it takes to get there."""

    couple: Couple
    first: Option
    second: Option

    @property
    def effort(self) -> int:
        """Change effort of both sides."""
        return self.first.effort + self.second.effort

    @property
    def cost_tier(self) -> int:
        """Cost tiers of the finishes of both sides together."""
        return self.first.cost_tier + self.second.cost_tier

    @property
    def requirements(self) -> tuple[Requirement, ...]:
        """What the order must state."""
        return tuple(dict.fromkeys((*self.first.requirements, *self.second.requirements)))


def options_of(
    couple: Couple,
    environment: Environment,
    constraints: Constraints,
    catalogue: Catalogue,
    *,
    is_second: bool,
) -> tuple[Option, ...]:
    """Return every surface that a side may get, first the present one, blocked ones included.

    Parameters
    ----------
    couple : Couple
    environment : Environment
    constraints : Constraints
    catalogue : Catalogue
    is_second : bool
        Which side.

    Returns
    -------
    tuple of Option
    """
    present = couple.second if is_second else couple.first
    change = constraints.second if is_second else constraints.first
    demands = Demands(couple, environment, constraints, is_second)
    kept = _present(present, change, demands, catalogue)
    if change is Change.NOTHING:
        return (kept,)
    found = [kept, *_finishes(present, demands, catalogue)]
    if change is Change.MATERIAL:
        found.extend(_materials(present, demands, catalogue))
    return tuple(found)


def candidates_of(
    couple: Couple, first: tuple[Option, ...], second: tuple[Option, ...]
) -> tuple[Candidate, ...]:
    """Pair the options of both sides that nothing blocks.

    Parameters
    ----------
    couple : Couple
        The couple that is to be replaced.
    first, second : tuple of Option
        Options of each side, the present surface first.

    Returns
    -------
    tuple of Candidate
        No couple twice and never the couple itself, at most :data:`MOST_COUPLES`.
    """
    found: dict[Couple, Candidate] = {}
    for one, other in itertools.chain(_single_changes(first, second), _double_changes(first, second)):
        changed = replace(couple, first=one.surface, second=other.surface)
        if changed != couple and changed not in found:
            found[changed] = Candidate(changed, one, other)
        if len(found) == MOST_COUPLES:
            break
    return tuple(found.values())


def _single_changes(first: tuple[Option, ...], second: tuple[Option, ...]) -> Iterator[tuple[Option, Option]]:
    if not second[0].blocked_by:
        yield from ((option, second[0]) for option in first if not option.blocked_by)
    if not first[0].blocked_by:
        yield from ((first[0], option) for option in second if not option.blocked_by)


def _double_changes(first: tuple[Option, ...], second: tuple[Option, ...]) -> Iterator[tuple[Option, Option]]:
    one, other = (
        [
            option
            for option in side[1:]
            if option.is_usual and option.effort < Effort.MATERIAL and not option.blocked_by
        ]
        for side in (first, second)
    )
    return itertools.product(one, other)


def _present(present: Surface, change: Change, demands: Demands, catalogue: Catalogue) -> Option:
    coats = tuple(catalogue.finishes[layer.finish_id] for layer in present.layers)
    feasible = FeasibleSurface(present, coats[0] if coats else None, coats, ())
    blocked = () if change is Change.NOTHING else exclusions(feasible, demands, catalogue)
    # What is there needs no consent: opting in is about what is newly offered.
    standing = tuple(each for each in blocked if each.reason is not Reason.OPT_IN)
    return Option(present, Effort.NONE, _cost_tier(feasible), (), standing)


def _finishes(present: Surface, demands: Demands, catalogue: Catalogue) -> Iterator[Option]:
    outer = present.layers[0].finish_id if present.layers else BARE_FINISH
    for feasible in feasible_surfaces(present, catalogue):
        if feasible.surface == present:
            continue
        effort = _effort(feasible, outer, catalogue)
        yield Option(
            feasible.surface,
            effort,
            _cost_tier(feasible),
            feasible.requirements,
            exclusions(feasible, demands, catalogue),
            is_usual_class(feasible),
        )


def _effort(feasible: FeasibleSurface, outer: str, catalogue: Catalogue) -> Effort:
    finish_id = feasible.finish.id if feasible.finish else BARE_FINISH
    if finish_id == outer:
        return Effort.THICKNESS
    return Effort.PREFERRED_FINISH if finish_id in catalogue.preferences else Effort.FINISH


def _materials(present: Surface, demands: Demands, catalogue: Catalogue) -> Iterator[Option]:
    for material_id in _replacements(present, demands.constraints, catalogue):
        for feasible in feasible_surfaces(Surface(material_id), catalogue):
            if is_usual_class(feasible):
                yield Option(
                    feasible.surface,
                    Effort.MATERIAL,
                    _cost_tier(feasible),
                    (CHECK_DESIGN, *feasible.requirements),
                    exclusions(feasible, demands, catalogue, is_new_material=True),
                )


def _replacements(present: Surface, constraints: Constraints, catalogue: Catalogue) -> tuple[str, ...]:
    if constraints.materials:
        return tuple(name for name in constraints.materials if name != present.material_id)
    own = catalogue.materials.get(present.material_id or "")
    families = STRUCTURAL_FAMILIES | ({own.family} if own else set())
    return tuple(
        material_id
        for material_id in _well_known(catalogue)
        if material_id != present.material_id and catalogue.materials[material_id].family in families
    )


@lru_cache(maxsize=16)
def _well_known(catalogue: Catalogue) -> tuple[str, ...]:
    """One representative of each metal, if drawings know it under many names."""
    names = Counter(designation.material_id for designation in catalogue.designations)
    representatives = (electrode.representative_material_id for electrode in catalogue.electrodes.values())
    return tuple(
        material_id
        for material_id in dict.fromkeys(representatives)
        if material_id in catalogue.materials and names[material_id] >= WELL_KNOWN_FROM
    )


def _cost_tier(feasible: FeasibleSurface) -> int:
    tiers = [coat.cost_tier for coat in feasible.coats[:1] if coat.cost_tier is not None]
    return tiers[0] if tiers else 0
