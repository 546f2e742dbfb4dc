"""An assembly: parts in a tree, the joints between them, the zones they live in, and its programme."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from service.assemblies.effectivity import is_together
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.catalogue.records import Environment

Place = str | Environment
"""An environment: a catalogue identifier, or a record built from the caller's figures."""

_NO_ZONES: Mapping[str, Place] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Fault:
    """Something in a file or record that could not be used and was passed over."""

    table: str
    line: int | None
    column: str
    reason: str
    suggestions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Programme:
    """What an assembly belongs to and what holds for all of it.

    ``release`` pins the release of the knowledge base: another one refuses to judge. ``environment``
    and ``design_life_years`` hold where neither joint nor part says otherwise; ``effective_at`` picks
    the parts of one date or serial number.
    """

    name: str = ""
    release: str = ""
    environment: Place = ""
    design_life_years: float | None = None
    effective_at: str = ""


NO_PROGRAMME = Programme()


@dataclass(frozen=True, slots=True)
class Assembly:
    """Parts by identifier, joints that name them, and zones by name."""

    parts: Mapping[str, Part]
    joints: tuple[Joint, ...]
    zones: Mapping[str, Place] = field(default_factory=lambda: _NO_ZONES)
    name: str = ""
    programme: Programme = NO_PROGRAMME
    faults: tuple[Fault, ...] = ()

    def ancestors(self, part: Part) -> Iterator[Part]:
        """Go up the tree from a part, itself first; a loop ends where it closes."""
        seen: set[str] = set()
        current: Part | None = part
        while current is not None and current.id not in seen:
            yield current
            seen.add(current.id)
            current = self.parts.get(current.parent)

    def zone_of(self, part: Part) -> str:
        """Zone of a part: its own, else that of the nearest part above it that has one."""
        return next((above.zone for above in self.ancestors(part) if above.zone), "")

    def places_of(self, joint: Joint) -> tuple[Place, ...]:
        """Where a joint lives: as stated, else every place of its two parts, else the programme's.

        Two parts in different zones give two places; a joint between them has to stand both.
        """
        stated = joint.environment or joint.zone
        if stated:
            return (self.zones.get(stated, stated),)
        zones = (self.zone_of(self.parts[end]) for end in (joint.first, joint.second))
        places = tuple(dict.fromkeys(self.zones.get(zone, zone) for zone in zones if zone))
        return places or ((self.programme.environment,) if self.programme.environment else ())

    def place_of(self, part: Part) -> Place:
        """Where a part lives, empty where nothing says so."""
        zone = self.zone_of(part)
        return self.zones.get(zone, zone) if zone else self.programme.environment

    def are_together(self, joint: Joint) -> bool:
        """Whether both parts of a joint are ever built into the same unit."""
        first, second = self.parts[joint.first], self.parts[joint.second]
        return is_together(first.effectivity, second.effectivity)
