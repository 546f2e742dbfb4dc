"""A record as a form: a control for each of its fields, and what somebody has changed in them."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from service.catalogue.tables import KEYS, LIST_SEPARATOR, TABLES
from service.curation.rows import JSON_COLUMNS, allowed_values
from service.storage.package_fields import description
from service.web.pages.record_fields import UNITS

_LONG = 60
_LONG_FIELDS = {"note", "statement", "advice", "caution", "directions", "conditions", "quarantine_reason"}


@dataclass(frozen=True, slots=True)
class Control:
    """One field of the form. ``choices`` is empty where any text will do; ``fault`` says what is wrong."""

    name: str
    label: str
    hint: str
    value: str
    choices: tuple[str, ...]
    is_long: bool
    is_key: bool
    fault: str = ""


def controls(
    table: str, row: Mapping[str, Any] | None, given: Mapping[str, str], faults: Mapping[str, str]
) -> list[Control]:
    """Return the controls for a row, or for a new one; what was ``given`` stands before what is there."""
    types = {field.name: str(field.type) for field in dataclasses.fields(TABLES[table])}
    return [
        _control(table, name, types[name], given.get(name, _text((row or {}).get(name))), row, faults)
        for name in types
    ]


def changed(table: str, row: Mapping[str, Any] | None, given: Mapping[str, str]) -> dict[str, str]:
    """Return the fields that the form changes; of a new row all of them."""
    names = [field.name for field in dataclasses.fields(TABLES[table])]
    if row is None:
        return {name: given.get(name, "") for name in names}
    return {
        name: given[name]
        for name in names
        if name in given and name not in KEYS[table] and given[name].strip() != _text(row[name]).strip()
    }


def _control(
    table: str,
    name: str,
    kind: str,
    value: str,
    row: Mapping[str, Any] | None,
    faults: Mapping[str, str],
) -> Control:
    choices = allowed_values(table, name) or (("false", "true") if kind == "bool" else ())
    is_long = name in _LONG_FIELDS or (table, name) in JSON_COLUMNS or len(value) > _LONG
    return Control(
        name=name,
        label=_label(name),
        hint=description(table, name),
        value=value,
        choices=choices,
        is_long=is_long and not choices,
        is_key=row is not None and name in KEYS[table],
        fault=faults.get(name, ""),
    )


def _label(name: str) -> str:
    ending = next((end for end in sorted(UNITS, key=len, reverse=True) if name.endswith(f"_{end}")), "")
    stem = name.removesuffix(f"_{ending}").removesuffix("_id").replace("_", " ")
    plain = stem[:1].upper() + stem[1:]
    return f"{plain}, {UNITS[ending]}" if ending else plain


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list | tuple):
        return f"{LIST_SEPARATOR} ".join(map(str, value))
    return str(value)
