"""Parts as a bill of materials names them."""

from __future__ import annotations

from dataclasses import dataclass

from service.catalogue.surfaces import Condition, Surface
from service.judgement import Side


@dataclass(frozen=True, slots=True)
class Part:
    """One part at one place of the tree.

    The surface is named in one way, as in a couple: ``text`` holds everything, or ``material`` and
    ``finish`` are notes kept apart, or ``surface`` is a structure. ``id`` is unique in its assembly;
    ``number`` is the part number, which may stand at several places. ``parent`` is the identifier of
    the part above. ``wetted_area_m2`` is that of one piece. ``net`` names an electrical net or bond;
    ``is_isolated`` says that the part is mounted without an electronic path to the others. ``zone`` is
    a zone of the assembly or an environment; ``line`` the row of the table that the part came from.
    """

    id: str
    number: str = ""
    description: str = ""
    revision: str = ""
    effectivity: str = ""
    parent: str = ""
    quantity: float | None = None
    text: str = ""
    material: str = ""
    finish: str = ""
    surface: Surface | None = None
    thickness_um: float | None = None
    condition: Condition | None = None
    wetted_area_m2: float | None = None
    net: str = ""
    is_isolated: bool = False
    zone: str = ""
    designators: str = ""
    note: str = ""
    line: int | None = None
    assumptions: tuple[str, ...] = ()

    @property
    def names_surface(self) -> bool:
        """Whether anything says what the electrolyte sees."""
        return bool(self.surface or self.text.strip() or self.material.strip() or self.finish.strip())

    @property
    def side(self) -> Side:
        """The part as one side of a couple; a finish note without a material stands by itself."""
        return Side(
            text=self.text,
            material=self.material,
            finish=self.finish,
            surface=self.surface,
            thickness_um=self.thickness_um,
            condition=self.condition,
        )

    @property
    def words(self) -> str:
        """Everything that the record says in words, for rules that look for nouns and sizes."""
        return " ".join(filter(None, (self.description, self.text, self.note)))

    @property
    def label(self) -> str:
        """How a report names the part: number, revision and description."""
        number = self.number or self.id
        with_revision = f"{number} rev {self.revision}" if self.revision else number
        return f"{with_revision}, {self.description}" if self.description else with_revision
