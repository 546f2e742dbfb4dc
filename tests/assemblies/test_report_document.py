from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from service.assemblies.assembly import Assembly, Fault, Programme
from service.assemblies.joints import Joint
from service.assemblies.outcomes import canonical_sha256
from service.assemblies.parts import Part
from service.assemblies.report import check
from service.assemblies.report_document import place_name
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import Geometry, Inquiry, Side, answer

SEA = "seawater-quiescent"
PARTS = {
    each.id: each
    for each in (
        Part("top", description="Well"),
        Part("hull", "H-1", "Hull", text="S355J2", wetted_area_m2=1.0, parent="top", zone="sea"),
        Part("screen", "H-2", "Screen", text="CuNi10Fe1Mn", wetted_area_m2=0.2, zone="sea"),
        Part("anode", "H-3", "Sacrificial anode", text="Zn sheet EN 988", wetted_area_m2=0.3, zone="sea"),
        Part("riddle", "H-4", text="qqxj wvvk", wetted_area_m2=0.1, zone="sea"),
        Part("open", "H-5", text="Aluminum plate", wetted_area_m2=0.1, zone="sea"),
        Part("core", "H-6", surface=Surface("ferrite")),
    )
}
JOINTS = (
    Joint("1", "hull", "screen", geometry=Geometry.IMMERSED, compound="", name="Screen on hull"),
    Joint("2", "hull", "anode", geometry=Geometry.IMMERSED),
    Joint("3", "hull", "riddle", geometry=Geometry.IMMERSED),
    Joint("4", "hull", "open", geometry=Geometry.IMMERSED),
    Joint("5", "hull", "top"),
)
FAULTS = (Fault("list", 3, "Area", "is no figure"),)
ASSEMBLY = Assembly(PARTS, JOINTS, {"sea": SEA}, "Well", Programme("Gauge", environment=SEA), FAULTS)


@pytest.fixture(scope="module")
def document(catalogue: Catalogue) -> Mapping[str, Any]:
    return check(ASSEMBLY, catalogue).document


def joint(document: Mapping[str, Any], name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(row for row in document["joints"] if row["joint"] == name)
    return found


def part(document: Mapping[str, Any], name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(row for row in document["parts"] if row["part"] == name)
    return found


def test_a_joint_says_what_its_answer_says(document: Mapping[str, Any], catalogue: Catalogue) -> None:
    row = joint(document, "1")
    asked = Inquiry(Side(text="S355J2"), Side(text="CuNi10Fe1Mn"), SEA, 1.0, 0.2, geometry=Geometry.IMMERSED)
    answered = answer([asked], catalogue)[0].document()
    assert row["why"] == answered["summary"]["line"]
    assert row["conditions"] == answered["conditions"]
    assert row["cases"][0]["answer_sha256"] == canonical_sha256(answered)
    assert (row["deciding_case"], row["basis"], row["name"]) == ("as stated", "stated", "Screen on hull")
    assert row["first"] == {
        "part": "hull",
        "number": "H-1",
        "revision": "",
        "effectivity": "",
        "description": "Hull",
    }


def test_a_joint_tells_what_its_network_changes(document: Mapping[str, Any]) -> None:
    ends = joint(document, "2")["in_network"]
    assert ends["first"]["effect"] == "protected"
    assert ends["second"]["effect"] == "attacked"
    assert joint(document, "3")["in_network"]["second"] is None


def test_a_joint_that_was_not_judged_says_why(document: Mapping[str, Any]) -> None:
    row = joint(document, "5")
    assert row["why"] == "Not judged: part 'top' names no surface."
    assert (row["verdict"], row["severity"], row["deciding_case"]) == ("undetermined", "unknown", None)
    assert row["not_judged"][0]["pointer"] == "/second"
    assert row["in_network"] is not None  # the hull has one
    assert set(row) == set(joint(document, "1"))


def test_parts_are_worst_first_with_their_joints(document: Mapping[str, Any]) -> None:
    verdicts = [row["verdict"] for row in document["parts"]]
    order = ["unsuitable", "undetermined", "conditional", "suitable", None]
    assert verdicts == sorted(verdicts, key=order.index)
    hull = part(document, "hull")
    assert hull["joints"] == [row["joint"] for row in document["joints"]]
    assert (hull["zone"], hull["parent"], hull["text"]) == ("sea", "top", "S355J2")
    assert hull["network"]["effect"] == "protected"
    assert part(document, "core")["verdict"] is None
    assert (part(document, "top")["match"], part(document, "top")["text"]) == (None, None)


def test_networks_tell_members_and_who_is_left_out(document: Mapping[str, Any]) -> None:
    (network,) = document["networks"]
    assert network["environment"]["id"] == SEA
    assert network["left_out"] == [{"part": "riddle", "reason": "its surface was not understood"}]
    assert not network["is_complete"]
    assert {each["part"] for each in network["parts"]} == {"hull", "screen", "anode", "open"}


def test_unresolved_texts_come_with_candidates_those_that_decide_first(document: Mapping[str, Any]) -> None:
    texts = {entry["text"]: entry for entry in document["unresolved"]}
    assert texts["qqxj wvvk"]["match"] == "unknown"
    assert texts["qqxj wvvk"]["decides"]
    assert texts["qqxj wvvk"]["candidates"] == []
    assert len(texts["Aluminum plate"]["candidates"]) > 1
    assert texts["Aluminum plate"]["question"]
    decides = [entry["decides"] for entry in document["unresolved"]]
    assert decides == sorted(decides, reverse=True)


def test_what_was_assumed_and_passed_over_is_told(document: Mapping[str, Any]) -> None:
    assert document["assumptions"]["parts_without_surface"] == ["top"]
    assert document["assumptions"]["insulators"] == ["core"]
    assert document["faults"] == [
        {"table": "list", "line": 3, "column": "Area", "reason": "is no figure", "suggestions": []}
    ]
    assert document["programme"] == {
        "name": "Gauge",
        "release": "",
        "design_life_years": None,
        "effective_at": "",
        "environment": SEA,
    }


def test_a_part_that_its_network_attacks_more_comes_before_its_equals(catalogue: Catalogue) -> None:
    parts = {
        each.id: each
        for each in (
            Part("plate", text="EN AW-5083 H116", wetted_area_m2=1.0),
            Part("pin", text="EN AW-5083 H116", wetted_area_m2=0.05),
            Part("tube", text="Cu-DHP", wetted_area_m2=2.0),
        )
    }
    joints = (
        Joint("1", "plate", "pin", geometry=Geometry.IMMERSED),
        Joint("2", "plate", "tube", geometry=Geometry.IMMERSED),
    )
    found = check(
        Assembly(parts, joints, programme=Programme(environment="sodium-chloride-3-5")), catalogue
    ).document
    assert part(found, "pin")["network"]["against_couples"] == "worse"


def test_many_alike_are_counted_and_some_listed(catalogue: Catalogue) -> None:
    many = {f"p{number}": Part(f"p{number}", text="EN AW-6082-T6") for number in range(12)}
    found = check(Assembly(many, (), programme=Programme(environment="clean-room")), catalogue).document
    (row,) = found["joints"]
    assert row["stands_for_pairs"] == 66
    assert len(row["alike"]) == 20
    assert row["is_assumed"]
    assert found["assumptions"]["contacts"] == ["parts under one parent touch in pairs"]


def test_a_place_is_called_by_its_identifier_or_name(catalogue: Catalogue) -> None:
    environment = replace(catalogue.environments[SEA], id="custom", name="Our basin")
    assert place_name(environment) == "Our basin"
    assert place_name(SEA) == SEA
