"""Reading parts and joints from CSV: one column for each field, in any order, every fault with its line."""

from __future__ import annotations

import csv
import difflib
import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import MISSING, Field, fields
from typing import Any, TypeVar

from service.assemblies.errors import MalformedTableError
from service.assemblies.parts import Assembly, Joint, Part
from service.judgement import Function, Geometry

Record = TypeVar("Record", Part, Joint)
HEADINGS = {"part": "id", "joint": "id"}
"""A table of parts may call its identifier ``part``, one of joints ``joint``."""

_TRUE, _FALSE = {"yes", "true", "1"}, {"no", "false", "0"}


def read_assembly(parts: Iterable[str], joints: Iterable[str]) -> Assembly:
    """Read two CSV tables, given as lines.

    Raises
    ------
    MalformedTableError
        At the first cell that cannot be used.
    """
    known: dict[str, Part] = {}
    for line, part in _read(parts, "parts", Part):
        if part.id in known:
            raise MalformedTableError("parts", line, "part", f"{part.id!r} stands already above")
        known[part.id] = part
    found = []
    for line, joint in _read(joints, "joints", Joint):
        for column in ("first", "second"):
            if (name := getattr(joint, column)) not in known:
                raise MalformedTableError("joints", line, column, f"no part {name!r}{_nearest(name, known)}")
        found.append(joint)
    return Assembly(known, tuple(found))


def _read(lines: Iterable[str], table: str, kind: type[Record]) -> Iterator[tuple[int, Record]]:
    reader = csv.DictReader(lines, strict=True)
    columns = {field.name: field for field in fields(kind)}
    try:
        headings = [HEADINGS.get(name.strip(), name.strip()) for name in reader.fieldnames or ()]
        _check(headings, columns, table)
        reader.fieldnames = headings
        for row in reader:
            yield reader.line_num, kind(**dict(_values(row, columns, table, reader.line_num)))
    except csv.Error as error:
        raise MalformedTableError(table, reader.line_num, "", str(error)) from error


def _check(headings: list[str], columns: Mapping[str, Field[Any]], table: str) -> None:
    for name in headings:
        if name not in columns:
            raise MalformedTableError(table, 1, name, f"is not a known column{_nearest(name, columns)}")
    for name, field in columns.items():
        if field.default is MISSING and name not in headings:
            raise MalformedTableError(table, 1, name, "the column is missing")


def _values(
    row: Mapping[str | None, Any], columns: Mapping[str, Field[Any]], table: str, line: int
) -> Iterator[tuple[str, Any]]:
    if None in row or None in row.values():
        raise MalformedTableError(table, line, "", "has more or fewer cells than the header")
    for name, field in columns.items():
        text = str(row.get(name, "")).strip()
        if not text:
            if field.default is MISSING and name != "name":
                raise MalformedTableError(table, line, name, "is empty")
            continue
        try:
            yield name, _value(text, str(field.type))
        except ValueError as error:
            raise MalformedTableError(table, line, name, str(error)) from error


def _value(text: str, kind: str) -> Any:
    if kind == "tuple[Function, ...]":
        return tuple(_member(part.strip(), Function) for part in text.split(";"))
    if kind == "Geometry":
        return _member(text, Geometry)
    if kind == "bool":
        return _truth(text)
    return _positive(text) if kind.startswith("float") else text


def _member(text: str, kind: type[Function | Geometry]) -> Function | Geometry:
    try:
        return kind(text)
    except ValueError:
        message = f"{text!r} is none of {', '.join(kind)}"
        raise ValueError(message) from None


def _truth(text: str) -> bool:
    if text.lower() not in _TRUE | _FALSE:
        message = f"{text!r} is neither yes nor no"
        raise ValueError(message)
    return text.lower() in _TRUE


def _positive(text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        number = math.nan
    if not (math.isfinite(number) and number > 0):
        message = f"{text!r} is no positive number"
        raise ValueError(message)
    return number


def _nearest(name: str, known: Iterable[str]) -> str:
    near = difflib.get_close_matches(name, list(known), 1)
    return f"; did you mean {near[0]!r}?" if near else ""
