"""Finding the row of headings in a table and saying what each column is.

Titles, dates and comments above the headings are passed over, as are lines of totals below them.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from service.assemblies.columns import JOINTS, PARTS, Column, Heading, count_recognised, recognised
from service.assemblies.errors import UnreadableFileError
from service.assemblies.tables import RawTable

LOOK_AHEAD = 60
"""Rows in which the headings are looked for."""

FEWEST = 2
"""Known headings by which a row is one of headings."""

_ENDS = {"first", "second"}
_NAMES_A_PART = {"part_number", "position", "description", "surface", "material"}

Cells = dict[str, tuple[str, Heading]]
"""Cell and heading of one row by the name of the column; cells keep the blanks in front."""


@dataclass(frozen=True, slots=True)
class HeadedTable:
    """A table whose columns are known. ``kind`` is parts or joints."""

    name: str
    kind: str
    headings: tuple[Heading, ...]
    rows: Iterator[tuple[int, Cells, int]]
    assumptions: tuple[str, ...]

    def has(self, column: str) -> bool:
        """Whether the table has a column."""
        return any(heading.column and heading.column.name == column for heading in self.headings)


def score(cells: list[str]) -> int:
    """How many known headings a row holds, of parts or of joints."""
    return max(count_recognised(cells, PARTS), count_recognised(cells, JOINTS))


def headed(raw: RawTable) -> HeadedTable:
    """Find the headings of a table.

    Raises
    ------
    UnreadableFileError
        If no row near the top names what is needed.
    """
    head = list(itertools.islice(raw.rows, LOOK_AHEAD))
    ranked = [(found, -place) for place, (_, cells) in enumerate(head) if (found := score(cells)) >= FEWEST]
    if not ranked:
        raise UnreadableFileError(
            raw.name, "no row of headings near the top; the template names those that are read"
        )
    place = -max(ranked)[1]
    texts = head[place][1]
    kind, headings = _kind(raw.name, texts)
    rows = itertools.chain(head[place + 1 :], raw.rows)
    return HeadedTable(raw.name, kind, tuple(headings), _cells(rows, headings, len(texts)), raw.assumptions)


def _kind(name: str, texts: list[str]) -> tuple[str, list[Heading]]:
    joints = recognised(texts, JOINTS)
    if _names(joints) >= _ENDS:
        return "joints", joints
    parts = _with_second_texts(recognised(texts, PARTS))
    if not _names(parts) & _NAMES_A_PART:
        raise UnreadableFileError(
            name, "no column holds a part number, a description or a material; the template names them"
        )
    return "parts", parts


def _names(headings: list[Heading]) -> set[str]:
    return {heading.column.name for heading in headings if heading.column}


_OVERFLOW = {"description": "specification", "specification": "note"}


def _with_second_texts(headings: list[Heading]) -> list[Heading]:
    """A second column of descriptions is one of specifications, if there is none."""
    result = list(headings)
    for first, other in _OVERFLOW.items():
        spare = [
            index for index, heading in enumerate(result) if heading.also == first and heading.column is None
        ]
        if spare and other not in _names(result):
            heading = result[spare[0]]
            result[spare[0]] = Heading(heading.place, heading.text, PARTS[other], is_guessed=True)
    return result


def _cells(
    rows: Iterator[tuple[int, list[str]]], headings: list[Heading], width: int
) -> Iterator[tuple[int, Cells, int]]:
    """Cells by column, and how many filled cells of the row lie beyond the last heading."""
    used: list[tuple[Column, Heading]] = [(each.column, each) for each in headings if each.column]
    for line, cells in rows:
        if not any(cell.strip() for cell in cells) or cells[0].lstrip().startswith("# "):
            continue
        found = {
            column.name: (cells[heading.place], heading)
            for column, heading in used
            if heading.place < len(cells) and cells[heading.place].strip()
        }
        yield line, found, sum(bool(cell.strip()) for cell in cells[width:])


def mapping_of(table: HeadedTable) -> list[Mapping[str, object]]:
    """What became of each heading, for the report."""
    return [
        {
            "heading": heading.text.strip(),
            "column": heading.column.name if heading.column else None,
            "unit": heading.unit or None,
            "is_guessed": heading.is_guessed,
            "reason": heading.reason or None,
        }
        for heading in table.headings
    ]
