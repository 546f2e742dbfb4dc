from __future__ import annotations

import csv
import dataclasses
import json
from pathlib import Path
from typing import Any

import pytest
from frictionless import Package, system

from service.catalogue.tables import KEYS, TABLES
from service.storage.package import DESCRIPTOR, datapackage_descriptor, descriptor_text, write_descriptor
from tests.factories.knowledge import small_package


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small package on disk with its descriptor."""
    for table, rows in small_package().items():
        _write(tmp_path, table, rows)
    write_descriptor(tmp_path)
    return tmp_path


def _write(folder: Path, table: str, rows: list[dict[str, Any]]) -> None:
    names = [field.name for field in dataclasses.fields(TABLES[table])]
    with (folder / f"{table}.csv").open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, names)
        writer.writeheader()
        writer.writerows({name: _cell(row[name]) for name in names} for row in rows)


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return ";".join(value) if isinstance(value, list | tuple) else str(value)


def _errors(folder: Path) -> list[str]:
    with system.use_context(trusted=True):
        report = Package(str(folder / DESCRIPTOR)).validate()
    return [str(error) for (error,) in report.flatten(["type"])]


def _schema(table: str) -> dict[str, Any]:
    resources = {resource["name"]: resource for resource in datapackage_descriptor()["resources"]}
    schema: dict[str, Any] = resources[table]["schema"]
    return schema


def _field(table: str, name: str) -> dict[str, Any]:
    field: dict[str, Any] = {field["name"]: field for field in _schema(table)["fields"]}[name]
    return field


def test_every_table_is_a_resource_with_all_its_columns() -> None:
    resources = datapackage_descriptor()["resources"]
    assert [resource["name"] for resource in resources] == list(TABLES)
    for table, record in TABLES.items():
        assert [field["name"] for field in _schema(table)["fields"]] == [
            field.name for field in dataclasses.fields(record)
        ]
        assert _schema(table)["primaryKey"] == list(KEYS[table])


def test_the_text_is_json_of_the_descriptor(tmp_path: Path) -> None:
    assert json.loads(descriptor_text()) == datapackage_descriptor()
    assert write_descriptor(tmp_path).read_text(encoding="utf-8") == descriptor_text()


@pytest.mark.parametrize(
    ("table", "name", "expected"),
    [
        ("materials", "strength_MPa", {"type": "number", "unit": "MPa"}),
        ("materials", "is_conductive", {"type": "boolean", "trueValues": ["true"], "falseValues": ["false"]}),
        ("sources", "year", {"type": "integer"}),
        ("kinetics", "anodic_slope_V", {"unit": "V"}),
        ("environments", "hours_rain_per_year", {"unit": "h/a"}),
    ],
)
def test_a_field_carries_type_and_unit(table: str, name: str, expected: dict[str, Any]) -> None:
    field = _field(table, name)
    assert {key: field.get(key) for key in expected} == expected


@pytest.mark.parametrize(
    ("table", "name", "expected"),
    [
        ("materials", "id", {"required": True, "unique": True}),
        ("kinetics", "corrosion_potential_V", {"required": True}),
        ("environments", "relative_humidity_pct", {"minimum": 0, "maximum": 100}),
        ("environments", "pH", {"minimum": -2, "maximum": 16}),
        ("electrodes", "iso9223_factor", {"minimum": 0}),
        ("limits", "limit_V", {"minimum": 0}),
        ("measurements", "source_id", {"required": True}),
    ],
)
def test_a_field_is_constrained(table: str, name: str, expected: dict[str, Any]) -> None:
    assert expected.items() <= _field(table, name)["constraints"].items()


def test_potentials_may_be_negative_and_text_may_be_empty() -> None:
    assert "minimum" not in _field("kinetics", "corrosion_potential_V")["constraints"]
    assert "constraints" not in _field("materials", "note")


def test_closed_sets_are_enumerated_and_lists_say_how_they_are_parted() -> None:
    assert "from memory" in _field("materials", "obtained")["constraints"]["enum"]
    assert "';'" in _field("finishes", "substances")["description"]


def test_references_become_foreign_keys() -> None:
    keys = _schema("materials")["foreignKeys"]
    assert {"fields": ["electrode_id"], "reference": {"resource": "electrodes", "fields": ["id"]}} in keys
    itself = {"fields": ["underplate_id"], "reference": {"resource": "", "fields": ["id"]}}
    assert itself in _schema("finishes")["foreignKeys"]


def test_a_sound_package_validates(folder: Path) -> None:
    assert _errors(folder) == []


@pytest.mark.parametrize(
    ("table", "column", "value", "error"),
    [
        ("materials", "electrode_id", "unobtainium", "foreign-key"),
        ("materials", "obtained", "by heart", "constraint-error"),
        ("materials", "strength_MPa", -1.0, "constraint-error"),
        ("materials", "is_conductive", "maybe", "type-error"),
        ("materials", "id", "Zinc Sheet", "constraint-error"),
    ],
)
def test_a_broken_row_is_found(folder: Path, table: str, column: str, value: Any, error: str) -> None:
    rows = small_package()[table]
    rows[-1] = rows[-1] | {column: value}
    _write(folder, table, rows)
    assert error in _errors(folder)
