"""Workbooks for tests: sound ones, and archives that are made by hand to do harm."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence

import openpyxl

TYPES = (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Override PartName="/xl/workbook.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
    '<Override PartName="/xl/worksheets/sheet1.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>'
)
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
ROOT = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="r1" Type="{RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>'
)
BOOK = (
    f'<workbook xmlns="{MAIN}" xmlns:r="{RELATIONS}"><sheets>'
    '<sheet name="bom" sheetId="1" r:id="r1"/></sheets></workbook>'
)
BOOK_RELATIONS = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="r1" Type="{RELATIONS}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>'
)
SHEET = "xl/worksheets/sheet1.xml"


def workbook(sheets: Mapping[str, Sequence[Sequence[object]]]) -> bytes:
    """Write a sound workbook."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def sheet_of(rows: str) -> str:
    """Wrap rows written as XML into a sheet."""
    return f'<worksheet xmlns="{MAIN}"><sheetData>{rows}</sheetData></worksheet>'


def archive(sheet: str | bytes, **more: str | bytes) -> bytes:
    """Write a workbook whose one sheet is this XML, whatever it holds."""
    entries: dict[str, str | bytes] = {
        "[Content_Types].xml": TYPES,
        "_rels/.rels": ROOT,
        "xl/workbook.xml": BOOK,
        "xl/_rels/workbook.xml.rels": BOOK_RELATIONS,
        SHEET: sheet,
        **more,
    }
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in entries.items():
            packed.writestr(name, content)
    return stream.getvalue()
