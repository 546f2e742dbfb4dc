"""Which surfaces can be made of a material: finishes that its family takes, with underplates and classes.

Thickness comes from the classes of each finish (least, usual and most of its standard). Steel above 1000 MPa
is a substrate of its own, because plating charges it with hydrogen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Finish, FinishRole, FinishSubstrate
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement.findings import Condition as Requirement
from service.judgement.strength import strength_MPa

HARDENED_ABOVE_MPA = 1000.0
"""Tensile strength from which steel needs relief of hydrogen after plating (ASTM B850, bake table)."""

HARDENED_STEEL = "hardened steel"
BARE_FINISH = "none-bare"
_STEELS = frozenset({"carbon steel", "low-alloy steel"})

_ROLES_WITH_CLASSES = frozenset({FinishRole.METALLIC})
"""Roles whose thickness changes the judgement: it is the stock that is eaten and what closes pores."""


@dataclass(frozen=True, slots=True)
class FeasibleSurface:
    """A surface that a plater could make.

    ``finish`` is the outermost coat, ``None`` for bare metal; ``coats`` are all finishes of the stack.
    ``requirements`` are what the order must state for the process to work.
    """

    surface: Surface
    finish: Finish | None
    coats: tuple[Finish, ...]
    requirements: tuple[Requirement, ...]


def substrate_family(surface: Surface, catalogue: Catalogue) -> str:
    """Family under which the catalogue lists the finishes of a surface's base.

    Parameters
    ----------
    surface : Surface
        Its material, or the basis family that its text names.
    catalogue : Catalogue

    Returns
    -------
    str
        A family such as ``copper``; ``hardened steel`` above 1000 MPa; empty where nothing is known.
    """
    material = catalogue.materials.get(surface.material_id or "")
    family = material.family if material else surface.basis_family
    strength = strength_MPa(surface, material)
    if family in _STEELS and strength is not None and strength > HARDENED_ABOVE_MPA:
        return HARDENED_STEEL
    return family


def feasible_surfaces(base: Surface, catalogue: Catalogue) -> tuple[FeasibleSurface, ...]:
    """Return every surface that can be made of the base of ``base``, in all thickness classes.

    Parameters
    ----------
    base : Surface
        Names the material; its present layers are left out of account.
    catalogue : Catalogue

    Returns
    -------
    tuple of FeasibleSurface
        In the order of the catalogue's finishes, thin before thick.
    """
    bare = replace(base, layers=(), condition=Condition.INTACT)
    return _feasible(bare, substrate_family(base, catalogue), catalogue)


def is_usual_class(option: FeasibleSurface) -> bool:
    """Whether the outermost coat has the usual thickness of its finish, or none that matters."""
    if option.finish is None or option.finish.role not in _ROLES_WITH_CLASSES:
        return True
    return option.surface.layers[0].thickness_um == _usual(option.finish)


@lru_cache(maxsize=1024)
def _feasible(bare: Surface, family: str, catalogue: Catalogue) -> tuple[FeasibleSurface, ...]:
    return tuple(
        option
        for finish in catalogue.finishes.values()
        if (row := substrate_row(finish.id, family, catalogue)) is not None and row.suitability != "no"
        for option in _options(bare, finish, row, catalogue)
    )


def substrate_row(finish_id: str, family: str, catalogue: Catalogue) -> FinishSubstrate | None:
    """What the catalogue knows of a finish on a family of substrates."""
    rows = catalogue.finish_substrates.get(finish_id, ())
    return next((row for row in rows if row.substrate_family == family), None)


def thickness_classes_um(finish: Finish) -> tuple[float | None, ...]:
    """Thickness classes of a finish that the judgement can tell apart, thin first."""
    if finish.role not in _ROLES_WITH_CLASSES:
        return (_usual(finish),)
    classes = {finish.thickness_min_um, finish.thickness_typical_um, finish.thickness_max_um} - {None, 0.0}
    return tuple(sorted(value for value in classes if value is not None)) or (None,)


def _usual(finish: Finish) -> float | None:
    return finish.thickness_typical_um or None


def _options(
    bare: Surface, finish: Finish, row: FinishSubstrate, catalogue: Catalogue
) -> Iterator[FeasibleSurface]:
    if finish.id == BARE_FINISH:
        yield FeasibleSurface(bare, None, (), ())
        return
    coats = (finish, *_underplates(finish, row, catalogue))
    beneath = tuple(Layer(under.id, _usual(under)) for under in coats[1:])
    requirements = tuple(_requirements(finish, row))
    for thickness in thickness_classes_um(finish):
        surface = replace(bare, layers=(Layer(finish.id, thickness), *beneath))
        yield FeasibleSurface(surface, finish, coats, requirements)


def _underplates(finish: Finish, row: FinishSubstrate, catalogue: Catalogue) -> list[Finish]:
    """Coats beneath the outermost one, from the outside in; a coat that asks for itself is struck once."""
    found: list[Finish] = []
    wanted = row.underplate_id or finish.underplate_id
    while wanted and wanted != finish.id and all(wanted != under.id for under in found):
        under = catalogue.finishes[wanted]
        found.append(under)
        beneath = substrate_row(under.id, row.substrate_family, catalogue)
        wanted = beneath.underplate_id if beneath else under.underplate_id
    return found


def _requirements(finish: Finish, row: FinishSubstrate) -> Iterator[Requirement]:
    if row.suitability == "conditional":
        advice = f"Have {finish.name} on {row.substrate_family} qualified. {row.note}".strip()
        proof = "process qualified on this alloy, adhesion and porosity tested on a sample"
        yield Requirement("process-on-substrate", advice, "plater", proof)
    if "check" in (finish.rohs, finish.reach.partition(" ")[0]):
        yield Requirement(
            "confirm-substances",
            f"Ask the plater for the chemistry of {finish.name}: {finish.reach or finish.note}",
            "purchasing",
            "declaration of substances for the finish as supplied",
        )
    if finish.process.startswith("continuous"):
        yield Requirement(
            "coated-strip",
            f"Order {finish.name.lower()} as coated strip; cut edges stay bare.",
            "purchasing",
            "mill certificate of the coated strip",
        )
