"""The descriptor of the seed package: ``datapackage.json`` made from the records.

The table schemas follow Frictionless Table Schema v1 (specs.frictionlessdata.io), so that any
reader of that open standard can check and use the package without this program.
"""

from __future__ import annotations

import dataclasses
import json
import types
import typing
from enum import StrEnum
from pathlib import Path
from typing import Any

from service.catalogue.tables import KEYS, LIST_SEPARATOR, TABLES
from service.storage.package_fields import description
from service.storage.rows import OPTIONAL, REQUIRED

DESCRIPTOR = "datapackage.json"
ID_PATTERN = "[a-z0-9][A-Za-z0-9.-]*"
"""Identifiers: words joined by hyphens; capitals only inside units and grades."""

_TITLES = {
    "sources": "Where the figures come from",
    "electrodes": "What an electrolyte sees",
    "materials": "Base metals, alloys and conductive non-metals",
    "designations": "Names that drawings give to materials",
    "finishes": "Platings, conversion coatings, anodic films and organic coats",
    "finish_substrates": "Which finish goes on which family of substrates",
    "compounds": "Joint compounds, sealants, greases and gaskets",
    "electrolytes": "Solutions named by measurements and environments",
    "environments": "Named exposures",
    "scales": "Published series of metals",
    "limits": "Permissible differences on a scale",
    "measurements": "Figures with their conditions",
    "kinetics": "Polarisation parameters of electrode states",
    "rules": "Rules beyond potential difference",
    "mitigations": "Changes that make a joint better",
}

_UNITS = {
    "_S_per_m": "S/m",
    "_mg_per_L": "mg/L",
    "_mg_per_m2_d": "mg/(m2 d)",
    "_g_per_m2": "g/m2",
    "_A_per_m2": "A/m2",
    "_m_per_s": "m/s",
    "_per_year": "h/a",
    "_years_low": "a",
    "_years_high": "a",
    "_MPa": "MPa",
    "_um": "um",
    "_pct": "%",
    "_C": "degC",
    "_V": "V",
}
_MAY_BE_NEGATIVE = {"degC", "V", None}
_BOUNDS = {
    "_pct": (0, 100),
    "pH": (-2, 16),
    "oxygen_efficiency": (0, 1),
    "_exponent_": (0, 1),
    "_factor": (0, None),
    "limit_V": (0, None),
    "cost_tier": (0, 5),
    "_C": (-273.15, None),
}


def datapackage_descriptor() -> dict[str, Any]:
    """Return the descriptor of the seed package, ready for JSON."""
    return {
        "profile": "tabular-data-package",
        "name": "faying-seed-data",
        "title": "Materials that touch: measurements, rules and remedies for mixed-metal joints",
        "description": (
            "The knowledge base from which a new installation of Faying starts. Every figure names a "
            "source, a locator and how it was obtained. Lists inside a cell are separated by semicolons."
        ),
        "licenses": [
            {
                "name": "Apache-2.0",
                "path": "https://www.apache.org/licenses/LICENSE-2.0",
                "title": "Apache License 2.0",
            }
        ],
        "resources": [_resource(table) for table in TABLES],
    }


def descriptor_text() -> str:
    """Return ``datapackage.json`` as it should stand in the package."""
    return json.dumps(datapackage_descriptor(), indent=2, ensure_ascii=False) + "\n"


def write_descriptor(folder: Path) -> Path:
    """Write ``datapackage.json`` into the folder of the package and return its path."""
    path = folder / DESCRIPTOR
    path.write_text(descriptor_text(), encoding="utf-8")
    return path


def _resource(table: str) -> dict[str, Any]:
    return {
        "profile": "tabular-data-resource",
        "name": table,
        "path": f"{table}.csv",
        "title": _TITLES[table],
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "schema": {
            "fields": _fields(table),
            "missingValues": [""],
            "primaryKey": list(KEYS[table]),
            "foreignKeys": _foreign_keys(table),
        },
    }


def _foreign_keys(table: str) -> list[dict[str, Any]]:
    return [
        {
            "fields": [column],
            "reference": {"resource": "" if target == table else target, "fields": ["id"]},
        }
        for column, target in {**REQUIRED[table], **OPTIONAL[table]}.items()
    ]


def _fields(table: str) -> list[dict[str, Any]]:
    hints = typing.get_type_hints(TABLES[table])
    return [_field(table, field.name, hints[field.name]) for field in dataclasses.fields(TABLES[table])]


def _field(table: str, name: str, hint: Any) -> dict[str, Any]:
    is_optional = typing.get_origin(hint) is types.UnionType
    kind = typing.get_args(hint)[0] if is_optional else hint
    field: dict[str, Any] = {"name": name, "type": _type(kind), "description": description(table, name)}
    if kind is bool:
        field |= {"trueValues": ["true"], "falseValues": ["false"]}
    if typing.get_origin(kind) is tuple:
        field["description"] += f" Separated by '{LIST_SEPARATOR}'."
    unit = _unit(name) if kind is float else None
    if unit:
        field["unit"] = unit
    constraints = _constraints(table, name, kind, is_optional=is_optional)
    return field | ({"constraints": constraints} if constraints else {})


def _type(kind: Any) -> str:
    return {bool: "boolean", float: "number", int: "integer"}.get(kind, "string")


def _unit(name: str) -> str | None:
    return next((unit for ending, unit in _UNITS.items() if name.endswith(ending)), None)


def _constraints(table: str, name: str, kind: Any, *, is_optional: bool) -> dict[str, Any]:
    constraints: dict[str, Any] = {}
    is_text = kind is str or typing.get_origin(kind) is tuple
    if name in KEYS[table] or name in REQUIRED[table] or not (is_optional or is_text):
        constraints["required"] = True
    if name == "id":
        constraints |= {"unique": True, "pattern": ID_PATTERN}
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        constraints["enum"] = [member.value for member in kind]
    if kind in (float, int):
        constraints |= _bounds(name)
    return constraints


def _bounds(name: str) -> dict[str, float]:
    unit = _unit(name)
    low, high = next(
        (bounds for part, bounds in _BOUNDS.items() if part in name),
        (None if unit in _MAY_BE_NEGATIVE else 0, None),
    )
    return {key: value for key, value in (("minimum", low), ("maximum", high)) if value is not None}
