"""Measures that change a surface: another finish, another material, a piece put between, like with like."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.catalogue.records import FinishRole
from service.catalogue.surfaces import Surface
from service.judgement.findings import Condition
from service.remedies.admission import Demands, exclusions
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation
from service.remedies.constraints import Change
from service.remedies.enumeration import CHECK_DESIGN, options_of
from service.remedies.feasibility import BARE_FINISH, FeasibleSurface, feasible_surfaces, is_usual_class

SEAL_EDGE = Condition(
    "seal-transition-edge",
    "Seal the edge of the transition piece, where both metals meet in the open.",
    "assembler",
    "edge inspected after assembly and at each overhaul",
)

RENEW_PIECE = Condition(
    "renew-piece-between",
    "Renew the piece between the parts when it is eaten, torn or set.",
    "maintainer",
    "inspection at the stated intervals",
)

BAKE = Condition(
    "relieve-hydrogen",
    "Have the plated part baked for hydrogen relief by a qualified process owner.",
    "plater",
    "process record with start, temperature and time of the bake",
)

_GASKET_FAMILIES = frozenset({"conductive elastomer", "metal mesh gasket"})
_SIDES = ("first", "second")


def replace_surface(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Change one or both surfaces as the parameters say.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        ``scope`` (finish, material, process), ``side`` (anode, cathode, either, both, gasket, washer),
        ``match`` (anode, each other), ``finish``, ``thickness_um`` [um], ``material``, ``materials``.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
        All variants; the best judged one is kept.

    Raises
    ------
    NotPossibleError
        If no surface fits.
    """
    if parameters.get("scope") == "process":
        return [arrangement.needing(BAKE)]
    variants = list(_variants(arrangement, parameters, situation))
    if not variants:
        raise NotPossibleError(Obstacle.PROCESS, "No surface of this release fits this joint as constrained.")
    return variants


