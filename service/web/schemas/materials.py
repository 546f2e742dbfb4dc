"""Materials and the names by which drawings call them."""

from __future__ import annotations

from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class Designation(Schema):
    """A name under which a drawing may call a material."""

    system: str = described("Designation system, such as UNS, EN number, EN name or common.", "EN number")
    text: str = described("The designation as the system writes it.", "EN AW-6082")
    note: str = described("Remark of the editors; empty if none.", "Temper not stated: taken as T6.")


class Material(Provenance):
    """A base metal, alloy or conductive non-metal in one temper."""

    id: str = described("Identifier of the material.", "al-6082-t6")
    name: str = described("Name for people.", "Aluminium 6082 T6")
    family: str = described("Family, as finishes name their substrates.", "wrought aluminium")
    electrode_id: str = described(
        "Electrode that an electrolyte sees, a key of `/v1/electrodes`.", "aluminium-6xxx"
    )
    composition: str = described(
        "Nominal composition in per cent by mass, elements separated by semicolons.", "Al 97.3;Mg 0.9;Si 1.0"
    )
    temper: str = described("Temper or condition; empty if none applies.", "T6")
    strength_MPa: float | None = described("Tensile strength that embrittlement rules use.", 310.0)
    is_conductive: bool = described("Whether it conducts electrons.", example=True)
    designations: tuple[Designation, ...] = described(
        "Names under which drawings call it.",
        [{"system": "EN number", "text": "EN AW-6082", "note": ""}],
    )


class MaterialPage(Page):
    """One page of materials."""

    items: tuple[Material, ...] = nested("Materials in the order of their identifiers.")
