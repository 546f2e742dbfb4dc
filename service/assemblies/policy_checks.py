"""Where an assembly breaks the policy of a house. The verdicts stay what they are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from service.assemblies.assembly import Assembly
from service.assemblies.house_policy import Ban, HousePolicy, Limit, Requirement, Scope
from service.assemblies.judged import JudgedJoint
from service.assemblies.parts import Part
from service.assemblies.surfaces import Surfaces
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement.exposed import outer_electrode_id

OVERLAY_BAN = "overlay-ban"
"""Rule that a ban of the tenant's overlay is reported under."""


@dataclass(frozen=True, slots=True)
class Violation:
    """A rule that a part or joint breaks. ``detail`` says by what."""

    rule: str
    kind: str
    statement: str
    detail: str
    waivable_by: tuple[str, ...]


def joint_violations(
    item: JudgedJoint, assembly: Assembly, surfaces: Surfaces, house: HousePolicy
) -> tuple[Violation, ...]:
    """Limits and requirements that a judged joint breaks, in any of its cases.

    Parameters
    ----------
    item : JudgedJoint
    assembly : Assembly
        Gives its parts.
    surfaces : Surfaces
        Gives their surfaces.
    house : HousePolicy
    """
    families = {
        family
        for end in (item.joint.first, item.joint.second)
        for family in _families(surfaces.surface(assembly.parts[end]), surfaces.catalogue)
    }
    found: list[Violation] = []
    for limit in house.limits:
        if _applies(limit.scope, item, families):
            found += _beyond(limit, item)
    for requirement in house.requirements:
        if _applies(requirement.scope, item, families) and not _is_met(requirement, item):
            wanted = " or ".join(requirement.compounds) or "isolation"
            has = item.joint.compound or "no compound"
            detail = f"asks for {wanted}, the joint has {has}"
            found.append(
                Violation(
                    requirement.id, "requirement", requirement.statement, detail, requirement.waivable_by
                )
            )
    return tuple(found)


def part_violations(
    part: Part, assembly: Assembly, surfaces: Surfaces, house: HousePolicy
) -> tuple[Violation, ...]:
    """Bans that the surface of a part breaks, those of the tenant's overlay included."""
    surface = surfaces.surface(part)
    if surface is None:
        return ()
    catalogue = surfaces.catalogue
    found = [
        Violation(OVERLAY_BAN, "ban", catalogue.bans[layer.finish_id], layer.finish_id, ())
        for layer in surface.layers
        if layer.finish_id in catalogue.bans
    ]
    place = assembly.place_of(part)
    place_id = place if isinstance(place, str) else place.id
    for ban in house.bans:
        if ban.environments and place_id not in ban.environments:
            continue
        if what := _banned(ban, surface, catalogue):
            found.append(Violation(ban.id, "ban", ban.statement, what, ban.waivable_by))
    return tuple(found)


def preferred(part: Part, surfaces: Surfaces, house: HousePolicy) -> bool | None:
    """Whether a part's outermost finish is preferred, by the house's policy or the tenant's overlay.

    ``None`` where it is bare or none is named.
    """
    surface = surfaces.surface(part)
    wanted = {*house.preferred_finishes, *surfaces.catalogue.preferences}
    if surface is None or not surface.layers or not wanted:
        return None
    return surface.layers[0].finish_id in wanted


def _applies(scope: Scope, item: JudgedJoint, families: set[str]) -> bool:
    """Whether any case of a joint lies in a scope."""
    if scope.functions and not set(scope.functions) & set(item.joint.functions):
        return False
    if scope.families and not set(scope.families) <= families:
        return False
    if scope.verdicts and item.verdict not in scope.verdicts:
        return False
    if scope.severities and item.severity not in scope.severities:
        return False
    asks_for_place = scope.environments or scope.environment_tags or scope.exposures
    return not asks_for_place or any(
        _holds(scope.environments, [place["id"]])
        and _holds(scope.environment_tags, place["tags"])
        and _holds(scope.exposures, [place["exposure"]])
        for place in (outcome.brief["environment"] for _, outcome in item.cases)
    )


def _holds(wanted: Iterable[str], given: Iterable[str]) -> bool:
    wanted = set(wanted)
    return not wanted or bool(wanted & set(given))


def _beyond(limit: Limit, item: JudgedJoint) -> Iterator[Violation]:
    details = []
    if item.verdict not in limit.accepted_verdicts:
        details.append(f"the verdict is {item.verdict.value}")
    worst = limit.largest_severity
    if worst and item.severity is not None and item.severity.rank > worst.rank:
        details.append(f"the severity is {item.severity.value}, not at most {worst.value}")
    if limit.largest_loss_um is not None:
        found = [loss for _, outcome in item.cases if (loss := outcome.brief["loss"])]
        losses = [loss["galvanic_loss_um"]["high"] for loss in found]
        if losses and max(losses) > limit.largest_loss_um:
            details.append(f"the loss may reach {max(losses):g} um, not at most {limit.largest_loss_um:g} um")
    if limit.accepted_confidences:
        words = {outcome.brief["confidence"] for _, outcome in item.cases} - set(limit.accepted_confidences)
        details += [f"the confidence is {word}" for word in sorted(words)]
    if item.joint.is_assumed and not limit.accepts_assumed_contacts:
        details.append("the contact is assumed")
    for detail in details:
        yield Violation(limit.id, "limit", limit.statement, detail, limit.waivable_by)


def _is_met(requirement: Requirement, item: JudgedJoint) -> bool:
    if requirement.accepts_isolation and item.joint.is_isolated:
        return True
    return item.joint.compound in requirement.compounds


def _banned(ban: Ban, surface: Surface, catalogue: Catalogue) -> str:
    """What of a surface a ban names, empty for nothing."""
    for layer in surface.layers:
        finish = catalogue.finishes[layer.finish_id]
        if finish.id in ban.finishes:
            return finish.id
        if held := sorted(set(ban.substances) & set(finish.substances)):
            return f"{', '.join(held)} in {finish.id}"
    if surface.material_id in ban.materials:
        return str(surface.material_id)
    return next(iter(sorted(_families(surface, catalogue) & set(ban.families))), "")


def _families(surface: Surface | None, catalogue: Catalogue) -> set[str]:
    """What the metal that the electrolyte sees is called: its electrode, and families it belongs to."""
    if surface is None:
        return set()
    electrode = catalogue.electrodes.get(outer_electrode_id(surface, catalogue) or "")
    if electrode is None:
        material = catalogue.materials.get(surface.material_id or "")
        return {material.family if material else surface.basis_family} - {""}
    seen = catalogue.materials.get(electrode.representative_material_id)
    return {electrode.id, electrode.family, seen.family if seen else electrode.family}
