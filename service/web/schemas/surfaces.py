"""How a caller names a surface: by text, by separate notes, or by structure."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import BeforeValidator, ConfigDict, Field, model_validator

from service.catalogue.surfaces import Condition
from service.web.schemas.fields import LOOSE, BodySchema, described
from service.web.schemas.groups import check_one_group, one_group_of

MAX_TEXT = 2000
NOT_BLANK = r"[^\u0000-\u0020\u007f-\u00a0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u2064\u3000\ufeff]"
"""One visible character. Spelt out, because dialects of patterns disagree about what a blank is."""
PlainText = Annotated[str, Field(pattern=NOT_BLANK, max_length=MAX_TEXT)]
WAYS = (("text",), ("material", "finish"), ("material_id", "layers", "basis_family"))
"""Ways to name a surface: a request uses the fields of exactly one."""


class LayerRequest(BodySchema):
    """One coat of a finish stack."""

    finish_id: str = described("Finish, a key of `/v1/finishes`.", "ni-electro", max_length=200)
    thickness_um: float | None = described(
        "Thickness; the usual one if absent.", 1.3, None, ge=0.001, le=10_000
    )
    thickness_max_um: float | None = described(
        "Upper end where a range is called up.", 2.5, None, ge=0.001, le=10_000
    )


class SurfaceRequest(BodySchema):
    """One surface, named in one way: by `text`, by notes (`material`, `finish`), or by structure."""

    model_config = ConfigDict(json_schema_extra=one_group_of(WAYS))

    text: str = described(
        "Drawing text with everything in it.",
        "EN AW-6082-T6, anodized 15 µm",
        "",
        pattern=NOT_BLANK,
        max_length=MAX_TEXT,
    )
    material: str = described(
        "Material note: drawing text or identifier.", "A4-80", "", pattern=NOT_BLANK, max_length=MAX_TEXT
    )
    finish: str = described(
        "Finish note: drawing text or identifier.", "Fe//Zn8//C", "", pattern=NOT_BLANK, max_length=MAX_TEXT
    )
    material_id: str = described(
        "Material, a key of `/v1/materials`.", "al-6082-t6", "", min_length=1, max_length=200
    )
    basis_family: str = described(
        "Family of the basis where the material is left open.",
        "carbon steel",
        "",
        pattern=NOT_BLANK,
        max_length=200,
    )
    layers: Annotated[tuple[LayerRequest, ...], LOOSE] = described(
        "Finish stack of a structure, outermost first; none means bare.",
        [
            {"finish_id": "au-hard-over-ni", "thickness_um": 0.8},
            {"finish_id": "ni-electro", "thickness_um": 1.3},
        ],
        (),
        min_length=1,
        max_length=10,
    )
    temper: str = described("Temper of a structure.", "T6", "", max_length=50)
    strength_class: str = described("Strength class of a structure.", "10.9", "", max_length=50)
    thickness_um: float | None = described(
        "Thickness of the outermost layer, instead of what a text says.", 8.0, None, ge=0.001, le=10_000
    )
    condition: Annotated[Condition | None, LOOSE] = described(
        "State of the finish, instead of what a text says.", "intact", None
    )

    @model_validator(mode="after")
    def _named_in_one_way(self) -> Self:
        check_one_group(self, WAYS)
        return self


def _from_text(value: Any) -> Any:
    return {"text": value} if isinstance(value, str) else value


SurfaceField = Annotated[
    SurfaceRequest, BeforeValidator(_from_text, json_schema_input_type=PlainText | SurfaceRequest)
]
"""A surface in a request: plain text stands for an object that holds only ``text``."""
