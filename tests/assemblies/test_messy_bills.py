"""Invented bills of materials with the mess of real ones, and what has to be read from them."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.assemblies.reading import File, ReadAssembly, read_assembly
from service.assemblies.surfaces import Surfaces

DATA = Path(__file__).parent / "data"

ENCODED = ("utf-8", "utf-8-sig", "utf-16", "utf-16-le")


def read(name: str, encoding: str = "utf-8") -> ReadAssembly:
    text = (DATA / name).read_text(encoding="utf-8")
    return read_assembly([File(name, text.encode(encoding))])


def surfaces_of(found: ReadAssembly, surfaces: Surfaces) -> dict[str, str]:
    """Name of the likeliest surface of each part by its line: empty for none, ``-`` for an insulator."""
    named = {}
    for part in found.assembly.parts.values():
        part_named = surfaces.named(part)
        surface = surfaces.surface(part_named)
        finish = surface.layers[0].finish_id if surface and surface.layers else ""
        name = f"{surface.material_id} {finish}".strip() if surface else ""
        named[part.number or part.id] = "-" if surfaces.is_insulator(part_named) else name
    return named


BILLS = {
    "exported_with_titles.csv": {
        "SK-1000": "steel-s235",
        "SK-1100": "ss-316l",
        "SK-1101": "ss-316",
    },
    "names_in_item.csv": {
        "1 Mast foot": "steel-s275 zn-hdg",
        "2 Cross tube": "al-6082-t6",
        "3 Coach screw M8 x 100": "None zn-hdg",
        "4 Guide": "",
        "5 Cable gland": "brass-cuzn37 ni-electro",
    },
    "material_under_footprint.csv": {
        "assembly:Housing": "",
        "A1": "al-6082-t6",
        "A2": "ss-304",
        "A3": "brass-cuzn37 ni-electro",
        "A4": "-",
        "SK-5001": "-",
    },
    "lista_es.csv": {
        "1.1": "ss-304",
        "1.2": "brass-cuzn37",
        "1.3": "al-6082-t6 anod-ii-clear",
        "1.4": "brass-cuzn37 cr-decorative",
        "1.5": "",
    },
    "nomenclature_fr.csv": {
        "VIS-01": "steel-12-9 black-oxide-steel",
        "VIS-02": "ss-304",
        "MOY-01": "al-7075-t6",
        "COQ-01": "",
    },
    "markdown.csv": {"row 5": "ss-316", "row 6": "brass-cuzn37", "row 12": "brass-cuzn37"},
}


@pytest.mark.parametrize("name", BILLS)
def test_what_a_messy_bill_names(name: str, surfaces: Surfaces) -> None:
    assert surfaces_of(read(name), surfaces) == BILLS[name]


@pytest.mark.parametrize("name", BILLS)
def test_encodings_and_line_ends_change_nothing(name: str) -> None:
    text = (DATA / name).read_text(encoding="utf-8")
    plain = read(name).assembly.parts
    for encoding in ENCODED:
        assert read(name, encoding).assembly.parts == plain
    for line_end in ("\r\n", "\r"):
        assert read_assembly([File(name, text.replace("\n", line_end).encode())]).assembly.parts == plain


@pytest.mark.parametrize("name", ["names_in_item.csv", "lista_es.csv", "material_under_footprint.csv"])
def test_headings_that_come_again_are_no_parts(name: str) -> None:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    again = "\n".join([*lines[:3], lines[0], *lines[3:]])
    found = read_assembly([File(name, again.encode())]).assembly
    assert list(found.parts) == list(read(name).assembly.parts)


def test_what_cannot_be_used_is_told() -> None:
    found = read("names_in_item.csv")
    assert [fault.reason for fault in found.assembly.faults] == ["'as needed' is no count"]
    assert any("row 7: totals" in assumption for assumption in found.assumptions)
    headings = {entry["heading"]: entry for entry in found.mapping["names_in_item.csv"]}
    assert headings["supplier"]["reason"] == "not a column that is read"


def test_columns_told_by_their_cells_say_so() -> None:
    mapping = read("material_under_footprint.csv").mapping["material_under_footprint.csv"]
    footprint = next(entry for entry in mapping if entry["heading"] == "footprint")
    assert (footprint["column"], footprint["is_guessed"], footprint["reason"]) == (
        "material",
        True,
        "told by its cells",
    )


def test_the_tree_of_levels_is_kept() -> None:
    parts = read("exported_with_titles.csv").assembly.parts
    assert [part.parent for part in parts.values()] == ["", "SK-1000", "SK-1100"]
