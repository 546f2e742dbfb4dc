"""From drawing text to surfaces, many at a time."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import BeforeValidator, ConfigDict, model_validator

from service.web.schemas.answers import TextSpan
from service.web.schemas.fields import LOOSE, BodySchema, Schema, described, nested
from service.web.schemas.groups import check_one_group, one_group_of
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity
from service.web.schemas.surfaces import MAX_TEXT, NOT_BLANK, WAYS, PlainText

MAX_TEXTS = 10_000
TEXT_WAYS = WAYS[:2]
"""A text to read is given whole or as notes."""


class TextRequest(BodySchema):
    """One text, or the separate material and finish notes of one part."""

    model_config = ConfigDict(json_schema_extra=one_group_of(TEXT_WAYS))

    text: str = described(
        "Drawing text in one piece.", "CuZn39Pb3, Ni 5 µm", "", pattern=NOT_BLANK, max_length=MAX_TEXT
    )
    material: str = described("Material note.", "1.4401", "", pattern=NOT_BLANK, max_length=MAX_TEXT)
    finish: str = described("Finish note.", "Fe//Zn8//C", "", pattern=NOT_BLANK, max_length=MAX_TEXT)
    ref: str = described("The caller's own mark, given back unchanged.", "item 40", "", max_length=200)

    @model_validator(mode="after")
    def _given_in_one_way(self) -> Self:
        check_one_group(self, TEXT_WAYS)
        return self


def _from_text(value: Any) -> Any:
    return {"text": value} if isinstance(value, str) else value


TextField = Annotated[
    TextRequest, BeforeValidator(_from_text, json_schema_input_type=PlainText | TextRequest)
]


class ResolveRequest(BodySchema):
    """Texts to read."""

    texts: Annotated[tuple[TextField, ...], LOOSE] = described(
        "Texts, or objects with notes.", ["EN AW-6082-T6", "A4-80"], min_length=1, max_length=MAX_TEXTS
    )
    as_of: str | None = described(
        "Label of the release to read by; the current one if absent.", "2026.11.25-1", None, max_length=64
    )


class LayerReading(Schema):
    """One coat of a finish stack as it was read."""

    finish_id: str = described("Identifier of the finish.", "ni-electro")
    thickness_um: float | None = described("Thickness that the text gives.", 5.0)
    thickness_max_um: float | None = described("Upper end of a called-up range.", None)


class CandidateReading(Schema):
    """One way to read a text."""

    material_id: str | None = described("The basis material; null where it is left open.", "brass-cuzn39pb3")
    basis_family: str = described("Family of the basis where it is left open.", "carbon steel")
    layers: tuple[LayerReading, ...] = nested("Finish stack, outermost first.")
    condition: str = described("`intact`, `worn` or `damaged`.", "intact")
    temper: str = described("Temper that the text gives.", "T6")
    strength_class: str = described("Strength class that the text gives.", "80")
    confidence: float = described("How sure the reading is, 0 to 1.", 0.97)
    assumptions: tuple[str, ...] = described("What was assumed.", ["temper T6"])
    missing: tuple[str, ...] = described("What the text leaves open.", ["thickness"])
    spans: tuple[TextSpan, ...] = nested("Characters that justified the reading.")


class TextReading(Schema):
    """How one text was read."""

    ref: str = described("The caller's own mark.", "item 40")
    text: str = described("The text that was read.", "CuZn39Pb3, Ni 5 µm")
    match: str = described("`exact`, `normalised`, `fuzzy`, `ambiguous` or `unknown`.", "exact")
    candidates: tuple[CandidateReading, ...] = nested("Ways to read it, the likeliest first.")
    question: str | None = described("The question whose reply would settle it.", "Which chemistry is C4?")
    suggestions: tuple[str, ...] = described("Near names for an unknown text.", ["EN AW-6082"])


class ResolveResponse(Schema):
    """Readings in the order of the texts."""

    release: ReleaseIdentity = described("Release that the texts were read by.", RELEASE_EXAMPLE)
    count: int = described("Number of readings.", 2)
    unknown: int = described("How many texts are unknown.", 0)
    ambiguous: int = described("How many texts are ambiguous.", 0)
    readings: tuple[TextReading, ...] = nested("Readings in the order of the texts.")
