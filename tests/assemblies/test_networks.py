from __future__ import annotations

import itertools

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.joints import Joint
from service.assemblies.judged import judge_joints
from service.assemblies.networks import Against, AssemblyNetwork, networks_of
from service.assemblies.outcomes import Outcomes
from service.assemblies.parts import Part
from service.assemblies.surfaces import Surfaces
from service.catalogue.records import Environment
from service.judgement import DEFAULT_POLICY, Function, Geometry, Severity

SEA = "seawater-quiescent"


def part(name: str, text: str, area_m2: float | None = 0.1, **more: str | float) -> Part:
    return Part(name, text=text, wetted_area_m2=area_m2, **more)  # type: ignore[arg-type]


HULL = part("hull", "S355J2", 1.0)
SCREEN = part("screen", "CuNi10Fe1Mn", 0.2)
ANODE = part("anode", "Zn 99.99 sheet", 0.3, description="Sacrificial anode", quantity=2.0)
BRACKET = part("bracket", "1.4404", 0.5)


def networks(
    surfaces: Surfaces, parts: tuple[Part, ...], *joints: Joint, environment: str | Environment = SEA
) -> tuple[AssemblyNetwork, ...]:
    assembly = Assembly(
        {each.id: each for each in parts}, joints, programme=Programme(environment=environment)
    )
    judged = judge_joints(assembly, Outcomes(surfaces.catalogue, DEFAULT_POLICY))
    return networks_of(assembly, judged, surfaces, DEFAULT_POLICY)


def joint(name: str, first: str, second: str, **more: object) -> Joint:
    return Joint(name, first, second, geometry=Geometry.IMMERSED, **more)  # type: ignore[arg-type]


def test_a_protected_neighbour_is_milder_than_its_couple(surfaces: Surfaces) -> None:
    parts = (HULL, SCREEN, ANODE)
    (found,) = networks(surfaces, parts, joint("1", "hull", "screen"), joint("2", "hull", "anode"))
    hull, screen, anode = found.parts
    assert [each.finding.part for each in found.parts] == ["hull", "screen", "anode"]
    assert hull.couple_severity is Severity.MODERATE
    assert hull.against is Against.MILDER
    assert screen.against is Against.SAME
    assert anode.is_sacrificial
    assert not hull.is_sacrificial
    assert found.assumptions == ()


def test_a_third_metal_that_drives_attack_is_told(surfaces: Surfaces) -> None:
    plate, pin, tube = (
        part("plate", "EN AW-5083 H116", 1.0),
        part("pin", "EN AW-5083 H116", 0.05),
        part("tube", "Cu-DHP", 2.0),
    )
    (found,) = networks(
        surfaces,
        (plate, pin, tube),
        joint("1", "plate", "pin"),
        joint("2", "plate", "tube"),
        environment="sodium-chloride-3-5",
    )
    by_name = {each.finding.part: each for each in found.parts}
    assert by_name["pin"].couple_severity is Severity.NONE
    assert by_name["pin"].against is Against.WORSE


def test_a_net_reaches_parts_without_a_joint(surfaces: Surfaces) -> None:
    parts = (HULL, SCREEN, part("rod", "Cu-ETP", 0.2, net="PE"), part("hullnet", "S355J2", 0.1, net="PE"))
    (found,) = networks(surfaces, parts, joint("1", "hull", "screen"), joint("2", "hull", "hullnet"))
    rod = next(each for each in found.parts if each.finding.part == "rod")
    assert (rod.couple_severity, rod.against) == (None, Against.UNKNOWN)


def test_two_parts_are_a_couple_and_no_network(surfaces: Surfaces) -> None:
    assert networks(surfaces, (HULL, SCREEN), joint("1", "hull", "screen")) == ()


def test_assumed_contacts_make_no_network(surfaces: Surfaces) -> None:
    joints = (joint("1", "hull", "screen", basis="a rule"), joint("2", "hull", "anode", basis="a rule"))
    assert networks(surfaces, (HULL, SCREEN, ANODE), *joints) == ()


def test_each_place_is_a_network_of_its_own(surfaces: Surfaces) -> None:
    dry = [part(f"dry {number}", "S355J2", zone="clean-room") for number in range(3)]
    wet = [part(f"wet {number}", "S355J2", zone=SEA) for number in range(3)]
    parts = (*dry, *wet)
    joints = [
        joint(str(number), one.id, other.id) for number, (one, other) in enumerate(itertools.pairwise(parts))
    ]
    found = networks(surfaces, parts, *joints, environment="")
    assert [each.network.environment.id for each in found] == ["clean-room", SEA]
    assert [each.number for each in found] == [1, 2]
    assert "no continuous electrolyte" in found[0].network.abstains


def test_parts_without_place_surface_or_understanding(surfaces: Surfaces) -> None:
    riddle = part("riddle", "qqxj wvvk")
    nameless = Part("nameless")
    parts = (HULL, SCREEN, BRACKET, riddle, nameless)
    joints = [joint(str(number), "hull", each.id) for number, each in enumerate(parts[1:])]
    (found,) = networks(surfaces, parts, *joints)
    assert [member.part for member in found.network.members] == ["hull", "screen", "bracket"]
    assert found.network.left_out == (("riddle", "its surface was not understood"),)
    assert networks(surfaces, parts, *joints, environment="nowhere") == ()


def test_a_place_described_by_figures_is_solved_too(surfaces: Surfaces) -> None:
    environment = surfaces.catalogue.environments[SEA]
    (found,) = networks(
        surfaces,
        (HULL, SCREEN, ANODE),
        joint("1", "hull", "screen"),
        joint("2", "hull", "anode"),
        environment=environment,
    )
    assert found.network.environment is environment


def test_what_joints_say_holds_for_their_parts(surfaces: Surfaces) -> None:
    parts = (HULL, part("screen", "CuNi10Fe1Mn", None), ANODE)
    (found,) = networks(
        surfaces,
        parts,
        joint(
            "1",
            "hull",
            "screen",
            functions=(Function.SEAL,),
            design_life_years=5.0,
            section_allowance_um=60.0,
        ),
        joint("2", "hull", "anode", functions=(Function.STRUCTURAL,), design_life_years=25.0),
    )
    hull, screen, anode = found.network.members
    assert hull.functions == (Function.SEAL, Function.STRUCTURAL)
    assert (hull.design_life_years, hull.section_allowance_um) == (25.0, 60.0)
    assert (screen.area_m2, screen.design_life_years) == (None, 5.0)
    assert anode.area_m2 == pytest.approx(0.6)
    assert found.assumptions == ("wetted area of screen: 10 to 1000 cm2",)
