from __future__ import annotations

import pytest

from service.assemblies.headed import headed
from service.assemblies.joint_rows import JointRows, read_joints
from service.assemblies.parts import Part
from service.assemblies.tables import RawTable
from service.judgement import Contact, Function, Geometry

PARTS = {
    "A": Part("A", "SK-1", description="Plate", material="S355"),
    "B": Part("B", "SK-2", description="Screw M8", material="A4-80"),
    "B#2": Part("B#2", "SK-2", description="Screw M8", material="A4-80"),
}


def read(*rows: str, parts: dict[str, Part] | None = None) -> JointRows:
    cells = [(number, row.split("|")) for number, row in enumerate(rows, 1)]
    return read_joints(headed(RawTable("joints", iter(cells))), PARTS if parts is None else parts)


def test_a_joint_with_all_its_columns() -> None:
    found = read(
        "joint|first|second|zone|name|functions|geometry|first_area_cm2|second_area_cm2|fastener_radius_mm|current_A|"
        "force_N|life|allowance_um|compound|temperature_C|cycles|isolated",
        "J1|A|B|quay|Clamp|seal; rf|fastener|40|2.5|6|25|200|20|300|jc-zinc|-5|500 x|yes",
    )
    (joint,) = found.joints
    assert (joint.id, joint.first, joint.second, joint.environment, joint.name) == (
        "J1",
        "A",
        "B",
        "quay",
        "Clamp",
    )
    assert (joint.functions, joint.geometry) == ((Function.SEAL, Function.RF), Geometry.FASTENER)
    assert (joint.first_area_m2, joint.second_area_m2, joint.fastener_radius_m) == (0.004, 0.00025, 0.006)
    assert joint.contact == Contact(current_A=25.0, force_N=200.0)
    assert (joint.design_life_years, joint.section_allowance_um, joint.compound) == (20.0, 300.0, "jc-zinc")
    assert (joint.joint_temperature_C, joint.wear_cycles, joint.is_isolated) == (-5.0, 500.0, True)
    assert (joint.line, found.faults) == (2, [])


def test_a_joint_of_two_pipes() -> None:
    found = read("first|second|geometry|Innendurchmesser [mm]", "A|B|Rohr|40", "A|B|pipe|1 in")
    assert [(joint.geometry, joint.bore_m) for joint in found.joints] == [
        (Geometry.PIPE, 0.04),
        (Geometry.PIPE, pytest.approx(0.0254)),
    ]
    assert found.faults == []


def test_parts_are_found_by_identifier_number_and_either_case() -> None:
    found = read("first|second", "A|sk-2", "SK-1|B#2")
    assert [(joint.first, joint.second) for joint in found.joints] == [("A", "B"), ("A", "B#2")]
    assert [joint.id for joint in found.joints] == ["row 2", "row 3"]


def test_the_round_member_is_the_second() -> None:
    found = read("first|second|geometry|first_area_cm2|second_area_cm2", "B|A|bolt|2|40")
    (joint,) = found.joints
    assert (joint.first, joint.second) == ("A", "B")
    assert (joint.first_area_m2, joint.second_area_m2) == (0.004, 0.0002)
    assert "the fastener is taken as the second side" in found.assumptions[0]


def test_unknown_and_missing_ends_are_told() -> None:
    found = read("joint|first|second", "J1|A|SK-3", "J2|A|", "J3|A|B")
    assert [joint.id for joint in found.joints] == ["J3"]
    assert [(fault.line, fault.column) for fault in found.faults] == [(2, "second"), (3, "second")]
    assert found.faults[0].suggestions[0].startswith("SK-")
    assert "did you mean" in found.faults[0].reason
    assert "did you mean" not in read("joint|first|second", "J1|A|zzzzzz").faults[0].reason


def test_without_parts_the_ends_are_drawing_texts() -> None:
    found = read("part a|part b", "EN AW-6082-T6|A4-80", "EN AW-6082-T6|CW024A", parts={})
    assert list(found.parts) == ["EN AW-6082-T6", "A4-80", "CW024A"]
    assert found.parts["A4-80"].text == "A4-80"
    assert len(found.joints) == 2


def test_two_joints_of_one_name_are_told_apart() -> None:
    assert [joint.id for joint in read("joint|first|second", "J|A|B", "J|A|B", "J|A|B").joints] == [
        "J",
        "J'",
        "J''",
    ]


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("functions", "glue"),
        ("geometry", "round"),
        ("first_area_cm2", "-1"),
        ("isolated", "perhaps"),
        ("cycles", "x"),
    ],
)
def test_cells_that_cannot_be_used_are_told_and_passed_over(column: str, cell: str) -> None:
    found = read(f"first|second|{column}", f"A|B|{cell}")
    assert len(found.joints) == 1
    assert [(fault.line, fault.column) for fault in found.faults] == [(2, column)]


def test_surplus_cells_are_told() -> None:
    assert "more cells" in read("first|second", "A|B|c").faults[0].reason
