"""From a surface to the electrodes that an electrolyte really sees.

The outermost metal counts; conversion and passivation films are looked through
(MIL-DTL-14072F, 3.13.1 a); paint and anodic films insulate but for their defects; a porous or
worn coat exposes what lies beneath.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Finish, FinishRole
from service.catalogue.surfaces import Condition, Layer, Surface


class Exposure(StrEnum):
    """How an electrode comes to be wetted."""

    OUTER = "outer"
    PORE = "pore"
    WORN = "worn"
    DAMAGE = "damage"
    EDGE = "edge"


@dataclass(frozen=True, slots=True)
class ExposedElectrode:
    """One electrode of a surface.

    ``area_fraction`` is its share of the wetted area and ``thickness_um`` what there is of it
    (``None`` for a base material). ``defect_radius_m`` is set where it is reached through openings
    only; ``beneath_id`` is the electrode under a coat.
    """

    electrode_id: str
    area_fraction: float
    exposure: Exposure
    finish_id: str = ""
    thickness_um: float | None = None
    defect_radius_m: float | None = None
    beneath_id: str = ""


OPEN_FRACTION = {
    Condition.INTACT: {Exposure.PORE: 1e-3, FinishRole.ORGANIC: 1e-4, FinishRole.ANODIC: 1e-2},
    Condition.WORN: {Exposure.PORE: 1e-2, FinishRole.ORGANIC: 1e-3, FinishRole.ANODIC: 3e-2},
    Condition.DAMAGED: {Exposure.PORE: 5e-2, FinishRole.ORGANIC: 1e-2, FinishRole.ANODIC: 5e-2},
}
"""Share of the area that is open in each condition. Common practice, no source: orders of
magnitude for a sound coat, a rubbed one and one with a scratch; edges and holes of an anodic
film count as open even when it is intact."""

DEFECT_RADIUS_M = {Condition.INTACT: 1e-4, Condition.WORN: 2.5e-4, Condition.DAMAGED: 1e-3}
"""Radius of one opening: pin-hole, rub-through, scratch. Common practice, no source."""

_INSULATING = {FinishRole.ORGANIC, FinishRole.ANODIC}


@lru_cache(maxsize=8192)
def outer_electrode_id(surface: Surface, catalogue: Catalogue) -> str | None:
    """Electrode of the outermost metal, looking through films and paint.

    Parameters
    ----------
    surface : Surface
    catalogue : Catalogue

    Returns
    -------
    str or None
        ``None`` if it is not known.
    """
    return next((electrode_id for electrode_id, _ in _metals(surface, catalogue)), None)


def insulating_finish(surface: Surface, catalogue: Catalogue) -> Finish | None:
    """The outermost finish if it insulates (paint, anodic film).

    Parameters
    ----------
    surface : Surface
    catalogue : Catalogue

    Returns
    -------
    Finish or None
        ``None`` where metal is outermost, or a film that is looked through.
    """
    for layer in surface.layers:
        finish = catalogue.finishes[layer.finish_id]
        if finish.role in _INSULATING and not finish.is_conductive:
            return finish
        if finish.role is FinishRole.METALLIC:
            return None
    return None


@lru_cache(maxsize=8192)
def exposed_electrodes(
    surface: Surface, catalogue: Catalogue, condition: Condition
) -> tuple[ExposedElectrode, ...]:
    """Electrodes that an electrolyte reaches on a surface in a condition.

    Parameters
    ----------
    surface : Surface
        Thicknesses of its layers in micrometres [um].
    catalogue : Catalogue
    condition : Condition
        State of the finishes, in place of the surface's own.

    Returns
    -------
    tuple of ExposedElectrode
        Largest share of the area [-] first; empty where the surface's metal is not known.
    """
    metals = list(_metals(surface, catalogue))
    if not metals:
        return ()
    insulation = insulating_finish(surface, catalogue)
    if insulation is not None:
        return (_behind_insulation(metals[0], insulation, condition),)
    outer_id, coat = metals[0]
    if coat is None:
        return (ExposedElectrode(outer_id, 1.0, Exposure.OUTER),)
    finish = catalogue.finishes[coat.finish_id]
    beneath = next((metal for metal in metals[1:] if metal[0] != outer_id), None)
    open_share = _open_share(finish, coat, condition) if beneath else 0.0
    outer = ExposedElectrode(
        outer_id,
        1.0 - open_share,
        Exposure.OUTER,
        coat.finish_id,
        _thickness(coat, finish),
        beneath_id=beneath[0] if beneath else "",
    )
    if beneath is None or not open_share:
        return (outer,)
    return outer, _beneath(beneath, open_share, condition, catalogue)


def _beneath(
    metal: tuple[str, Layer | None], share: float, condition: Condition, catalogue: Catalogue
) -> ExposedElectrode:
    electrode_id, layer = metal
    kind = {Condition.INTACT: Exposure.PORE, Condition.WORN: Exposure.WORN}.get(condition, Exposure.DAMAGE)
    return ExposedElectrode(
        electrode_id,
        share,
        kind,
        layer.finish_id if layer else "",
        _thickness(layer, catalogue.finishes[layer.finish_id]) if layer else None,
        DEFECT_RADIUS_M[condition],
    )


def _behind_insulation(
    metal: tuple[str, Layer | None], insulation: Finish, condition: Condition
) -> ExposedElectrode:
    electrode_id, layer = metal
    return ExposedElectrode(
        electrode_id,
        OPEN_FRACTION[condition][insulation.role],
        _opening_in(insulation, condition),
        layer.finish_id if layer else "",
        None,
        DEFECT_RADIUS_M[condition],
    )


def _opening_in(insulation: Finish, condition: Condition) -> Exposure:
    """Kind of opening: an intact anodic film grown on its metal is open at edges and holes only."""
    if condition is Condition.DAMAGED:
        return Exposure.DAMAGE
    is_sound_film = insulation.role is FinishRole.ANODIC and condition is Condition.INTACT
    return Exposure.EDGE if is_sound_film else Exposure.PORE


def _open_share(finish: Finish, coat: Layer, condition: Condition) -> float:
    """Share of the area that a coat leaves open: none where a sound coat is thick enough."""
    if condition is Condition.INTACT:
        thickness, closed_from = _thickness(coat, finish), finish.pore_free_above_um
        if closed_from is None or (thickness is not None and thickness >= closed_from):
            return 0.0
    return OPEN_FRACTION[condition][Exposure.PORE]


def _thickness(layer: Layer, finish: Finish) -> float | None:
    return finish.thickness_min_um if layer.thickness_um is None else layer.thickness_um


def _metals(surface: Surface, catalogue: Catalogue) -> Iterator[tuple[str, Layer | None]]:
    """Metals from the outside in, each with its layer (``None`` for the base material)."""
    for layer in surface.layers:
        finish = catalogue.finishes[layer.finish_id]
        if finish.role is FinishRole.METALLIC and finish.outer_electrode_id:
            yield finish.outer_electrode_id, layer
            if finish.underplate_id and not _names(surface, finish.underplate_id):
                under = catalogue.finishes[finish.underplate_id]
                if under.outer_electrode_id:
                    yield under.outer_electrode_id, Layer(under.id)
    material = catalogue.materials.get(surface.material_id or "")
    if material and material.electrode_id:
        yield material.electrode_id, None
    elif surface.basis_family in BASIS_ELECTRODE:
        yield BASIS_ELECTRODE[surface.basis_family], None


BASIS_ELECTRODE = {
    "carbon steel": "steel-carbon",
    "aluminium": "aluminium-6xxx",
    "copper": "copper",
}
"""Electrode taken for a basis material that a finish callout names by its family only."""


def _names(surface: Surface, finish_id: str) -> bool:
    return any(layer.finish_id == finish_id for layer in surface.layers)
