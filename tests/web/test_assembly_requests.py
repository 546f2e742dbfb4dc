from __future__ import annotations

import base64
from typing import Any

import pytest
from pydantic import ValidationError

from service.assemblies.errors import InvalidAssemblyError, MalformedTableError, ReleaseMismatchError
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement import Contact, Function, Geometry, InvalidInquiryError, Severity
from service.web.assembly_requests import (
    Asked,
    assembly_of,
    pointing,
    policy_of,
    release_label,
    substitutes_of,
    waivers_in,
)
from service.web.errors import Fault, InconsistentRequestError, InvalidRequestError, UnreadableFileError
from service.web.schemas.assemblies import AssemblyRequest, CheckQuery, SubstitutionRequest
from tests.seed_catalogue import seed_catalogue

PARTS: list[dict[str, Any]] = [
    {"part_number": "A", "surface": "S355"},
    {"part_number": "B", "surface": {"material_id": "ss-316"}},
]
TABLE = base64.b64encode(b"part,material\nA,S355\nB,A4-80\n").decode()


def asked(query: CheckQuery | None = None, **members: Any) -> Asked:
    way = {} if "files" in members else {"parts": PARTS}
    request = AssemblyRequest.model_validate({**way, **members})
    return assembly_of(request, query or CheckQuery(), seed_catalogue())


def fault(error: InvalidRequestError) -> Fault:
    (found,) = error.faults
    return found


def test_a_part_in_all_its_fields() -> None:
    part = {
        "part_number": "A",
        "id": "left",
        "description": "Plate",
        "revision": "B",
        "effectivity": "SN 1-9",
        "parent": "top",
        "quantity": 2,
        "surface": {"material": "S355", "finish": "zinc", "thickness_um": 8.0},
        "wetted_area_cm2": 15.0,
        "net": "PE",
        "is_isolated": True,
        "zone": "deck",
        "note": "greased",
    }
    found = asked(parts=[part]).assembly.parts["left"]
    assert (found.number, found.description, found.revision, found.effectivity) == (
        "A",
        "Plate",
        "B",
        "SN 1-9",
    )
    assert (found.material, found.finish, found.thickness_um) == ("S355", "zinc", 8.0)
    assert (found.quantity, found.wetted_area_m2, found.net) == (2.0, 15.0 / 1e4, "PE")
    assert (found.is_isolated, found.zone, found.note, found.parent) == (True, "deck", "greased", "top")


def test_a_joint_in_all_its_fields() -> None:
    joint = {
        "id": "J",
        "first": "A",
        "second": "B",
        "name": "Clamp",
        "zone": "deck",
        "functions": ["seal"],
        "geometry": "fastener",
        "first_area_cm2": 40.0,
        "second_area_cm2": 2.5,
        "fastener_radius_mm": 6.0,
        "contact": {"current_A": 25.0},
        "design_life_years": 20.0,
        "section_allowance_um": 300.0,
        "compound": "jc-zinc",
        "joint_temperature_C": -5.0,
        "wear_cycles": 10.0,
        "is_isolated": True,
    }
    (found,) = asked(joints=[joint]).assembly.joints
    assert (found.functions, found.geometry, found.zone) == ((Function.SEAL,), Geometry.FASTENER, "deck")
    assert (found.first_area_m2, found.second_area_m2, found.fastener_radius_m) == (0.004, 0.00025, 0.006)
    assert found.contact == Contact(current_A=25.0)
    assert (found.design_life_years, found.section_allowance_um, found.compound) == (20.0, 300.0, "jc-zinc")
    assert (found.joint_temperature_C, found.wear_cycles, found.is_isolated) == (-5.0, 10.0, True)


def test_a_joint_of_two_pipes() -> None:
    joint = {"id": "J", "first": "A", "second": "B", "geometry": "pipe", "bore_mm": 22.0}
    assert asked(joints=[joint]).assembly.joints[0].bore_m == 0.022


