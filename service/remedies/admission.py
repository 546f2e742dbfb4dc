"""Whether a feasible surface may be offered at all, before anything is judged; every reason is kept."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Finish, FinishRole, Rule, RuleKind
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function, Geometry, Severity
from service.judgement.facts import facts_of
from service.judgement.function_witness import ELECTRICAL
from service.judgement.rule_witnesses import severity_of
from service.judgement.rules import hits
from service.judgement.triggers import parse
from service.remedies.constraints import OPT_IN, Constraints, Regulation
from service.remedies.feasibility import FeasibleSurface
from service.remedies.reasons import Exclusion, Reason

WEAR_CYCLES = MappingProxyType({"low": 50.0, "medium": 500.0, "high": 10_000.0, "very high": math.inf})
"""Matings or strokes that a finish of each wear class outlives. House rule; common practice, no source."""

SOLDERABLE_BARE = frozenset(
    {
        "copper",
        "brass",
        "bronze",
        "nickel silver",
        "beryllium copper",
        "copper-nickel",
        "tin",
        "solder",
        "noble metal",
    }
)
"""Families that soft solder wets without a finish (common practice, no source)."""

_CONCERNS = ("candidate list", "Annex XIV", "entry 23", "Annex XVII (lead)")
"""Entries of the REACH column that speak of the article or its process; nickel on skin does not."""

_LEAST_SHARE_PCT = MappingProxyType({"Pb": 0.1, "Cd": 0.01, "Be": 0.1})
"""Share of an alloy from which it counts as holding the substance (RoHS Annex II for lead and cadmium)."""


@dataclass(frozen=True, slots=True)
class Demands:
    """What the joint asks of a surface of one side."""

    couple: Couple
    environment: Environment
    constraints: Constraints
    is_second: bool

    @property
    def temperature_C(self) -> float | None:
        """Hottest temperature that is stated."""
        stated = (self.couple.joint_temperature_C, self.environment.temperature_C)
        return max((value for value in stated if value is not None), default=None)

    @property
    def must_conduct(self) -> bool:
        """Whether current has to pass through the surface."""
        return self.constraints.needs_conduction or bool(ELECTRICAL & set(self.couple.functions))


def exclusions(
    option: FeasibleSurface, demands: Demands, catalogue: Catalogue, *, is_new_material: bool = False
) -> tuple[Exclusion, ...]:
    """Return every reason why an option may not be offered; none means that it may be judged.

    Parameters
    ----------
    option : FeasibleSurface
    demands : Demands
        The joint with the caller's constraints.
    catalogue : Catalogue
    is_new_material : bool
        Whether the base metal itself is part of the proposal.

    Returns
    -------
    tuple of Exclusion
    """
    found = [
        *_substances(option, demands, catalogue, is_new_material=is_new_material),
        *_law_and_house(option, demands, catalogue),
        *_service(option, demands),
        *_current(option, demands, catalogue),
    ]
    if demands.constraints.needs_solder:
        found.extend(_solder(option, demands, catalogue))
    return tuple(found)


def substances_of(option: FeasibleSurface, catalogue: Catalogue, *, with_material: bool) -> frozenset[str]:
    """Regulated substances in the coats of an option and, if asked, in its alloy."""
    found = {substance for coat in option.coats for substance in coat.substances}
    material = catalogue.materials.get(option.surface.material_id or "")
    if with_material and material is not None:
        for part in material.composition.split(";"):
            element, _, share = part.strip().partition(" ")
            if element in _LEAST_SHARE_PCT and _number(share) > _LEAST_SHARE_PCT[element]:
                found.add(element)
    return frozenset(found)


def _number(text: str) -> float:
    return float(text) if text.replace(".", "", 1).isdigit() else 0.0


def _substances(
    option: FeasibleSurface, demands: Demands, catalogue: Catalogue, *, is_new_material: bool
) -> Iterator[Exclusion]:
    constraints = demands.constraints
    for substance in sorted(substances_of(option, catalogue, with_material=is_new_material)):
        if substance in constraints.forbidden_substances:
            yield Exclusion(Reason.SUBSTANCE, f"holds {substance}, which is forbidden")
        elif substance in OPT_IN and substance not in constraints.allowed_substances:
            yield Exclusion(Reason.OPT_IN, f"holds {substance}, which was not asked for")


def _law_and_house(option: FeasibleSurface, demands: Demands, catalogue: Catalogue) -> Iterator[Exclusion]:
    regulations = demands.constraints.regulations
    for coat in option.coats:
        if coat.id in catalogue.bans:
            yield Exclusion(Reason.BANNED, f"{coat.name} is banned: {catalogue.bans[coat.id]}")
        if Regulation.ROHS in regulations and coat.rohs == "restricted":
            yield Exclusion(Reason.REGULATION, f"{coat.name} is restricted by RoHS")
        if Regulation.REACH in regulations and any(entry in coat.reach for entry in _CONCERNS):
            yield Exclusion(Reason.REGULATION, f"{coat.name}: {coat.reach} (REACH)")
    ceiling = demands.constraints.max_cost_tier
    tier = option.finish.cost_tier if option.finish else 0
    if ceiling is not None and (tier is None or tier > ceiling):
        yield Exclusion(
            Reason.COST, f"cost tier {tier if tier is not None else 'unknown'} is above {ceiling}"
        )


def _service(option: FeasibleSurface, demands: Demands) -> Iterator[Exclusion]:
    temperature, cycles = demands.temperature_C, demands.couple.wear_cycles
    for coat in option.coats:
        if (
            temperature is not None
            and coat.max_temperature_C is not None
            and temperature > coat.max_temperature_C
        ):
            yield Exclusion(
                Reason.TEMPERATURE,
                f"{coat.name} holds to {coat.max_temperature_C:g} degC, the joint gets {temperature:g} degC",
            )
    finish = option.finish
    if finish is None:
        return
    if cycles is not None and cycles > WEAR_CYCLES.get(finish.wear_class, math.inf):
        yield Exclusion(
            Reason.WEAR, f"{finish.name} is of wear class {finish.wear_class}, too low for {cycles:g} cycles"
        )
    is_fastener = demands.is_second and demands.couple.geometry is Geometry.FASTENER
    if finish.process.startswith("continuous") and is_fastener:
        yield Exclusion(Reason.FORM, f"{finish.name} is made on strip, not on fasteners")


def _current(option: FeasibleSurface, demands: Demands, catalogue: Catalogue) -> Iterator[Exclusion]:
    finish = option.finish
    if demands.must_conduct and not _conducts(option, catalogue):
        name = finish.name if finish else "The material"
        yield Exclusion(Reason.CONDUCTION, f"{name} does not conduct, and the joint must")
    if Function.SIGNAL_CONTACT not in demands.couple.functions:
        return
    material = catalogue.materials.get(option.surface.material_id or "")
    is_noble = material is not None and material.family == "noble metal"
    if not (finish.contact_grade if finish else is_noble):
        name = finish.name if finish else "Bare base metal"
        yield Exclusion(Reason.CONTACT, f"{name} is no contact finish for signals")


def _conducts(option: FeasibleSurface, catalogue: Catalogue) -> bool:
    if option.finish is not None:
        return all(coat.is_conductive for coat in option.coats)
    material = catalogue.materials.get(option.surface.material_id or "")
    return material is None or material.is_conductive


def _solder(option: FeasibleSurface, demands: Demands, catalogue: Catalogue) -> Iterator[Exclusion]:
    if not _is_wetted(option, catalogue):
        name = option.finish.name if option.finish else "The bare metal"
        yield Exclusion(Reason.SOLDER, f"{name} does not take solder")
    solder = _reference_solder(catalogue)
    if solder is None:
        return
    soldered = Couple(option.surface, solder, functions=demands.couple.functions)
    rules = catalogue.rules_of.get(RuleKind.HAZARD, ())
    for hit in hits(rules, [facts_of(soldered, demands.environment, catalogue)])[0]:
        severity = severity_of(hit.rule)
        is_bad = severity is not None and severity.rank >= Severity.MODERATE.rank
        if hit.match.is_certain and is_bad and _is_about_solder(hit.rule):
            yield Exclusion(Reason.SOLDER, f"{hit.rule.name}: {hit.rule.statement}")


def _is_about_solder(rule: Rule) -> bool:
    pair = parse(rule.id, rule.trigger).get("pair", ())
    return any("solder" in side.get("family", ()) for side in pair)


def _is_wetted(option: FeasibleSurface, catalogue: Catalogue) -> bool:
    finish: Finish | None = option.finish
    if finish is not None and finish.role is not FinishRole.BARE:
        return finish.solderable in {"yes", "limited"}
    material = catalogue.materials.get(option.surface.material_id or "")
    return material is not None and material.family in SOLDERABLE_BARE


def _reference_solder(catalogue: Catalogue) -> Surface | None:
    """The common lead-free solder, against which hazards of a soldered finish are asked."""
    found = (
        material.id
        for material in catalogue.materials.values()
        if material.family == "solder" and material.electrode_id == "tin-silver-copper"
    )
    solder = next(found, None)
    return Surface(solder) if solder else None
