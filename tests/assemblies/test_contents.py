from __future__ import annotations

import pytest

from service.assemblies.columns import PARTS, recognised
from service.assemblies.contents import are_materials, are_words, is_wordy, told_by_cells


def told(headings: str, *rows: str) -> dict[str, str]:
    texts = headings.split("|")
    found = told_by_cells(recognised(texts, PARTS), texts, [row.split("|") for row in rows])
    return {heading.text: heading.column.name for heading in found if heading.column}


def test_a_strange_column_of_materials_is_the_one_of_materials() -> None:
    rows = ("Gauge lid|EN AW-5754 H22|1", "Cover screw|ISO 7380 A2|8", "Gland|PA6, IP68|1")
    assert told("name|footprint|qty", *rows)["footprint"] == "material"


def test_a_column_of_materials_keeps_its_name() -> None:
    rows = ("S355|steel|1", "S235|brass|2")
    assert told("material|source|qty", *rows) == {"material": "material", "qty": "quantity"}


def test_suppliers_of_steel_are_no_steel() -> None:
    assert "preferred source" not in told("name|preferred source", "A|steel trader", "B|steel trader")


def test_the_column_of_words_names_the_parts() -> None:
    found = told("line|item|qty", "1|Tide gauge well|1", "2|Well cap|1")
    assert found == {"line": "position", "item": "description", "qty": "quantity"}


def test_a_column_without_a_heading_may_name_the_parts() -> None:
    assert told("|qty", "Mast foot|1", "Stay|2")[""] == "description"


def test_one_word_for_all_parts_names_none() -> None:
    rows = ("common|A1|2", "common|B7|1", "common|C3|1", "common|D4|1")
    assert "description" not in told("configuration|part no|qty", *rows).values()


def test_numbers_of_a_circuit_are_designators() -> None:
    found = told("Reference|Mfr Part #|qty", "J1|SK-4711|1", "C1, C2|SK-4712|2")
    assert found == {"Reference": "designators", "Mfr Part #": "part_number", "qty": "quantity"}


def test_states_of_a_drawing_are_no_conditions_of_a_finish() -> None:
    assert "State" not in told("part no|State", "A|released", "B|working")
    assert told("part no|State", "A|worn", "B|new")["State"] == "condition"
    assert told("part no|condition", "A|broke", "B|released")["condition"] == "condition"


def test_an_empty_column_of_descriptions_is_none() -> None:
    rows = ("Well cap|1|", "Mast foot|2|", "Stay wire|4|")
    assert told("part number|qty|description", *rows) == {"part number": "part_number", "qty": "quantity"}


@pytest.mark.parametrize("cell", ["Well cap", "Stay", "M5 nut", "ねじ M5"])
def test_names_are_words(cell: str) -> None:
    assert is_wordy(cell)


@pytest.mark.parametrize("cell", ["", "SK-1112", "1.2.3", "42x30x7", "A4", "https://example.org/a b"])
def test_codes_are_none(cell: str) -> None:
    assert not is_wordy(cell)


def test_most_cells_decide() -> None:
    assert are_words(["Well cap", "-", "", "Stay", "X1"])
    assert not are_words(["Well cap"])
    assert are_materials(["Acier classe 12.9 noir", "Inox A2 / DIN 985", "?", "laiton"])
    assert not are_materials(
        ["Steel bracket for the lower end of the well, welded and hot dip galvanized", "bolt"]
    )
