"""Whether a row that somebody sends is one that the knowledge base can hold and the engine can use."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from service.catalogue.errors import MalformedRowError
from service.catalogue.tables import KEYS, LIST_SEPARATOR, TABLES, record_from_row, row_from_record
from service.curation.errors import UnknownTableError
from service.judgement.errors import MalformedTriggerError
from service.judgement.triggers import parse
from service.storage.package import datapackage_descriptor
from service.storage.rows import Values

JSON_COLUMNS = frozenset({("rules", "trigger"), ("mitigations", "parameters")})
"""Columns of text that hold JSON; they may be sent as JSON values."""

_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")


def checked_row(table: str, row: Mapping[str, Any]) -> Values:
    """Return a row as its record holds it.

    Raises
    ------
    UnknownTableError
        If there is no such table.
    MalformedRowError
        If the row does not fit its record, breaks a bound of the table's schema, or holds a trigger that
        the engine cannot read.
    """
    check_table(table)
    written = {name: _as_text(table, name, value) for name, value in row.items()}
    checked = row_from_record(record_from_row(table, written))
    for name, value in checked.items():
        reason = next(_faults(table, name, written[name], value), "")
        if reason:
            raise MalformedRowError(table, name, row[name], reason)
    _check_json(table, checked)
    return checked


def check_table(table: str) -> None:
    """Check that the knowledge base has a table.

    Raises
    ------
    UnknownTableError
        If it has none of this name.
    """
    if table not in TABLES:
        raise UnknownTableError(table)


def allowed_values(table: str, field: str) -> tuple[str, ...]:
    """Return the words that a field may hold, nothing where any word will do."""
    return tuple(_constraints(table).get(field, {}).get("enum", ()))


def _as_text(table: str, name: str, value: Any) -> Any:
    is_json = (table, name) in JSON_COLUMNS and isinstance(value, dict | list)
    return json.dumps(value, sort_keys=True, ensure_ascii=False) if is_json else value


def _faults(table: str, name: str, given: Any, value: Any) -> Iterator[str]:
    """What is wrong with a value that could be read."""
    if isinstance(value, str) and not isinstance(given, str | None):
        yield "is no text"
    if isinstance(given, dict) or (isinstance(given, list) and not isinstance(value, list)):
        yield "is not one value"
    if isinstance(given, bool) and not isinstance(value, bool):
        yield "is no truth value here"
    for text in value if isinstance(value, list) else [value]:
        if isinstance(text, str) and _CONTROL.search(text):
            yield "holds a character that nobody can read"
        if isinstance(value, list) and LIST_SEPARATOR in text:
            yield f"holds a {LIST_SEPARATOR!r} inside an item"
    if isinstance(value, float) and not math.isfinite(value):
        yield "is no finite figure"
    if name in KEYS[table] and not value:
        yield "is missing"
    yield from _broken(_constraints(table).get(name, {}), value)


def _broken(constraints: Mapping[str, Any], value: Any) -> Iterator[str]:
    """Bounds of the published table schema that a value breaks."""
    is_figure = isinstance(value, int | float) and not isinstance(value, bool)
    if is_figure and value < constraints.get("minimum", -math.inf):
        yield f"is less than {constraints['minimum']}"
    if is_figure and value > constraints.get("maximum", math.inf):
        yield f"is more than {constraints['maximum']}"
    if value and "pattern" in constraints and not re.fullmatch(constraints["pattern"], value):
        yield f"does not match {constraints['pattern']}"


@cache
def _constraints(table: str) -> Mapping[str, Mapping[str, Any]]:
    (resource,) = (each for each in datapackage_descriptor()["resources"] if each["name"] == table)
    return {field["name"]: field.get("constraints", {}) for field in resource["schema"]["fields"]}


def _check_json(table: str, row: Values) -> None:
    """A trigger that cannot be read would stop every judgement under the release that holds it."""
    if table == "rules":
        try:
            parse(row["id"], row["trigger"])
        except MalformedTriggerError as error:
            raise MalformedRowError(table, "trigger", row["trigger"], error.detail) from error
    if table == "mitigations":
        try:
            json.loads(row["parameters"] or "null")
        except ValueError as error:
            raise MalformedRowError(table, "parameters", row["parameters"], "is no JSON") from error
