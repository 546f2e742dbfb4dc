from __future__ import annotations

import pytest

from service.assemblies.columns import (
    JOINTS,
    PARTS,
    Kind,
    count_recognised,
    is_of_commerce,
    plain,
    recognised,
)


def names(*texts: str) -> list[str | None]:
    return [heading.column.name if heading.column else None for heading in recognised(texts, PARTS)]


@pytest.mark.parametrize(
    ("heading", "column", "unit"),
    [
        ("Part #", "part_number", ""),
        ("PartNumber", "part_number", ""),
        ("Teile-Nr.", "part_number", ""),
        ("N° de pièce", "part_number", ""),
        ("Benennung", "description", ""),
        ("Désignation", "description", ""),
        ("WERKSTOFF", "material", ""),
        ("Oberflaeche", "finish", ""),
        ("Traitement de surface", "finish", ""),
        ("Qté", "quantity", ""),
        ("# req in assy", "quantity", ""),
        ("Area (sq in)", "wetted_area", "in2"),
        ("Wetted area mm^2", "wetted_area", "mm2"),
        ("Fläche [cm²]", "wetted_area", "cm2"),
        ("area_in2", "wetted_area", "in2"),
        ("Area in dm2", "wetted_area", "dm2"),
        ("wetted_area_cm2", "wetted_area", "cm2"),
        ("Area", "wetted_area", "cm2"),
        ("Schichtdicke (µm)", "thickness", "um"),
    ],
)
def test_headings_of_three_languages_with_their_units(heading: str, column: str, unit: str) -> None:
    (found,) = recognised([heading], PARTS)
    assert found.column is PARTS[column]
    assert found.unit == unit
    assert not found.is_guessed


def test_a_misspelt_heading_counts_and_says_so() -> None:
    (found,) = recognised(["Materail"], PARTS)
    assert found.column is PARTS["material"]
    assert found.is_guessed


@pytest.mark.parametrize("heading", ["Price each", "Weight (kg)", "Area (kg)", "Mta", "x" * 500, "Supplier"])
def test_a_foreign_heading_is_passed_over(heading: str) -> None:
    (found,) = recognised([heading], PARTS)
    assert found.column is None
    assert found.reason


def test_an_exact_heading_goes_before_a_guess_and_the_first_before_a_second() -> None:
    found = recognised(["Materail", "Material", "Werkstoff"], PARTS)
    assert [heading.column.name if heading.column else None for heading in found] == [None, "material", None]
    assert found[2].reason == "material is read from 'Material'"
    assert found[2].also == "material"


def test_empty_headings_are_no_columns() -> None:
    assert names("Part", "", "Material") == ["part_number", "material"]


def test_a_row_of_headings_is_told_by_what_it_names() -> None:
    assert count_recognised(["Pos", "Menge", "Benennung", "y" * 300], PARTS) == 3
    assert count_recognised(["Bracket", "S355", "12"], PARTS) == 0


def test_both_sides_of_a_joint_are_read() -> None:
    found = recognised(["joint", "part_a", "part_b", "area_a_cm2", "current_mA", "life (months)"], JOINTS)
    assert [heading.column.name for heading in found if heading.column] == [
        "joint",
        "first",
        "second",
        "first_area",
        "current",
        "design_life",
    ]
    assert [heading.unit for heading in found[3:]] == ["cm2", "ma", "months"]


def test_a_column_shows_its_usual_unit() -> None:
    assert PARTS["wetted_area"].heading == "wetted_area_cm2"
    assert PARTS["material"].heading == "material"
    assert PARTS["wetted_area"].kind is Kind.FIGURE


def test_plain_headings() -> None:
    assert plain("Ref-Des. №") == "ref des number"
    assert plain("Größe") == "grosse"


@pytest.mark.parametrize(
    ("heading", "column"),
    [
        ("Qty (used)", "quantity"),
        ("bom_quantity", "quantity"),
        ("Qty/Leg", "quantity"),
        ("Material Name", "material"),
        ("Matière / Classe", "material"),
        ("Réf. Pièce", "part_number"),
        ("description_en", "description"),
        ("Descripción", "description"),
        ("Cant.", "quantity"),
        ("Descrizione", "description"),
        ("Materiaal", "material"),
        ("Aantal", "quantity"),
    ],
)
def test_headings_of_several_words_and_other_languages(heading: str, column: str) -> None:
    assert [each.column.name for each in recognised([heading], PARTS) if each.column] == [column]


@pytest.mark.parametrize(
    "heading", ["Material cost", "Qty price", "Description of the supplier", "File name"]
)
def test_prices_and_suppliers_are_none_of_them(heading: str) -> None:
    assert [each.column for each in recognised([heading], PARTS)] == [None]


def test_headings_of_commerce() -> None:
    assert is_of_commerce("Preferred source")
    assert not is_of_commerce("Werkstoff")
