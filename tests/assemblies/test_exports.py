from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from typing import Any

import openpyxl
import pytest

from service.assemblies.assembly import Assembly, Fault, Programme
from service.assemblies.exports import JOINT_COLUMNS, as_csv, as_xlsx, harmless
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.assemblies.report import check
from service.catalogue.catalogue import Catalogue
from service.judgement import Geometry

EVIL = '=HYPERLINK("http://evil.example";"click")'
PARTS = {
    each.id: each
    for each in (
        Part(
            "hull",
            EVIL,
            "@SUM(1+1)*cmd|' /C calc'!A0",
            text="S355J2",
            wetted_area_m2=1.0,
            zone="seawater-quiescent",
        ),
        Part("screen", "+S\x07", text="CuNi10Fe1Mn", wetted_area_m2=0.2, zone="seawater-quiescent"),
        Part("anode", "-A", "anode", text="Zn sheet EN 988", wetted_area_m2=0.3, zone="seawater-quiescent"),
        Part("riddle", "\tR", text="=qqxj wvvk", wetted_area_m2=0.1),
        Part("board"),
    )
}
JOINTS = (
    Joint("=1+1", "hull", "screen", name="-2+3", geometry=Geometry.IMMERSED),
    Joint("2", "hull", "anode", geometry=Geometry.IMMERSED),
    Joint("3", "hull", "riddle", environment="clean-room"),
    Joint("4", "hull", "board"),
    Joint("5", "riddle", "screen", environment="marine-atmosphere-0-100-m"),
)
ASSEMBLY = Assembly(
    PARTS, JOINTS, name="=cmd", programme=Programme(), faults=(Fault("list", 3, "=Area", "is no figure"),)
)


@pytest.fixture(scope="module")
def document(catalogue: Catalogue) -> Mapping[str, Any]:
    return check(ASSEMBLY, catalogue).document


@pytest.mark.parametrize(
    "text", ["=1", "+1", "-1", "@x", "\t=1", " =1", "\ufeff=1", "\uff1d1", "\uff0d1", "|calc", "%0A", "\n=1"]
)
def test_text_that_would_run_is_made_harmless(text: str) -> None:
    assert harmless(text) == "'" + text


@pytest.mark.parametrize("cell", ["A4-80", "", "EN AW-6082", -5.0, 3, True, None, "'=1"])
def test_other_cells_stay_as_they_are(cell: Any) -> None:
    assert harmless(cell) == cell


def test_csv_holds_the_joints_worst_first_and_no_formula(document: Mapping[str, Any]) -> None:
    data = as_csv(document)
    assert data.startswith(b"\xef\xbb\xbf")
    rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))
    assert [row["joint"].lstrip("'") for row in rows] == [row["joint"] for row in document["joints"]]
    assert tuple(rows[0]) == JOINT_COLUMNS
    for row in rows:
        for text in row.values():
            assert not text or text[0] not in "=+@\t" or text.replace(".", "").isdigit()
            assert not text.startswith("-") or float(text) < 0
    assert rows[0]["first"] == "'" + EVIL
    assert any("protected" in row["network"] for row in rows)


def test_workbooks_hold_text_as_text(document: Mapping[str, Any]) -> None:
    book = openpyxl.load_workbook(io.BytesIO(as_xlsx(document)))
    assert book.sheetnames == ["joints", "parts", "unresolved", "faults", "report"]
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type != "f", (sheet.title, cell.coordinate)
    assert book["faults"]["C2"].value == "'=Area"
    assert "\ufffd" in str([cell.value for row in book["joints"].iter_rows() for cell in row])
    assert book["joints"].max_row == 1 + len(JOINTS)
    assert book["parts"].max_row == 1 + len(PARTS)
    assert book["unresolved"]["A2"].value == "'=qqxj wvvk"
    assert ("sha256", document["sha256"]) in list(book["report"].iter_rows(values_only=True))


def test_assumptions_stand_in_the_workbook(catalogue: Catalogue) -> None:
    parts = {name: Part(name, text="S355J2") for name in "AB"}
    report = check(Assembly(parts, (), programme=Programme(environment="clean-room")), catalogue)
    rows = list(
        openpyxl.load_workbook(io.BytesIO(as_xlsx(report.document)))["report"].iter_rows(values_only=True)
    )
    assert ("assumed", "parts under one parent touch in pairs") in rows
