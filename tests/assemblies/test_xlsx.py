from __future__ import annotations

import datetime as dt

import pytest

from service.assemblies.errors import FileTooLargeError, UnreadableFileError
from service.assemblies.tables import DEFAULT_LIMITS, Limits, Row
from service.assemblies.xlsx import read_workbook
from tests.factories.workbooks import archive, sheet_of, workbook


def read(data: bytes, limits: Limits = DEFAULT_LIMITS) -> dict[str, list[Row]]:
    return {table.name: list(table.rows) for table in read_workbook(data, "b.xlsx", limits)}


def test_cells_are_read_as_people_see_them() -> None:
    rows: list[list[object]] = [
        ["text", 8, 8.5, True, False, None, "end"],
        [dt.datetime(2026, 1, 31), dt.datetime(2026, 1, 31, 12, 30), dt.date(2026, 2, 1)],  # noqa: DTZ001 - a cell
    ]
    assert read(workbook({"bom": rows})) == {
        "b.xlsx, sheet bom": [
            (1, ["text", "8", "8.5", "yes", "no", "", "end"]),
            (2, ["2026-01-31", "2026-01-31T12:30:00", "2026-02-01"]),
        ]
    }


def test_empty_sheets_and_empty_rows_are_passed_over() -> None:
    assert read(workbook({"bom": [["a"], [], [None, None], ["b"]], "empty": []})) == {
        "b.xlsx, sheet bom": [(1, ["a"]), (4, ["b"])]
    }


def test_a_sheet_ends_after_a_thousand_empty_rows() -> None:
    rows = sheet_of('<row r="1"><c t="str"><v>a</v></c></row><row r="900000"><c t="str"><v>b</v></c></row>')
    assert read(archive(rows)) == {"b.xlsx, sheet bom": [(1, ["a"])]}


def test_a_cell_far_to_the_right_is_refused() -> None:
    rows = sheet_of('<row r="1"><c r="A1" t="str"><v>a</v></c><c r="ALM1" t="str"><v>b</v></c></row>')
    with pytest.raises(FileTooLargeError, match="more than 1000 columns in row 1"):
        read(archive(rows))


@pytest.mark.parametrize(
    "sheet",
    [
        '<row r="x"><c><v>1</v></c></row>',
        '<row r="1"><c t="s"><v>99</v></c></row>',
        '<row r="1"><c r="??" t="str"><v>1</v></c></row>',
    ],
)
def test_cells_that_point_nowhere_are_damage(sheet: str) -> None:
    with pytest.raises(UnreadableFileError, match="damaged"):
        read(archive(sheet_of(sheet)))


def test_a_book_that_names_no_sheet_holds_none() -> None:
    assert read(archive(sheet_of(""), **{"xl/workbook.xml": "<nothing/>"})) == {}


def test_a_book_whose_parts_are_missing_is_damaged() -> None:
    with pytest.raises(UnreadableFileError, match="the workbook is damaged"):
        read(archive(sheet_of(""), **{"[Content_Types].xml": "<Types/>", "_rels/.rels": "<none/>"}))
