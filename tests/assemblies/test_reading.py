from __future__ import annotations

import json

import pytest

from service.assemblies.errors import InvalidAssemblyError, UnreadableFileError
from service.assemblies.reading import File, ReadAssembly, read_assembly
from tests.factories.workbooks import workbook
from tests.seed_catalogue import SEED_DATA

PARTS = b"part_number,description,material\nA,Plate,EN AW-6082-T6\nB,Screw M4x10,A4-80\n"
JOINTS = b"joint,first,second,geometry\nJ1,A,B,fastener\n"
DEMO = SEED_DATA / "demo"


def read(*files: bytes) -> ReadAssembly:
    return read_assembly([File(f"file {number}", data) for number, data in enumerate(files, 1)])


def test_two_tables_make_an_assembly() -> None:
    found = read(PARTS, JOINTS)
    assert list(found.assembly.parts) == ["A", "B"]
    assert [joint.id for joint in found.assembly.joints] == ["J1"]
    assert [entry["column"] for entry in found.mapping["file 1"]] == [
        "part_number",
        "description",
        "material",
    ]


def test_the_order_of_the_files_does_not_matter() -> None:
    assert read(JOINTS, PARTS).assembly.joints == read(PARTS, JOINTS).assembly.joints


def test_a_workbook_with_both_sheets() -> None:
    rows = {
        "notes": [["hello", "world"]],
        "list": [line.split(",") for line in PARTS.decode().splitlines()],
        "joints": [line.split(",") for line in JOINTS.decode().splitlines()],
    }
    found = read(workbook(rows))
    assert [joint.id for joint in found.assembly.joints] == ["J1"]
    assert [fault.table for fault in found.assembly.faults] == ["file 1, sheet notes"]


def test_a_json_document_with_zones_and_programme() -> None:
    document = {
        "name": "Mast",
        "zones": {"top": "rural-atmosphere"},
        "programme": {"name": "P1", "release": "2026.1", "design_life_years": 12, "effective_at": "SN 5"},
        "parts": [{"part_number": "A", "material": "S355", "zone": "top"}],
    }
    found = read(json.dumps(document).encode()).assembly
    assert found.name == "Mast"
    assert found.zones == {"top": "rural-atmosphere"}
    assert (found.programme.release, found.programme.design_life_years) == ("2026.1", 12.0)
    assert found.place_of(found.parts["A"]) == "rural-atmosphere"


def test_joints_alone_name_their_surfaces() -> None:
    found = read(b"part a,part b,environment\nA4-80,S355,rural-atmosphere\n").assembly
    assert list(found.parts) == ["A4-80", "S355"]


def test_a_fastener_that_stands_first_is_told() -> None:
    found = read(PARTS, b"joint,first,second,geometry\nJ1,B,A,fastener\n")
    assert any("second side" in assumption for assumption in found.assumptions)


def test_a_part_of_two_tables_is_that_of_the_first() -> None:
    found = read(PARTS, b"part_number,material\nB,S355\nC,S355\n").assembly
    assert found.parts["B"].material == "A4-80"
    assert list(found.parts) == ["A", "B", "C"]
    assert "earlier table" in found.faults[0].reason


@pytest.mark.parametrize(
    ("files", "reason"),
    [
        ((), "no row names a part"),
        ((b"part,material\n",), "no row names a part"),
        ((b"hello\nworld\n",), "no row of headings"),
        ((workbook({"empty": []}),), "holds no table"),
    ],
)
def test_files_without_parts_are_refused(files: tuple[bytes, ...], reason: str) -> None:
    with pytest.raises(UnreadableFileError, match=reason):
        read(*files)


@pytest.mark.parametrize(
    ("member", "pointer"),
    [
        ({"zones": ["a"]}, "/zones"),
        ({"zones": {"a": 1}}, "/zones"),
        ({"programme": "P"}, "/programme"),
        ({"programme": {"relase": "x"}}, "/programme/relase"),
        ({"programme": {"design_life_years": -1}}, "/programme/design_life_years"),
        ({"programme": {"design_life_years": "ten"}}, "/programme/design_life_years"),
    ],
)
def test_zones_and_programme_are_checked(member: dict[str, object], pointer: str) -> None:
    document = {"parts": [{"part_number": "A", "material": "S355"}], **member}
    with pytest.raises(InvalidAssemblyError) as caught:
        read(json.dumps(document).encode())
    assert caught.value.pointer == pointer


def test_the_demonstration_is_read_whole() -> None:
    names = ("harbour-tide-gauge.csv", "harbour-tide-gauge-joints.csv")
    found = read_assembly([File(name, (DEMO / name).read_bytes()) for name in names])
    assert len(found.assembly.parts) == 52
    assert len(found.assembly.joints) == 34
    assert found.assembly.faults == ()
    assert found.assembly.parts["SK-1112"].parent == "SK-1100"
    assert all(entry["column"] for table in found.mapping.values() for entry in table)
