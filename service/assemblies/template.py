"""The template: our own headings with an example row, and what each column means."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from typing import Any

from service.assemblies.columns import JOINTS, PARTS, Column
from service.assemblies.exports import workbook_of

TABLES: Mapping[str, Mapping[str, Column]] = {"parts": PARTS, "joints": JOINTS}

_EXAMPLE_PARTS = (
    {
        "part_number": "SK-1111",
        "description": "Well bracket, lower",
        "material": "S355J2+N",
        "finish": "hot dip galvanized ISO 1461",
        "revision": "A",
        "quantity": "2",
        "wetted_area": "1450",
        "zone": "splash-and-tidal-zone",
    },
    {
        "part_number": "SK-1112",
        "description": "Bracket bolt M16x60",
        "material": "A4-80",
        "revision": "A",
        "effectivity": "SN 101-120",
        "quantity": "8",
        "wetted_area": "38",
        "zone": "splash-and-tidal-zone",
    },
)
_LEFT_OUT = {"surface", "position", "level", "assembly", "specification"}
"""Columns that other programs write in place of ours; a template with both would contradict itself."""


def template(table: str) -> bytes:
    """Write the template of a table as CSV, in UTF-8 with the mark that spreadsheets look for.

    Parameters
    ----------
    table : str
        ``parts`` or ``joints``.
    """
    stream = io.StringIO(newline="")
    writer = csv.writer(stream)
    writer.writerows(rows(table))
    return stream.getvalue().encode("utf-8-sig")


def template_workbook() -> bytes:
    """Write both templates and the meaning of every column as a workbook."""
    sheets = []
    for table in TABLES:
        headings, *examples = rows(table)
        sheets.append((table, headings, examples))
    meanings = [
        [f"{table}, {entry['heading']}: {entry['meaning']} Also: {'; '.join(entry['other_headings'])}."]
        for table, entries in columns_document().items()
        for entry in entries
    ]
    # One cell in each row, so that no row of explanations looks like one of headings.
    return workbook_of((*sheets, ("explanations", ["What each column holds"], meanings)))


def rows(table: str) -> list[list[str]]:
    """Headings and example rows of a table; the joints of the example join its parts."""
    columns = [column for name, column in TABLES[table].items() if name not in _LEFT_OUT]
    examples: Iterable[Mapping[str, str]] = _EXAMPLE_PARTS
    if table == "joints":
        examples = [{column.name: column.example for column in columns}]
    headings = [column.heading for column in columns]
    return [headings, *([example.get(column.name, "") for column in columns] for example in examples)]


def columns_document() -> dict[str, list[dict[str, Any]]]:
    """Every column that is read, with its meaning, units and other headings, as plain JSON values."""
    return {table: list(_described(columns.values())) for table, columns in TABLES.items()}


def _described(columns: Iterable[Column]) -> Iterable[dict[str, Any]]:
    for column in columns:
        yield {
            "heading": column.heading,
            "holds": column.kind.value,
            "meaning": column.meaning,
            "example": column.example,
            "unit": column.unit or None,
            "other_units": [unit for unit in column.units or () if unit != column.unit.lower()],
            "other_headings": list(column.also),
        }
