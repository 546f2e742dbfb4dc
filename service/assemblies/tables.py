"""A table before anybody knows what its columns mean: rows of text, and how much of it is read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.assemblies.errors import FileTooLargeError


@dataclass(frozen=True, slots=True)
class Limits:
    """How much of a file is read. What is larger is refused with its row, never cut off in silence."""

    file_bytes: int = 64 * 1024 * 1024
    rows: int = 1_000_000
    columns: int = 1_000
    cell_characters: int = 8_192
    uncompressed_bytes: int = 256 * 1024 * 1024
    archive_entries: int = 1_000
    elements: int = 20_000_000


DEFAULT_LIMITS = Limits()

Row = tuple[int, list[str]]
"""Number of a row, counted from 1, and its cells."""


@dataclass(frozen=True, slots=True)
class RawTable:
    """Rows of one table with the number each has in its file. ``assumptions`` say how it was read."""

    name: str
    rows: Iterator[Row]
    assumptions: tuple[str, ...] = ()


def checked(table: str, rows: Iterator[Row], limits: Limits) -> Iterator[Row]:
    """Pass rows on as long as they are within the limits.

    Raises
    ------
    FileTooLargeError
        At the first row that is not.
    """
    for count, (line, cells) in enumerate(rows, 1):
        if count > limits.rows:
            raise FileTooLargeError(table, "rows", limits.rows)
        if len(cells) > limits.columns and any(cell.strip() for cell in cells[limits.columns :]):
            raise FileTooLargeError(table, "columns", limits.columns, line)
        if any(len(cell) > limits.cell_characters for cell in cells):
            raise FileTooLargeError(table, "characters in one cell", limits.cell_characters, line)
        yield line, cells
