"""Parts and the joints between them, as a bill of materials names them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.judgement import Contact, Function, Geometry, Inquiry, Side


@dataclass(frozen=True, slots=True)
class Part:
    """One part. ``surface`` is drawing text; ``finish`` a note kept apart from it, where there is one."""

    id: str
    name: str
    surface: str
    finish: str = ""
    area_cm2: float | None = None

    @property
    def side(self) -> Side:
        """The part as one side of a couple."""
        return Side(material=self.surface, finish=self.finish) if self.finish else Side(text=self.surface)


@dataclass(frozen=True, slots=True)
class Joint:
    """Two parts that touch. An area given here is that of the joint and goes before the part's own."""

    id: str
    first: str
    second: str
    environment: str
    name: str = ""
    functions: tuple[Function, ...] = (Function.STRUCTURAL,)
    geometry: Geometry = Geometry.STRIP
    first_area_cm2: float | None = None
    second_area_cm2: float | None = None
    fastener_radius_mm: float | None = None
    design_life_years: float | None = None
    section_allowance_um: float | None = None
    compound: str = ""
    is_isolated: bool = False
    current_A: float | None = None


@dataclass(frozen=True, slots=True)
class Assembly:
    """Parts by identifier, and joints that name them."""

    parts: Mapping[str, Part]
    joints: tuple[Joint, ...]

    def inquiry(self, joint: Joint) -> Inquiry:
        """Put a joint as a question."""
        first, second = self.parts[joint.first], self.parts[joint.second]
        return Inquiry(
            first=first.side,
            second=second.side,
            environment=joint.environment,
            first_area_m2=_m2(joint.first_area_cm2 or first.area_cm2),
            second_area_m2=_m2(joint.second_area_cm2 or second.area_cm2),
            geometry=joint.geometry,
            fastener_radius_m=None if joint.fastener_radius_mm is None else joint.fastener_radius_mm / 1e3,
            functions=joint.functions,
            design_life_years=joint.design_life_years,
            section_allowance_um=joint.section_allowance_um,
            compound_id=joint.compound,
            is_isolated=joint.is_isolated,
            contact=Contact(current_A=joint.current_A),
        )


def _m2(area_cm2: float | None) -> float | None:
    return None if area_cm2 is None else area_cm2 / 1e4
