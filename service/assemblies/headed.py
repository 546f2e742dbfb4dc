"""Finding the row of headings in a table and saying what each column is.

Titles, dates and comments above the headings are passed over, as are lines of totals below them.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from service.assemblies.columns import JOINTS, PARTS, Column, Heading, count_recognised, recognised
from service.assemblies.contents import told_by_cells
from service.assemblies.errors import UnreadableFileError
from service.assemblies.tables import RawTable

LOOK_AHEAD = 60
"""Rows in which the headings are looked for."""

FEWEST = 2
"""Known headings by which a row is one of headings."""

_ENDS = {"first", "second"}
_NAMES_A_PART = {
    "part_number",
    "position",
    "description",
    "specification",
    "surface",
    "material",
    "designators",
}

Cells = dict[str, tuple[str, Heading]]
"""Cell and heading of one row by the name of the column; cells keep the blanks in front."""


@dataclass(frozen=True, slots=True)
class HeadedTable:
    """A table whose columns are known. ``kind`` is parts or joints."""

    name: str
    kind: str
    headings: tuple[Heading, ...]
    rows: Iterator[tuple[int, Cells, str]]
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
    place = _row_of_headings([cells for _, cells in head])
    if _is_turned([cells for _, cells in head], 0 if place is None else score(head[place][1])):
        raise UnreadableFileError(
            raw.name, "the headings stand in the first column; turn the table, so that each part is a row"
        )
    if place is None:
        raise UnreadableFileError(
            raw.name, "no row of headings near the top; the template names those that are read"
        )
    texts = head[place][1]
    kind, headings = _kind(raw.name, texts, [cells for _, cells in head[place + 1 :]])
    rows = itertools.chain(head[place + 1 :], raw.rows)
    return HeadedTable(raw.name, kind, tuple(headings), _cells(rows, headings, len(texts)), raw.assumptions)


def _row_of_headings(head: list[list[str]]) -> int | None:
    """The row that names most columns; the first row of several cells may name one alone, in words."""
    ranked = [(found, -place) for place, cells in enumerate(head) if (found := score(cells)) >= FEWEST]
    if ranked:
        return -max(ranked)[1]
    first = next(
        (place for place, cells in enumerate(head) if len(list(filter(None, cells))) >= FEWEST), None
    )
    if first is None or not score(head[first]):
        return None
    return None if any(map(_has_figures, head[first])) else first


def _is_turned(head: list[list[str]], found: int) -> bool:
    """Whether the first column names more headings than any row does."""
    return score([cells[0] for cells in head if cells]) > max(found, FEWEST)


def _has_figures(cell: str) -> bool:
    return any(map(str.isdigit, cell))


def _kind(name: str, texts: list[str], rows: list[list[str]]) -> tuple[str, list[Heading]]:
    joints = recognised(texts, JOINTS)
    if _names(joints) >= _ENDS:
        return "joints", joints
    parts = _with_second_texts(told_by_cells(recognised(texts, PARTS), texts, rows))
    if not _names(parts) & _NAMES_A_PART:
        raise UnreadableFileError(
            name, "no column holds a part number, a description or a material; the template names them"
        )
    return "parts", parts


def _names(headings: list[Heading]) -> set[str]:
    return {heading.column.name for heading in headings if heading.column}


_OVERFLOW = {"description": "specification", "specification": "note"}
_JOINED = {"description": "note", "specification": "note", "note": "note", "material": "material"}
_JOINED |= {"finish": "finish"}
"""Where the text of a further column of a kind goes, so that none is lost."""


def _with_second_texts(headings: list[Heading]) -> list[Heading]:
    """A second column of descriptions is one of specifications, if there is none; others are joined."""
    result = list(headings)
    for first, other in _OVERFLOW.items():
        spare = [
            index for index, heading in enumerate(result) if heading.also == first and heading.column is None
        ]
        if spare and other not in _names(result):
            heading = result[spare[0]]
            result[spare[0]] = Heading(heading.place, heading.text, PARTS[other], is_guessed=True)
    return [
        Heading(each.place, each.text, PARTS[_JOINED[each.also]], is_guessed=True)
        if each.column is None and each.also in _JOINED
        else each
        for each in result
    ]


_MARKING = "#:=|-"
_RUN_TOGETHER = re.compile(r"[,;\t|](?=\S)")
_DELIMITERS = ",;\t|"
_COMMENT = re.compile(r"\s*#{1,6} ")
"""A remark, or a title in Markdown; #10 is the size of a screw."""
_RULE = re.compile(r"[\s:|=-]*-{3}[\s:|=-]*")
"""The line below the headings of a table in Markdown."""


@cache
def _headings_in_lower_case() -> frozenset[str]:
    return frozenset(
        spelling.lower() for column in PARTS.values() for spelling in (column.name, *column.also)
    )


def _are_headings(cells: list[str]) -> bool:
    """Whether a row below the headings holds headings again, of a further table or a further page."""
    filled = [cell.strip() for cell in cells if cell.strip()]
    return len(filled) >= FEWEST and count_recognised(filled, PARTS) == len(filled)


def _cells(
    rows: Iterator[tuple[int, list[str]]], headings: list[Heading], width: int
) -> Iterator[tuple[int, Cells, str]]:
    """Cells by column, and what is wrong with the row as a whole, empty if nothing is."""
    used: list[tuple[Column, Heading]] = [(each.column, each) for each in headings if each.column]
    known = _headings_in_lower_case()
    named = [text for heading in headings if (text := heading.text.strip())]
    for line, cells in rows:
        first = next((cell.strip() for cell in cells if cell.strip()), "")
        if not first or (first[0] in _MARKING and (_COMMENT.match(cells[0]) or _RULE.fullmatch(first))):
            continue
        if first == named[0] and [cell.strip() for cell in cells if cell.strip()] == named:
            continue
        if first.lower() in known and _are_headings(cells):
            again = _with_second_texts(recognised(cells, PARTS))
            used, width = [(each.column, each) for each in again if each.column], len(cells)
            continue
        found: Cells = {}
        for column, heading in used:
            text = cells[heading.place] if heading.place < len(cells) else ""
            if text.strip():
                before = found.get(column.name)
                if before or "**" in text or "`" in text:
                    text = _joined(before[0] if before else "", text)
                found[column.name] = (text, heading)
        yield line, found, _wrong(cells, width)


def _wrong(cells: list[str], width: int) -> str:
    if len(cells) > width and any(cell.strip() for cell in cells[width:]):
        return "has more cells than there are headings; is a delimiter in a cell not quoted?"
    missing = width - len(cells)
    if missing >= FEWEST and any(len(_RUN_TOGETHER.findall(cell)) == missing for cell in cells):
        return f"lacks {missing} cells, and one holds as many delimiters; is a quotation mark left open?"
    for cell in cells:
        if "\n" in cell and any(_is_a_row(line, width) for line in cell.splitlines()[1:]):
            lines = cell.count("\n") + 1
            return f"has a cell of {lines} lines that look like rows; is a quotation mark left open?"
    return ""


def _is_a_row(line: str, width: int) -> bool:
    return max(map(line.count, _DELIMITERS)) >= max(width - 2, FEWEST)


def _joined(before: str, text: str) -> str:
    """Cells of one kind in a row, without the signs of emphasis of Markdown."""
    plain = text.replace("**", "").replace("`", "")
    if not before or plain.strip() in before:
        return before or plain
    return f"{before}; {plain}"


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
