"""Joints: two parts of an assembly that touch."""

from __future__ import annotations

from dataclasses import dataclass

from service.judgement import Contact, Function, Geometry
from service.judgement.couples import NO_DUTY


@dataclass(frozen=True, slots=True)
class Joint:
    """Two parts that touch.

    ``environment`` goes before ``zone``, and both before the zones of the parts. An area given here is
    that of the joint and goes before the part's own. ``basis`` is empty for a joint that the caller
    states and else names the rule by which the contact was assumed; ``alike`` are further pairs of parts
    with the same surfaces in the same place, for which this joint stands.
    """

    id: str
    first: str
    second: str
    environment: str = ""
    zone: str = ""
    name: str = ""
    functions: tuple[Function, ...] = (Function.STRUCTURAL,)
    geometry: Geometry = Geometry.STRIP
    first_area_m2: float | None = None
    second_area_m2: float | None = None
    fastener_radius_m: float | None = None
    bore_m: float | None = None
    contact: Contact = NO_DUTY
    design_life_years: float | None = None
    section_allowance_um: float | None = None
    compound: str = ""
    joint_temperature_C: float | None = None
    wear_cycles: float | None = None
    is_isolated: bool = False
    basis: str = ""
    alike: tuple[tuple[str, str], ...] = ()
    line: int | None = None

    @property
    def is_assumed(self) -> bool:
        """Whether a rule assumed the contact rather than the caller stating it."""
        return bool(self.basis)

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """All pairs of parts that the joint stands for, its own first."""
        return ((self.first, self.second), *self.alike)
