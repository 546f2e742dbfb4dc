"""Workbooks as rows: every sheet that holds something."""

from __future__ import annotations

import datetime as dt
import io
import warnings
import zipfile
from collections.abc import Iterator
from typing import Any
from xml.etree.ElementTree import ParseError

from service.assemblies import workbook_guard
from service.assemblies.errors import UnreadableFileError
from service.assemblies.tables import Limits, RawTable, Row, checked

_MOST_BLANK_ROWS = 1_000
"""Blank rows in sequence after which a sheet counts as ended."""

_MOST_SHEETS = 50

_DAMAGED = (
    KeyError,
    ValueError,
    TypeError,
    IndexError,
    AttributeError,
    OSError,
    OverflowError,
    ParseError,
    zipfile.BadZipFile,
)
"""What the parser raises on a workbook whose parts do not fit together."""


def read_workbook(data: bytes, table: str, limits: Limits) -> list[RawTable]:
    """Read the sheets of a workbook; figures of formulas are those that were stored with them.

    Raises
    ------
    FileTooLargeError
        If it is larger than the limits.
    UnreadableFileError
        If it is no workbook, or its parts do not fit together.
    """
    workbook_guard.opened(data, table, limits).close()
    sheets = []
    for name, rows in _sheets(data, table, limits):
        numbered = ((line, cells) for line, cells in rows if cells)
        held = list(checked(f"{table}, sheet {name}", numbered, limits))
        if held:
            sheets.append(RawTable(f"{table}, sheet {name}", iter(held)))
    return sheets


def _sheets(data: bytes, table: str, limits: Limits) -> Iterator[tuple[str, Iterator[Row]]]:
    import openpyxl

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # notes on styles and extensions, of no use to a caller
        try:
            workbook = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        except _DAMAGED as error:
            raise UnreadableFileError(table, "the workbook is damaged") from error
        try:
            for sheet in workbook.worksheets[:_MOST_SHEETS]:
                yield sheet.title, _rows(sheet, table, limits)
        finally:
            workbook.close()


def _rows(sheet: Any, table: str, limits: Limits) -> Iterator[Row]:
    blank = 0
    try:
        rows = sheet.iter_rows(max_row=limits.rows + 1, max_col=limits.columns + 1, values_only=True)
        for line, values in enumerate(rows, 1):
            cells = [_text(value) for value in values]
            while cells and not cells[-1]:
                cells.pop()
            blank = 0 if cells else blank + 1
            if blank > _MOST_BLANK_ROWS:
                return
            yield line, cells
    except _DAMAGED as error:
        raise UnreadableFileError(table, f"sheet {sheet.title} is damaged") from error


def _text(value: object) -> str:
    """A cell as a person reads it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.15g}"
    if isinstance(value, dt.datetime):
        return value.date().isoformat() if value.time() == dt.time() else value.isoformat()
    return str(value)
