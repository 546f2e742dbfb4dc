"""A surface: what the electrolyte sees, in terms of the catalogue."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Condition(StrEnum):
    """State of a finish when the surface is judged."""

    INTACT = "intact"
    WORN = "worn"
    DAMAGED = "damaged"


@dataclass(frozen=True, slots=True)
class Layer:
    """One coat of a finish stack. Thickness in micrometres, ``None`` where the text is silent."""

    finish_id: str
    thickness_um: float | None = None
    thickness_max_um: float | None = None


@dataclass(frozen=True, slots=True)
class Surface:
    """A material with its finish stack, outermost layer first; no layer means bare.

    ``material_id`` is ``None`` where a text names only the finish and the basis material is left
    open (``Fe//Zn8//A``); ``basis_family`` then holds the family that the text allows, such as
    ``carbon steel``.
    """

    material_id: str | None
    layers: tuple[Layer, ...] = ()
    condition: Condition = Condition.INTACT
    basis_family: str = ""
    temper: str = ""
    strength_class: str = ""
