"""A small knowledge base for tests: valid rows with invented figures, and a way to vary them."""

from __future__ import annotations

import dataclasses
import types
import typing
from enum import StrEnum
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.release import freeze, thaw
from service.catalogue.tables import TABLES

Values = dict[str, Any]
DEFAULTS: Values = {"source_id": "invented", "obtained": "common practice", "note": "invented for a test"}


def row(table: str, **values: Any) -> Values:
    """Return a valid row: empty or zero where nothing is said."""
    hints = typing.get_type_hints(TABLES[table])
    names = [field.name for field in dataclasses.fields(TABLES[table])]
    unknown = set(values) - set(names)
    assert not unknown, unknown
    return {name: values.get(name, DEFAULTS.get(name, _neutral(hints[name]))) for name in names}


def _neutral(hint: Any) -> Any:
    if isinstance(hint, types.UnionType):
        return None
    if typing.get_origin(hint) is tuple:
        return []
    if issubclass(hint, StrEnum):
        return next(iter(hint)).value
    return hint()


def small_package() -> dict[str, list[Values]]:
    """Return two materials, two finishes and one or two rows of every other table."""
    package: dict[str, list[Values]] = {table: [] for table in TABLES}
    package["sources"] = [row("sources", id="invented", kind="practice", title="Invented")]
    package["electrodes"] = [
        row("electrodes", id="zinc", representative_material_id="zinc-sheet", dissolution="Zn:2"),
        row("electrodes", id="steel", dissolution="Fe:2", iso9223_factor=1.0),
    ]
    package["materials"] = [
        row("materials", id="zinc-sheet", name="Zinc sheet", electrode_id="zinc", is_conductive=True),
        row("materials", id="s235", name="S235JR", electrode_id="steel", strength_MPa=360.0),
    ]
    package["designations"] = [
        row("designations", material_id="s235", system="EN name", text="S235JR"),
        row("designations", material_id="s235", system="EN number", text="1.0038"),
    ]
    package["finishes"] = [
        row("finishes", id="nickel-plate", name="Nickel plate", role="metallic", substances=["Ni"]),
        row("finishes", id="gold-plate", name="Gold plate", role="metallic", underplate_id="nickel-plate"),
    ]
    package["finish_substrates"] = [
        row("finish_substrates", finish_id="gold-plate", substrate_family="copper alloy", suitability="good")
    ]
    package["compounds"] = [row("compounds", id="grease", name="Grease", helps=["sealing", "salt"])]
    package["electrolytes"] = [row("electrolytes", id="brine", conductivity_S_per_m=5.0)]
    package["environments"] = [row("environments", id="harbour", exposure="splash", tags=["biofilm"])]
    package["scales"] = [row("scales", id="series", kind="potential")]
    package["limits"] = [row("limits", id="normal", scale_id="series", limit_V=0.25)]
    package["measurements"] = [
        row("measurements", id="zinc-in-brine", subject_kind="electrode", subject_id="zinc",
            quantity="corrosion_potential", value=-1.03, scale_id="series", electrolyte_id="brine"),
        row("measurements", id="steel-density", subject_kind="material", subject_id="s235",
            quantity="density", value=7850.0),
    ]  # fmt: skip
    package["kinetics"] = [row("kinetics", id="zinc-active", electrode_id="zinc", cathodic_slope_V=0.12)]
    trigger = '{"environment": {"tags": {"has": "sulfide"}}}'
    package["rules"] = [row("rules", id="earth", name="Earth", trigger=trigger, affects=["seal"])]
    package["mitigations"] = [row("mitigations", id="paint-both", name="Paint both", rank=1)]
    return package


def catalogue_of(package: dict[str, list[Values]], label: str = "2026.01.01-1") -> Catalogue:
    """Return the catalogue that these rows make."""
    return thaw(freeze(label, package))
