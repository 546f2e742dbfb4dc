"""How a caller names the place: a known environment, its own figures, or a known one with other figures."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import BeforeValidator, ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from service.catalogue.records import ElectrolyteClass, Exposure
from service.web.schemas.fields import LOOSE, BodySchema, add_units, described

MAX_TAGS = 30
PlainId = Annotated[str, Field(min_length=1, max_length=200)]
DESCRIBED = ("exposure", "electrolyte_class")
"""Fields without which an environment is not described."""


def _known_or_described(schema: dict[str, Any]) -> None:
    add_units(schema)
    given = {name: {"type": "string"} for name in DESCRIBED}
    schema["anyOf"] = [{"required": ["id"]}, {"required": list(DESCRIBED), "properties": given}]


class EnvironmentRequest(BodySchema):
    """An exposure; with `id` alone it is a known one, with figures beside `id` they replace its own.

    Without `id`, `exposure` and `electrolyte_class` have to be given.
    """

    model_config = ConfigDict(json_schema_extra=_known_or_described)

    id: str = described(
        "Known environment, a key of `/v1/environments`.",
        "marine-atmosphere-0-100-m",
        "",
        min_length=1,
        max_length=200,
    )
    name: str = described("What to call it in the answer.", "Tide gauge, Skerrivoe", "", max_length=200)
    exposure: Annotated[Exposure | None, LOOSE] = described(
        "How the electrolyte meets the joint.", "atmosphere", None
    )
    electrolyte_class: Annotated[ElectrolyteClass | None, LOOSE] = described(
        "Family of the electrolyte.", "chloride", None
    )
    screening_class: str | None = described(
        "Which permissible difference applies: `harsh` (if nothing is said), `normal` or `controlled`.",
        "harsh",
        None,
        pattern="^(harsh|normal|controlled)$",
    )
    temperature_C: float | None = described("Mean temperature of the year.", 9.0, None, ge=-80, le=200)
    relative_humidity_pct: float | None = described("Mean relative humidity.", 83.0, None, ge=0, le=100)
    wetness_h_per_year: float | None = described("Hours of wetness.", 4800.0, None, ge=0, le=8784)
    so2_mg_per_m2_d: float | None = described("Deposition of sulfur dioxide.", 4.0, None, ge=0, le=1e4)
    so2_ug_per_m3: float | None = described(
        "Sulfur dioxide in the air, in place of its deposition.", None, None, ge=0, le=1e4
    )
    chloride_mg_per_m2_d: float | None = described(
        "Deposition of chloride on a wet candle.", 250.0, None, ge=0, le=1e5
    )
    chloride_dry_plate_mg_per_m2_d: float | None = described(
        "The same on a dry plate, in its place.", None, None, ge=0, le=1e5
    )
    salt_load_g_per_m2: float | None = described("Salt on the surface.", 1.5, None, ge=0, le=1e4)
    is_sheltered: bool | None = described(
        "Whether rain does not wash the surface.", example=False, default=None
    )
    conductivity_S_per_m: float | None = described(
        "Conductivity of the electrolyte.", 4.2, None, ge=1e-7, le=1e3
    )
    conductivity_low_S_per_m: float | None = described("Lower bound of it.", 3.5, None, ge=1e-7, le=1e3)
    conductivity_high_S_per_m: float | None = described("Upper bound of it.", 5.0, None, ge=1e-7, le=1e3)
    salinity_g_per_kg: float | None = described(
        "Salt in sea water or its dilution, in place of the conductivity.", None, None, ge=0, le=42
    )
    pH: float | None = described("pH of the electrolyte.", 8.0, None, ge=-2, le=16)
    pH_low: float | None = described("Lower bound of it.", 7.5, None, ge=-2, le=16)
    pH_high: float | None = described("Upper bound of it.", 8.3, None, ge=-2, le=16)
    oxygen_mg_per_L: float | None = described("Dissolved oxygen.", 9.0, None, ge=0, le=100)
    film_thickness_um: float | None = described("Thickness of the film.", 60.0, None, ge=0.001, le=1e6)
    film_thickness_low_um: float | None = described("Lower bound of it.", 20.0, None, ge=0.001, le=1e6)
    film_thickness_high_um: float | None = described("Upper bound of it.", 200.0, None, ge=0.001, le=1e6)
    hours_rain_per_year: float | None = described("Hours under rain.", 1100.0, None, ge=0, le=8784)
    precipitation_mm_per_year: float | None = described(
        "Depth of a year's rain, in place of its hours.", None, None, ge=0, le=3e4
    )
    hours_deliquesced_per_year: float | None = described("Hours under wet salt.", 3000.0, None, ge=0, le=8784)
    hours_drying_per_year: float | None = described("Hours of drying.", 1500.0, None, ge=0, le=8784)
    flow_m_per_s: float | None = described("Speed of the water.", 0.4, None, ge=0, le=100)
    iso9223_category: str | None = described(
        "Category of ISO 9223, where no climate figures are known.", "C5", None, pattern="^(C[1-5X])?$"
    )
    tags: Annotated[tuple[str, ...] | None, LOOSE] = described(
        "Facts that rules ask for, such as `sulfide` or `hot_water`.", ["biofilm"], None, max_length=MAX_TAGS
    )

    @model_validator(mode="after")
    def _is_known_or_described(self) -> Self:
        if not self.id and (self.exposure is None or self.electrolyte_class is None):
            reason = "known_or_described", "Name a known environment by id, or give {fields}"
            raise PydanticCustomError(*reason, {"fields": " and ".join(DESCRIBED)})
        return self


def _from_id(value: Any) -> Any:
    return {"id": value} if isinstance(value, str) else value


EnvironmentField = Annotated[
    EnvironmentRequest, BeforeValidator(_from_id, json_schema_input_type=PlainId | EnvironmentRequest)
]
"""An environment in a request: plain text stands for an object that holds only ``id``."""