def test_a_structure_and_no_surface_at_all() -> None:
    found = asked(parts=[*PARTS, {"part_number": "top"}]).assembly.parts
    assert found["B"].surface == Surface("ss-316")
    assert not found["top"].names_surface


def test_a_part_that_stands_twice_is_pointed_at() -> None:
    with pytest.raises(InconsistentRequestError) as caught:
        asked(parts=[*PARTS, PARTS[0]])
    assert fault(caught.value).pointer == "/parts/2"


@pytest.mark.parametrize(
    "members",
    [{}, {"parts": PARTS, "files": [{"name": "a", "content": TABLE}]}, {"parts": []}],
    ids=["neither", "both", "none"],
)
def test_an_assembly_comes_in_one_way(members: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        AssemblyRequest.model_validate(members)


def test_files_are_read_with_what_was_assumed() -> None:
    found = asked(files=[{"name": "a.csv", "content": TABLE[:8] + "\n" + TABLE[8:]}], name="Mast")
    assert list(found.assembly.parts) == ["A", "B"]
    assert found.assembly.name == "Mast"
    assert found.read is not None
    assert found.read.assumptions


@pytest.mark.parametrize(
    ("content", "pointer", "code"),
    [
        ("AAA", "/files/0/content", "encoding"),
        (base64.b64encode(b"junk").decode(), "/files", "unreadable"),
        (base64.b64encode(b"part,x" + b",y" * 3000).decode(), "/files", "too_large"),
    ],
)
def test_files_that_cannot_be_read_are_pointed_at(content: str, pointer: str, code: str) -> None:
    with pytest.raises(UnreadableFileError) as caught:
        asked(files=[{"name": "a.csv", "content": content}])
    assert (fault(caught.value).pointer, fault(caught.value).code) == (pointer, code)


def test_files_with_too_many_joints_are_refused() -> None:
    rows = "".join(f"A,B{number}\n" for number in range(10_001))
    content = base64.b64encode(f"part a,part b\n{rows}".encode()).decode()
    with pytest.raises(InconsistentRequestError, match="more than 10000 joints"):
        asked(files=[{"name": "a.csv", "content": content}])


def test_joints_of_the_body_stand_beside_those_of_files() -> None:
    joint = {"id": "J", "first": "A", "second": "B"}
    found = asked(files=[{"name": "a.csv", "content": TABLE}], joints=[joint])
    assert [joint.id for joint in found.assembly.joints] == ["J"]


def test_zones_and_programme_are_places() -> None:
    found = asked(
        zones={"deck": "harbour-quay-spray", "well": {"id": "seawater-quiescent", "temperature_C": 5.0}},
        programme={
            "name": "P",
            "environment": "clean-room",
            "design_life_years": 7.0,
            "effective_at": "SN 5",
        },
    ).assembly
    assert found.zones["deck"] == "harbour-quay-spray"
    assert isinstance(found.zones["well"], Environment)
    assert (found.programme.name, found.programme.environment) == ("P", "clean-room")
    assert (found.programme.design_life_years, found.programme.effective_at) == (7.0, "SN 5")


@pytest.mark.parametrize(
    ("members", "pointer"),
    [
        ({"zones": {"a/b": {"id": "nowhere", "pH": 7.0}}}, "/zones/a~1b/id"),
        ({"programme": {"environment": {"id": "nowhere", "pH": 7.0}}}, "/programme/environment/id"),
    ],
)
def test_places_that_do_not_exist_are_pointed_at(members: dict[str, Any], pointer: str) -> None:
    with pytest.raises(InvalidInquiryError) as caught:
        asked(**members)
    assert caught.value.pointer == pointer


def test_the_body_goes_before_the_query_and_files_between() -> None:
    query = CheckQuery(environment="rural-atmosphere", design_life_years=3.0)
    assert asked(query).assembly.programme.environment == "rural-atmosphere"
    assert asked(query).assembly.programme.design_life_years == 3.0
    stated = asked(
        query, programme={"environment": "clean-room", "design_life_years": 9.0}
    ).assembly.programme
    assert (stated.environment, stated.design_life_years) == ("clean-room", 9.0)


@pytest.mark.parametrize(
    ("members", "query", "label"),
    [
        ({}, CheckQuery(), None),
        ({}, CheckQuery(as_of="q"), "q"),
        ({"as_of": "b"}, CheckQuery(as_of="q"), "b"),
        ({"programme": {"release": "p"}}, CheckQuery(), "p"),
        ({"programme": {"release": "p"}, "as_of": "p"}, CheckQuery(), "p"),
    ],
)
def test_which_release_is_asked(members: dict[str, Any], query: CheckQuery, label: str | None) -> None:
    assert release_label(AssemblyRequest.model_validate({"parts": PARTS, **members}), query) == label


def test_a_pinned_programme_is_asked_by_no_other_release() -> None:
    request = AssemblyRequest.model_validate({"parts": PARTS, "programme": {"release": "p"}, "as_of": "b"})
    with pytest.raises(InconsistentRequestError) as caught:
        release_label(request, CheckQuery())
    assert fault(caught.value).pointer == "/programme/release"


def test_policies_and_waivers_are_those_of_the_house() -> None:
    request = AssemblyRequest.model_validate(
        {
            "parts": PARTS,
            "policy": {
                "name": "Port",
                "bands": {"severity_bounds": [0.1, 0.4, 1.0]},
                "limits": [{"id": "L", "statement": "Good.", "largest_severity": "slight"}],
            },
            "waivers": [
                {
                    "id": "W",
                    "subject": "J",
                    "reason": "r",
                    "approver": "a",
                    "role": "chief",
                    "granted_on": "2026-01-01",
                    "expires_on": "2026-12-31",
                }
            ],
        }
    )
    house = policy_of(request)
    assert house.bands.severity_bounds == (0.1, 0.4, 1.0)
    assert house.limits[0].largest_severity is Severity.SLIGHT
    assert waivers_in(request)[0].expires_on.isoformat() == "2026-12-31"
    assert policy_of(AssemblyRequest.model_validate({"parts": PARTS})) is DEFAULT_HOUSE_POLICY


def test_a_policy_that_contradicts_itself_is_pointed_at() -> None:
    rule = {"id": "L", "statement": "Good."}
    request = AssemblyRequest.model_validate(
        {"parts": PARTS, "policy": {"name": "P", "limits": [rule, rule]}}
    )
    with pytest.raises(InconsistentRequestError) as caught:
        policy_of(request)
    assert fault(caught.value).pointer == "/policy/limits/1/id"


def test_substitutes_by_text_or_in_full() -> None:
    request = SubstitutionRequest.model_validate(
        {
            "parts": PARTS,
            "part": "B",
            "substitutes": [
                "A4-80",
                {"ref": "x", "part_number": "N", "surface": "S355", "wetted_area_cm2": 2.0},
            ],
        }
    )
    first, second = substitutes_of(request)
    assert (first.ref, first.part.text) == ("A4-80", "A4-80")
    assert (second.part.number, second.part.wetted_area_m2) == ("N", 2.0 / 1e4)


@pytest.mark.parametrize(
    ("error", "pointer", "code", "suggestions"),
    [
        (InvalidAssemblyError("/joints/1/first", "no", ("A",)), "/x/joints/1/first", "inconsistent", ("A",)),
        (ReleaseMismatchError("P", "a", "b"), "/programme/release", "pinned", ()),
        (MalformedTableError("t", 3, "c", "r", ("s",)), "/files", "unreadable", ("s",)),
    ],
)
def test_what_the_room_refuses_is_a_fault_of_the_request(
    error: Exception, pointer: str, code: str, suggestions: tuple[str, ...]
) -> None:
    with pytest.raises(InvalidRequestError) as caught, pointing("/x"):
        raise error
    found = fault(caught.value)
    assert (found.pointer, found.code, found.suggestions) == (pointer, code, suggestions)
