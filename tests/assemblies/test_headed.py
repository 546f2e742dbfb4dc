from __future__ import annotations

import pytest

from service.assemblies.errors import UnreadableFileError
from service.assemblies.headed import HeadedTable, headed, mapping_of, score
from service.assemblies.tables import RawTable


def table(*rows: list[str]) -> HeadedTable:
    return headed(RawTable("list", iter([(number, list(cells)) for number, cells in enumerate(rows, 1)])))


def cells(found: HeadedTable) -> list[dict[str, str]]:
    return [{name: text for name, (text, _) in row.items()} for _, row, _ in found.rows]


def test_titles_and_comments_above_the_headings_are_passed_over() -> None:
    found = table(
        ["Parts list of the mast", "", ""],
        ["# exported 2026-11-25"],
        [],
        ["Pos", "Part No", "Material"],
        ["1", "A", "S355"],
        ["# a remark"],
        ["", " ", ""],
        ["2", "B"],
    )
    assert found.kind == "parts"
    assert cells(found) == [
        {"position": "1", "part_number": "A", "material": "S355"},
        {"position": "2", "part_number": "B"},
    ]


def test_two_ends_make_a_table_of_joints() -> None:
    assert table(["joint", "part_a", "part_b", "environment"]).kind == "joints"


def test_a_table_knows_its_columns() -> None:
    found = table(["part", "material"])
    assert found.has("material")
    assert not found.has("finish")


def test_filled_cells_beyond_the_headings_are_counted() -> None:
    found = table(["part", "material"], ["A", "S355", "", "x"], ["B", "S355", ""])
    assert [surplus for _, _, surplus in found.rows] == [1, 0]


def test_a_second_description_is_read_as_specification() -> None:
    found = table(["short name", "long name", "qty"], ["tube", "Aluminum tube", "2"])
    assert cells(found) == [{"description": "tube", "specification": "Aluminum tube", "quantity": "2"}]


def test_a_second_specification_is_read_as_a_note() -> None:
    found = table(["part", "spec", "model"], ["A", "x", "y"])
    assert cells(found) == [{"part_number": "A", "specification": "x", "note": "y"}]


@pytest.mark.parametrize(
    ("rows", "reason"),
    [
        ([["Alpha", "Beta"], ["1", "2"]], "no row of headings"),
        ([["Qty", "Zone"], ["1", "2"]], "no column holds a part"),
    ],
)
def test_a_table_that_names_no_parts_is_refused(rows: list[list[str]], reason: str) -> None:
    with pytest.raises(UnreadableFileError, match=reason):
        table(*rows)


def test_what_became_of_each_heading_is_told() -> None:
    found = mapping_of(table(["Part", "Materail", "Area (mm2)", "Price"]))
    assert [(entry["heading"], entry["column"], entry["unit"], entry["is_guessed"]) for entry in found] == [
        ("Part", "part_number", None, False),
        ("Materail", "material", None, True),
        ("Area (mm2)", "wetted_area", "mm2", False),
        ("Price", None, None, False),
    ]
    assert found[3]["reason"] == "not a column that is read"


def test_a_row_scores_by_the_better_of_both_tables() -> None:
    assert score(["joint", "first", "second", "geometry"]) == 4
    assert score(["Pos", "Menge", "Werkstoff"]) == 3
