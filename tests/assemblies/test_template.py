from __future__ import annotations

import pytest

from service.assemblies.columns import JOINTS, PARTS
from service.assemblies.reading import File, read_assembly
from service.assemblies.report import check
from service.assemblies.template import TABLES, columns_document, rows, template, template_workbook
from service.catalogue.catalogue import Catalogue


def test_the_templates_are_read_back_without_a_fault(catalogue: Catalogue) -> None:
    found = read_assembly([File(table, template(table)) for table in TABLES])
    assert found.assembly.faults == ()
    assert len(found.assembly.parts) == 2
    report = check(found.assembly, catalogue)
    assert report.totals["joints"] == 1
    assert all(
        entry["column"] and not entry["is_guessed"] for table in found.mapping.values() for entry in table
    )


@pytest.mark.parametrize("table", list(TABLES))
def test_a_template_has_headings_and_an_example(table: str) -> None:
    headings, *examples = rows(table)
    assert len(set(headings)) == len(headings)
    assert examples
    assert all(len(example) == len(headings) for example in examples)
    assert template(table).startswith(b"\xef\xbb\xbf")


def test_every_column_is_described() -> None:
    document = columns_document()
    assert [entry["heading"] for entry in document["parts"]] == [column.heading for column in PARTS.values()]
    assert len(document["joints"]) == len(JOINTS)
    area = next(entry for entry in document["parts"] if entry["heading"] == "wetted_area_cm2")
    assert area["unit"] == "cm2"
    assert "in2" in area["other_units"]
    assert "cm2" not in area["other_units"]
    assert all(entry["meaning"] and entry["other_headings"] for table in document.values() for entry in table)


def test_the_workbook_holds_both_tables_and_can_be_sent_back() -> None:
    found = read_assembly([File("template.xlsx", template_workbook())])
    assert [joint.id for joint in found.assembly.joints] == ["J02"]
    assert set(found.assembly.parts) == {"SK-1111", "SK-1112"}
