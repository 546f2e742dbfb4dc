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
    assert [bool(wrong) for _, _, wrong in found.rows] == [True, False]


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


def test_one_known_heading_in_words_at_the_top_is_enough() -> None:
    found = table(["name", "staerke", "decor"], ["Well lid", "19.0", "red"])
    assert cells(found) == [{"description": "Well lid"}]
    with pytest.raises(UnreadableFileError):
        table(["name", "M5 bolt"], ["Well lid", "x"])


def test_headings_of_a_further_table_replace_the_first() -> None:
    found = table(
        ["part", "material", "qty"],
        ["---", "---", "---"],
        ["A", "S355", "1"],
        ["part", "material", "qty"],
        ["## Fasteners"],
        ["qty", "description"],
        ["4", "Nut M5, `A2`"],
    )
    assert cells(found) == [
        {"part_number": "A", "material": "S355", "quantity": "1"},
        {"quantity": "4", "description": "Nut M5, A2"},
    ]


def test_further_texts_and_materials_are_joined() -> None:
    found = table(["name", "spec", "notes", "remarks", "material", "grade"])
    assert [h.column.name for h in found.headings if h.column] == [
        "description",
        "specification",
        "note",
        "note",
        "material",
        "material",
    ]
    rows = table(["name", "material", "grade"], ["A", "steel", "S355"], ["B", "S355", "S355"])
    assert [row["material"] for row in cells(rows)] == ["steel; S355", "S355"]


def test_a_table_on_its_side_is_refused() -> None:
    with pytest.raises(UnreadableFileError) as raised:
        table(["Pos", "1", "2"], ["Part No", "A", "B"], ["Material", "S355", "A2"], ["Qty", "1", "8"])
    assert "first column" in raised.value.reason


def test_an_open_quotation_mark_is_told() -> None:
    found = table(["part", "material", "qty"], ["A", 'S355,1\nB,S235,2\nC,A2,"', ""], ["D", "A2", "a\nb"])
    assert ["quotation" in wrong for _, _, wrong in found.rows] == [True, False]


def test_cells_that_a_quotation_mark_ran_together_are_told() -> None:
    found = table(["part", "material", "finish", "qty"], ["A,S355,zinc", "1"], ["B", "S355"], ["C, D", "A2"])
    assert ["lacks 2 cells" in wrong for _, _, wrong in found.rows] == [True, False, False]