def same_material(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Make both parts alike, either way round.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        None are used.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    del parameters, situation
    first, second = arrangement.surface("first"), arrangement.surface("second")
    if first == second:
        raise NotPossibleError(Obstacle.DONE, "Both parts are alike already.")
    ways = (arrangement.with_surface("second", first), arrangement.with_surface("first", second))
    return [way.needing(CHECK_DESIGN) for way in ways]


def bimetal_transition(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Sequence[Arrangement]:
    """Put a transition piece between: each metal meets its like, and the bond inside is sealed at its edge.

    Parameters
    ----------
    arrangement : Arrangement
    parameters : mapping
        None are used.
    situation : Situation

    Returns
    -------
    sequence of Arrangement
    """
    del parameters, situation
    joint = arrangement.couples[0]
    couples = (replace(joint, second=joint.first), replace(joint, first=joint.second))
    return [replace(arrangement, couples=couples).needing(SEAL_EDGE)]


def _variants(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Iterator[Arrangement]:
    kind = _kind(parameters)
    if kind == "washer":
        yield _with_piece(arrangement, str(parameters["material"]))
    elif kind == "gasket":
        for material in situation.catalogue.materials.values():
            if material.family in _GASKET_FAMILIES:
                yield _with_piece(arrangement, material.id)
    elif kind == "materials":
        for material_id in parameters["materials"]:
            changed = arrangement.with_surface(situation.anode, Surface(material_id))
            yield changed.needing(CHECK_DESIGN)
    elif kind == "finish":
        yield from _named_finish(arrangement, parameters, situation)
    else:
        yield from _SEARCHES[kind](arrangement, situation)


def _kind(parameters: Mapping[str, Any]) -> str:
    side = str(parameters.get("side", ""))
    if side in {"washer", "gasket"}:
        return side
    for named in ("materials", "finish"):
        if named in parameters:
            return named
    if parameters.get("scope") == "material":
        return "material"
    if parameters.get("match") == "each other":
        return "both" if side == "both" else "mate"
    return "cathode"


def _with_piece(arrangement: Arrangement, material_id: str) -> Arrangement:
    """A washer or gasket between the parts: two joints in place of one."""
    joint, piece = arrangement.couples[0], Surface(material_id)
    couples = (replace(joint, second=piece), replace(joint, first=piece))
    return replace(arrangement, couples=couples).needing(RENEW_PIECE)


def _other_materials(arrangement: Arrangement, situation: Situation) -> Iterator[Arrangement]:
    """A bare alloy in place of either part: of the family of one of them, or of any if there is none."""
    constraints = replace(situation.constraints, first=Change.MATERIAL, second=Change.MATERIAL)
    present = {arrangement.surface(side).material_id for side in _SIDES}
    materials = situation.catalogue.materials
    families = {materials[name].family for name in present if name is not None and name in materials}
    found = []
    for side in _SIDES:
        options = options_of(
            arrangement.couples[0],
            arrangement.environment,
            constraints,
            situation.catalogue,
            is_second=side == "second",
        )
        for option in options:
            is_other = option.surface.material_id not in present and not option.surface.layers
            if is_other and not option.blocked_by:
                changed = arrangement.with_surface(side, option.surface).needing(*option.requirements)
                found.append((materials[option.surface.material_id or ""].family in families, changed))
    of_family = [changed for is_of_family, changed in found if is_of_family]
    yield from of_family or (changed for _, changed in found)


def _named_finish(
    arrangement: Arrangement, parameters: Mapping[str, Any], situation: Situation
) -> Iterator[Arrangement]:
    """The finish that the measure names, at the thickness nearest to the one it names."""
    side = parameters.get("side", "either")
    sides = {"cathode": (situation.cathode,), "anode": (situation.anode,)}.get(side, _SIDES)
    wanted = parameters.get("thickness_um")
    changed = arrangement
    for place in sides:
        found = [
            option
            for option in _admitted(arrangement, place, situation)
            if option.finish is not None and option.finish.id == parameters["finish"]
        ]
        if found:
            best = min(found, key=lambda option: _misfit(option, wanted))
            changed = changed.with_surface(place, best.surface).needing(*best.requirements)
    if changed != arrangement:
        yield changed


def _misfit(option: FeasibleSurface, wanted_um: float | None) -> float:
    thickness = option.surface.layers[0].thickness_um
    if wanted_um is None or thickness is None:
        return 0.0 if is_usual_class(option) else 1.0
    return abs(thickness - wanted_um)


def _same_finish(arrangement: Arrangement, situation: Situation) -> Iterator[Arrangement]:
    """One metallic finish on both parts."""
    second = {
        option.finish.id: option
        for option in _admitted(arrangement, "second", situation)
        if option.finish is not None and is_usual_class(option)
    }
    for option in _admitted(arrangement, "first", situation):
        if option.finish is None or option.finish.id not in second or not is_usual_class(option):
            continue
        if option.finish.role is FinishRole.METALLIC:
            other = second[option.finish.id]
            both = arrangement.with_surface("first", option.surface).with_surface("second", other.surface)
            yield both.needing(*option.requirements, *other.requirements)


def _mated_finish(arrangement: Arrangement, situation: Situation) -> Iterator[Arrangement]:
    """The finish of one part on the other as well, as contacts are mated."""
    for side, other in (_SIDES, _SIDES[::-1]):
        mate = arrangement.surface(other)
        if not mate.layers:
            continue
        for option in _admitted(arrangement, side, situation):
            is_same = option.finish is not None and option.finish.id == mate.layers[0].finish_id
            if is_same and is_usual_class(option):
                yield arrangement.with_surface(side, option.surface).needing(*option.requirements)


def _cathode_finishes(arrangement: Arrangement, situation: Situation) -> Iterator[Arrangement]:
    """Every metallic finish on the side that is not eaten; judging finds those near the anode."""
    for option in _admitted(arrangement, situation.cathode, situation):
        is_metal = option.finish is not None and option.finish.role is FinishRole.METALLIC
        if is_metal and is_usual_class(option):
            yield arrangement.with_surface(situation.cathode, option.surface).needing(*option.requirements)


_SEARCHES = {
    "material": _other_materials,
    "both": _same_finish,
    "mate": _mated_finish,
    "cathode": _cathode_finishes,
}


def _admitted(arrangement: Arrangement, side: str, situation: Situation) -> list[FeasibleSurface]:
    """Finishes of a side that may be offered and differ from the present one."""
    present = arrangement.surface(side)
    outer = present.layers[0].finish_id if present.layers else BARE_FINISH
    demands = Demands(
        arrangement.couples[0],
        arrangement.environment,
        situation.constraints,
        is_second=side == "second",
    )
    return [
        option
        for option in feasible_surfaces(present, situation.catalogue)
        if (option.finish.id if option.finish else BARE_FINISH) != outer
        and not exclusions(option, demands, situation.catalogue)
    ]
