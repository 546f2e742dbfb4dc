"""The base of all models and the one way to write a field: with description and example.

A quantity carries its unit in its name; the JSON schema repeats it as ``x-unit``, read from the name, so
that the two cannot differ.
"""

from __future__ import annotations

from typing import Any, cast

from pydantic import BaseModel, ConfigDict, Field, Strict

UNITS = {
    "_A_per_m2": "A/m²",
    "_S_per_m": "S/m",
    "_mg_per_m2_d": "mg/(m²·d)",
    "_mg_per_m2_per_year": "mg/(m²·year)",
    "_ug_per_m3": "µg/m³",
    "_g_per_kg": "g/kg",
    "_mg_per_L": "mg/L",
    "_g_per_m2": "g/m²",
    "_m_per_s": "m/s",
    "_h_per_year": "h/year",
    "hours_per_year": "h/year",
    "hours_rain_per_year": "h/year",
    "hours_deliquesced_per_year": "h/year",
    "hours_drying_per_year": "h/year",
    "_um_per_year": "µm/year",
    "_nm_per_year": "nm/year",
    "_mm_per_year": "mm/year",
    "_angstrom": "Å",
    "_per_minute": "1/min",
    "_MPa": "MPa",
    "_MHz": "MHz",
    "_bytes": "byte",
    "_hours": "h",
    "_days": "d",
    "_years_high": "year",
    "_years_low": "year",
    "_years": "year",
    "_pct": "%",
    "_ohm": "Ω",
    "_um": "µm",
    "_mm": "mm",
    "_mV": "mV",
    "_cm2": "cm²",
    "_m2": "m²",
    "_C": "°C",
    "_V": "V",
    "_A": "A",
    "_N": "N",
    "_m": "m",
    "_s": "s",
}
"""Unit by ending of a field's name, longest first."""


def unit_of(name: str) -> str | None:
    """Return the unit that a field's name carries."""
    return next((unit for ending, unit in UNITS.items() if name.endswith(ending)), None)


def add_units(schema: dict[str, Any]) -> None:
    """Add to a model's JSON schema the units that its names carry, and drop titles that say nothing."""
    for name, member in schema.get("properties", {}).items():
        member.pop("title", None)
        if unit := unit_of(name):
            member["x-unit"] = unit


class Schema(BaseModel):
    """A model of the API: nothing unknown, nothing changed, no infinities."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        allow_inf_nan=False,
        json_schema_extra=add_units,
        hide_input_in_errors=True,
    )


LOOSE = Strict(strict=False)
"""JSON has neither tuples nor enumerations: lists and words stand for them even in a strict model."""


class BodySchema(Schema):
    """A model of a JSON body: a number is no text, a text is no truth value."""

    model_config = ConfigDict(strict=True)


def nested(description: str, default: object = ..., **constraints: object) -> Any:
    """Declare a field whose value is made of other models, which carry the examples."""
    return Field(default, description=description, **cast("dict[str, Any]", constraints))


def described(description: str, example: object, default: object = ..., **constraints: object) -> Any:
    """Declare a field of a model; without ``default`` it is required."""
    return Field(default, description=description, examples=[example], **cast("dict[str, Any]", constraints))
