from __future__ import annotations

import pytest

from service.assemblies.headed import headed
from service.assemblies.part_rows import PartRows, read_parts
from service.assemblies.tables import RawTable
from service.catalogue.surfaces import Condition


def read(*rows: str) -> PartRows:
    cells = [(number, row.split("|")) for number, row in enumerate(rows, 1)]
    return read_parts(headed(RawTable("list", iter(cells))))


def test_a_part_with_all_its_columns() -> None:
    found = read(
        "Part|Name|Rev|Effectivity|Material|Finish|Thickness um|Condition|Qty|Area mm2|Zone|Net|Isolated|"
        "Refs|Notes",
        "A|Bracket|B|SN 1-9|S355|zinc|8|worn|2 pcs|1500|quay|PE|no|J1|greased",
    )
    part = found.parts["A"]
    assert (part.number, part.description, part.revision, part.effectivity) == ("A", "Bracket", "B", "SN 1-9")
    assert (part.material, part.finish, part.thickness_um, part.condition) == (
        "S355",
        "zinc",
        8.0,
        Condition.WORN,
    )
    assert (part.quantity, part.wetted_area_m2, part.zone, part.net) == (2.0, 0.0015, "quay", "PE")
    assert (part.is_isolated, part.designators, part.note, part.line) == (False, "J1", "greased", 2)
    assert found.faults == []


def test_one_text_for_material_and_finish() -> None:
    part = read("Part|Drawing text", "A|EN AW-6082-T6,  anodized").parts["A"]
    assert (part.text, part.material) == ("EN AW-6082-T6, anodized", "")


def test_a_number_that_stands_twice_is_two_places() -> None:
    found = read("Part|Material", "A|S355", "B|S355", "A|S355", "A|S355")
    assert list(found.parts) == ["A", "B", "A#2", "A#3"]
    assert {part.number for name, part in found.parts.items() if name.startswith("A")} == {"A"}


def test_a_place_that_is_named_like_a_second_one_keeps_its_name() -> None:
    assert list(read("Part|Material", "A#2|S355", "A|S355", "A|S355").parts) == ["A#2", "A", "A#2#2"]


def test_position_and_row_stand_in_for_a_missing_number() -> None:
    found = read("Pos|Description|Material", "7|Plate|S355", "|Bar|S355")
    assert list(found.parts) == ["7", "row 3"]


@pytest.mark.parametrize("row", ["Total||", "|GRAND TOTAL|", "||", "|n/a|-"])
def test_totals_and_empty_rows_are_no_parts(row: str) -> None:
    assert list(read("Part|Description|Material", "A|Plate|S355", row).parts) == ["A"]


def test_cells_that_cannot_be_used_are_told_with_their_place() -> None:
    found = read("Part|Material|Area cm2|Qty|Isolated", "A|S355|large|some|maybe", "B|S355|2 kg|3|no|surplus")
    told = [(fault.line, fault.column) for fault in found.faults]
    assert told == [(2, "Qty"), (2, "Area cm2"), (2, "Isolated"), (3, ""), (3, "Area cm2")]
    assert found.parts["A"].wetted_area_m2 is None
    assert found.parts["B"].quantity == 3


def test_names_of_assemblies_make_parts_without_a_surface() -> None:
    found = read("Assembly|Part|Material", "Mast|A|S355", "Mast, Boom|B|S355")
    assert found.parts["assembly:Mast"].description == "Mast"
    assert not found.parts["assembly:Mast"].names_surface
    assert [part.parent for name, part in found.parts.items() if part.number] == [
        "assembly:Mast",
        "assembly:Mast",
        "assembly:Boom",
    ]
    assert any("names of assemblies" in assumption for assumption in found.assumptions)


def test_a_group_of_fasteners_alone_is_a_category() -> None:
    found = read("Group|Part|Description", "plates|A|Plate", "fasteners|B|Screw M4x10", "fasteners|C|Nut M4")
    assert {part.parent for part in found.parts.values()} == {""}
    assert any("categories" in assumption for assumption in found.assumptions)


def test_a_parent_that_no_row_has_is_told() -> None:
    found = read("Part|Parent|Material", "A||S355", "B|A|S355", "C|Z|S355")
    assert found.parts["B"].parent == "A"
    assert [fault.reason for fault in found.faults] == ["no row has the number 'Z'"]


def test_indentation_is_read_and_cut_off() -> None:
    found = read("Description|Material", "Mast|", "  Tube|S355", "    Cap|S355")
    assert [(part.description, part.parent) for part in found.parts.values()] == [
        ("Mast", ""),
        ("Tube", "row 2"),
        ("Cap", "row 3"),
    ]


def test_numbers_and_positions_in_words_describe_the_part() -> None:
    found = read("Part|Qty", "Gland M16, brass nickel-plated|2", "SK-1112|1")
    assert [part.description for part in found.parts.values()] == ["Gland M16, brass nickel-plated", ""]
    assert read("Item|Qty|Spec", "1 Mast foot|1|S355").parts["1 Mast foot"].description == "1 Mast foot"
    assert read("Spec|Pos|Qty", "Stay wire|3|1").parts["3"].description == "Stay wire"


def test_designators_stand_for_a_number() -> None:
    found = read("Reference|Qty|Value", "C1, C2|2|100n", "J1|1|SMA jack", "J2|1|SMA jack")
    assert list(found.parts) == ["C1, C2", "J1", "J2"]


def test_rows_without_a_part_are_told() -> None:
    found = read("Pos|Name|Qty", "1|Lid|1", "2||4", "Total cost||8", "|Summe|9")
    assert list(found.parts) == ["1"]
    assert found.assumptions[-1] == "rows 3, 4, 5: totals or no part named, passed over"
    many = read("Pos|Name|Qty", "1|Lid|1", *(f"{number}||1" for number in range(2, 25)))
    assert many.assumptions[-1].startswith("rows 3, 4,")
    assert "and 3 more" in many.assumptions[-1]
    assert read("Pos|Name|Qty", "1|Lid|1", "2||4").assumptions[-1].startswith("row 3:")
