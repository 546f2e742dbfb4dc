"""How a caller names a surface: by text, by separate notes, or by structure."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator

from service.catalogue.surfaces import Condition
from service.web.schemas.fields import Schema, described

MAX_TEXT = 2000


class LayerRequest(Schema):
    """One coat of a finish stack."""

    finish_id: str = described("Finish, a key of `/v1/finishes`.", "ni-electroplate", max_length=200)
    thickness_um: float | None = described("Thickness; the usual one if absent.", 1.3, None, gt=0, le=10_000)
    thickness_max_um: float | None = described(
        "Upper end where a range is called up.", 2.5, None, gt=0, le=10_000
    )


class SurfaceRequest(Schema):
    """One surface, named in one way: `text`, `material` with `finish`, or `material_id` with `layers`."""

    text: str = described(
        "Drawing text with everything in it.", "EN AW-6082-T6, anodized 15 µm", "", max_length=MAX_TEXT
    )
    material: str = described("Material note: drawing text or identifier.", "A4-80", "", max_length=MAX_TEXT)
    finish: str = described("Finish note: drawing text or identifier.", "Fe//Zn8//C", "", max_length=MAX_TEXT)
    material_id: str | None = described(
        "Material, a key of `/v1/materials`.", "al-6082-t6", None, max_length=200
    )
    basis_family: str = described(
        "Family of the basis where the material is left open.", "carbon steel", "", max_length=200
    )
    layers: tuple[LayerRequest, ...] = described(
        "Finish stack of a structure, outermost first; none means bare.",
        [
            {"finish_id": "au-hard", "thickness_um": 0.8},
            {"finish_id": "ni-electroplate", "thickness_um": 1.3},
        ],
        (),
        max_length=10,
    )
    temper: str = described("Temper of a structure.", "T6", "", max_length=50)
    strength_class: str = described("Strength class of a structure.", "10.9", "", max_length=50)
    thickness_um: float | None = described(
        "Thickness of the outermost layer, instead of what a text says.", 8.0, None, gt=0, le=10_000
    )
    condition: Condition | None = described(
        "State of the finish, instead of what a text says.", "intact", None
    )


def _from_text(value: Any) -> Any:
    return {"text": value} if isinstance(value, str) else value


SurfaceField = Annotated[
    SurfaceRequest, BeforeValidator(_from_text, json_schema_input_type=str | SurfaceRequest)
]
"""A surface in a request: plain text stands for an object that holds only ``text``."""
