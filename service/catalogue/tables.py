"""Which record each table of the knowledge base holds, and how a row becomes one.

The same conversion reads CSV text, database values and JSON, so a figure cannot change its
meaning between the seed package, the database and a release.
"""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Callable, Mapping
from enum import StrEnum
from functools import cache
from typing import Any

from service.catalogue import records
from service.catalogue.errors import MalformedRowError

TABLES: Mapping[str, type[Any]] = types.MappingProxyType(
    {
        "sources": records.Source,
        "electrodes": records.Electrode,
        "materials": records.Material,
        "designations": records.Designation,
        "finishes": records.Finish,
        "finish_substrates": records.FinishSubstrate,
        "compounds": records.Compound,
        "electrolytes": records.Electrolyte,
        "environments": records.Environment,
        "scales": records.Scale,
        "limits": records.Limit,
        "measurements": records.Measurement,
        "kinetics": records.Kinetics,
        "rules": records.Rule,
        "mitigations": records.Mitigation,
    }
)
"""Tables in an order that respects their references."""

KEYS: Mapping[str, tuple[str, ...]] = types.MappingProxyType(
    dict.fromkeys(TABLES, ("id",))
    | {
        "designations": ("material_id", "system", "text"),
        "finish_substrates": ("finish_id", "substrate_family"),
    }
)
"""Columns that identify a row of each table."""

LIST_SEPARATOR = ";"
_TRUE = {"true", "1", "yes", "y"}
_FALSE = {"false", "0", "no", "n", ""}


def record_from_row(table: str, row: Mapping[str, Any]) -> Any:
    """Build the record of ``table`` from a row of text, database or JSON values.

    Raises
    ------
    MalformedRowError
        If a column is missing, surplus or cannot be read as its field's type.
    """
    fields = _converters(table)
    surplus = set(row) - set(fields)
    if surplus:
        name = min(surplus)
        raise MalformedRowError(table, name, row[name], "is not a column of this table")
    values = {}
    for name, convert in fields.items():
        if name not in row:
            raise MalformedRowError(table, name, None, "is missing")
        try:
            values[name] = convert(row[name])
        except (ValueError, TypeError) as error:
            raise MalformedRowError(table, name, row[name], "cannot be read") from error
    return TABLES[table](**values)


def row_from_record(record: Any) -> dict[str, Any]:
    """Turn a record into plain JSON values (enumerations as text, tuples as lists)."""
    row: dict[str, Any] = {}
    for field in dataclasses.fields(record):
        value = getattr(record, field.name)
        if isinstance(value, StrEnum):
            value = value.value
        elif isinstance(value, tuple):
            value = list(value)
        row[field.name] = value
    return row


def key_of(table: str, row: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the identity of a row within its table."""
    return tuple(str(row[name]) for name in KEYS[table])


@cache
def _converters(table: str) -> dict[str, Callable[[Any], Any]]:
    hints = typing.get_type_hints(TABLES[table])
    return {field.name: _converter(hints[field.name]) for field in dataclasses.fields(TABLES[table])}


def _converter(hint: Any) -> Callable[[Any], Any]:
    if hint in _PLAIN:
        return _PLAIN[hint]
    if typing.get_origin(hint) is types.UnionType:
        inner = _converter(typing.get_args(hint)[0])
        return lambda value: None if value is None or value == "" else inner(value)
    if typing.get_origin(hint) is tuple:
        return _texts
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return hint
    raise TypeError(hint)


def _boolean(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    word = str(value).strip().lower()
    if word not in _TRUE | _FALSE:
        raise ValueError(value)
    return word in _TRUE


def _text(value: Any) -> str:
    return "" if value is None else str(value)


def _texts(value: Any) -> tuple[str, ...]:
    parts = value.split(LIST_SEPARATOR) if isinstance(value, str) else (value or ())
    return tuple(part.strip() for part in parts if part.strip())


_PLAIN: Mapping[Any, Callable[[Any], Any]] = types.MappingProxyType(
    {bool: _boolean, str: _text, int: int, float: float}
)
