from __future__ import annotations

import pytest

from service.assemblies import Joint, MalformedTableError, Part, read_assembly
from service.judgement import Function, Geometry

PARTS = [
    "part,name,surface,finish,area_cm2",
    "P1,Mast,EN AW-6082-T6,,120",
    "P2,Screw,A4-80,,",
    "P3,Nut,A2,waxed,2",
]
JOINTS = ["joint,first,second,environment", "J1,P1,P2,marine-atmosphere-0-100-m"]


def test_parts_and_joints_are_read_in_any_order_of_columns() -> None:
    joints = ["environment,second,joint,first,functions,geometry", "e,P2,J1,P1,structural; seal,fastener"]
    assembly = read_assembly(PARTS, joints)
    assert assembly.parts["P1"] == Part("P1", "Mast", "EN AW-6082-T6", area_cm2=120.0)
    expected = Joint(
        "J1", "P1", "P2", "e", functions=(Function.STRUCTURAL, Function.SEAL), geometry=Geometry.FASTENER
    )
    assert assembly.joints == (expected,)


@pytest.mark.parametrize(("text", "value"), [("yes", True), ("No", False), ("1", True)])
def test_truth_is_read_as_people_write_it(text: str, value: bool) -> None:  # noqa: FBT001 - a parameter
    joints = ["joint,first,second,environment,is_isolated", f"J1,P1,P2,e,{text}"]
    assert read_assembly(PARTS, joints).joints[0].is_isolated is value


@pytest.mark.parametrize(
    ("joints", "line", "column", "reason"),
    [
        (["joint,first,second,enviroment", "J1,P1,P2,e"], 1, "enviroment", "did you mean 'environment'"),
        (["joint,first,second", "J1,P1,P2"], 1, "environment", "missing"),
        ([JOINTS[0], "J1,P1,P9,e"], 2, "second", "no part 'P9'"),
        ([JOINTS[0], "J1,P1,,e"], 2, "second", "is empty"),
        ([JOINTS[0], "J1,P1,P2"], 2, "", "fewer cells"),
        ([JOINTS[0], "J1,P1,P2,e,f"], 2, "", "more or fewer cells"),
        ([JOINTS[0] + ",functions", "J1,P1,P2,e,glue"], 2, "functions", "none of structural"),
        ([JOINTS[0] + ",first_area_cm2", "J1,P1,P2,e,-1"], 2, "first_area_cm2", "no positive number"),
        ([JOINTS[0] + ",first_area_cm2", "J1,P1,P2,e,nan"], 2, "first_area_cm2", "no positive number"),
        ([JOINTS[0] + ",is_isolated", "J1,P1,P2,e,maybe"], 2, "is_isolated", "neither yes nor no"),
        ([JOINTS[0], 'J1,P1,"P2'], 2, "", "unexpected end"),
    ],
)
def test_a_fault_is_named_with_its_place(joints: list[str], line: int, column: str, reason: str) -> None:
    with pytest.raises(MalformedTableError, match=reason) as caught:
        read_assembly(PARTS, joints)
    assert (caught.value.table, caught.value.line, caught.value.column) == ("joints", line, column)


def test_a_part_may_stand_once_only() -> None:
    with pytest.raises(MalformedTableError, match="stands already"):
        read_assembly([*PARTS, "P1,Again,A2,,"], JOINTS)
