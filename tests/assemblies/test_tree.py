from __future__ import annotations

from collections.abc import Sequence

from service.assemblies.tree import (
    BY_INDENT,
    BY_LEVEL,
    BY_NAME,
    BY_PARENT,
    BY_POSITION,
    FLAT,
    Place,
    indent_of,
    parents,
)


def places(**columns: Sequence[str | int]) -> list[Place]:
    rows = zip(*columns.values(), strict=True)
    named = [dict(zip(columns, row, strict=True)) for row in rows]
    return [Place(f"p{number}", f"n{number}", **row) for number, row in enumerate(named)]


def test_a_column_of_parents_decides() -> None:
    found, basis, missing = parents(
        places(parent=["", "n0", "n1", "n9", "n4"], level=["1", "9", "9", "9", "9"])
    )
    assert found == ["", "p0", "p1", "", ""]
    assert basis == BY_PARENT
    assert missing == ["n9"]


def test_a_parent_that_stands_twice_is_the_nearest_above() -> None:
    rows = [
        Place("A", "A"),
        Place("B", "B", parent="A"),
        Place("C", "C", parent="B"),
        Place("B#2", "B", parent="A"),
        Place("D", "D", parent="B"),
        Place("E", "E", parent="F"),
        Place("F", "F", parent="A"),
    ]
    assert parents(rows)[0] == ["", "A", "B", "A", "B#2", "F", "A"]


def test_levels_as_lists_write_them() -> None:
    for levels in (["1", "2", "3", "2"], ["0", ".1", "..2", ".1"], ["1", "1.1", "1.1.1", "1.2"]):
        found, basis, _ = parents(places(level=levels))
        assert found == ["", "p0", "p1", "p0"]
        assert basis == BY_LEVEL


def test_a_row_without_a_level_stands_at_the_top() -> None:
    assert parents(places(level=["1", "", "2"]))[0] == ["", "", "p1"]


def test_dotted_positions() -> None:
    found, basis, _ = parents(places(position=["1", "1.1", "1.1.1", "1.2", "2.1"]))
    assert found == ["", "p0", "p1", "p0", ""]
    assert basis == BY_POSITION


def test_names_of_assemblies() -> None:
    found, basis, _ = parents(places(assembly=["Mast", "Mast", ""]))
    assert found == ["assembly:Mast", "assembly:Mast", ""]
    assert basis == BY_NAME


def test_indentation() -> None:
    found, basis, _ = parents(places(indent=[0, 2, 4, 2]))
    assert found == ["", "p0", "p1", "p0"]
    assert basis == BY_INDENT


def test_without_any_of_these_the_list_is_flat() -> None:
    assert parents(places(position=["1", "2", "3"])) == (["", "", ""], FLAT, [])


def test_indents_are_blanks_and_signs() -> None:
    assert [indent_of(text) for text in ("SK-1", "  SK-1", "\tSK-1", "..SK-1", "└── SK-1")] == [0, 2, 4, 2, 4]
