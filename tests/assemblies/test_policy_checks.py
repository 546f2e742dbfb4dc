from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.house_policy import Ban, HousePolicy, Limit, Requirement, Scope
from service.assemblies.joints import Joint
from service.assemblies.judged import judge_joints
from service.assemblies.outcomes import Outcomes
from service.assemblies.parts import Part
from service.assemblies.policy_checks import (
    OVERLAY_BAN,
    Violation,
    joint_violations,
    part_violations,
    preferred,
)
from service.assemblies.surfaces import Surfaces
from service.catalogue.surfaces import Layer, Surface
from service.judgement import DEFAULT_POLICY, Function, Severity, Verdict

PLACE = "marine-atmosphere-0-100-m"
PLATE = Part("plate", text="EN AW-6082-T6", wetted_area_m2=0.1)
BAR = Part("bar", text="CW024A", wetted_area_m2=0.1)
RIDDLE = Part("riddle", text="qqxj wvvk", wetted_area_m2=0.1)


def violations(
    surfaces: Surfaces, house: HousePolicy, second: Part = BAR, **joint: Any
) -> tuple[Violation, ...]:
    parts = {PLATE.id: PLATE, second.id: second}
    assembly = Assembly(
        parts, (Joint("J", "plate", second.id, **joint),), programme=Programme(environment=PLACE)
    )
    (item,) = judge_joints(assembly, Outcomes(surfaces.catalogue, DEFAULT_POLICY))
    return joint_violations(item, assembly, surfaces, house)


def limited(**more: Any) -> HousePolicy:
    return HousePolicy(limits=(Limit("L", "Stay good.", **more),))


def test_a_verdict_that_is_not_accepted_breaks_the_limit(surfaces: Surfaces) -> None:
    (found,) = violations(surfaces, limited(waivable_by=("chief",)))
    assert (found.rule, found.kind, found.detail) == ("L", "limit", "the verdict is unsuitable")
    assert found.waivable_by == ("chief",)
    assert violations(surfaces, limited(accepted_verdicts=tuple(Verdict))) == ()


@pytest.mark.parametrize(
    ("limits", "detail"),
    [
        ({"largest_severity": Severity.SLIGHT}, "the severity is severe, not at most slight"),
        ({"largest_loss_um": 1.0}, "the loss may reach"),
        ({"accepted_confidences": ("certain",)}, "the confidence is"),
        ({"accepts_assumed_contacts": False}, "the contact is assumed"),
    ],
)
def test_each_limit_is_told(surfaces: Surfaces, limits: dict[str, Any], detail: str) -> None:
    house = limited(accepted_verdicts=tuple(Verdict), **limits)
    found = violations(surfaces, house, basis="a rule")
    assert len(found) == 1
    assert detail in found[0].detail


def test_what_stays_within_its_limits_breaks_none(surfaces: Surfaces) -> None:
    house = limited(
        accepted_verdicts=tuple(Verdict),
        largest_severity=Severity.SEVERE,
        largest_loss_um=1e9,
        accepted_confidences=("high", "medium", "low"),
    )
    assert violations(surfaces, house) == ()
    assert violations(surfaces, house, RIDDLE) == ()


@pytest.mark.parametrize(
    ("scope", "applies"),
    [
        (Scope(), True),
        (Scope(functions=(Function.STRUCTURAL, Function.RF)), True),
        (Scope(functions=(Function.RF,)), False),
        (Scope(families=("copper",)), True),
        (Scope(families=("copper", "zinc")), False),
        (Scope(verdicts=(Verdict.UNSUITABLE,)), True),
        (Scope(verdicts=(Verdict.SUITABLE,)), False),
        (Scope(severities=(Severity.SEVERE,)), True),
        (Scope(severities=(Severity.NONE,)), False),
        (Scope(environments=(PLACE, "x")), True),
        (Scope(environments=("x",)), False),
        (Scope(environment_tags=("sea_salt",), exposures=("atmosphere",)), True),
        (Scope(environment_tags=("sea_salt",), exposures=("immersed",)), False),
    ],
)
def test_a_rule_applies_in_its_scope(surfaces: Surfaces, scope: Scope, applies: bool) -> None:  # noqa: FBT001
    assert bool(violations(surfaces, limited(scope=scope))) is applies


def test_a_requirement_is_met_by_compound_or_isolation(surfaces: Surfaces) -> None:
    compound = next(iter(surfaces.catalogue.compounds))
    house = HousePolicy(
        requirements=(Requirement("R", "Paste.", compounds=(compound,), accepts_isolation=True),)
    )
    (found,) = violations(surfaces, house)
    assert found.detail == f"asks for {compound}, the joint has no compound"
    assert violations(surfaces, house, compound=compound) == ()
    assert violations(surfaces, house, is_isolated=True) == ()
    strict = HousePolicy(requirements=(Requirement("R", "Isolate."),))
    assert violations(surfaces, strict, is_isolated=True)[0].detail.startswith("asks for isolation")


def banned(surfaces: Surfaces, part: Part, *bans: Ban) -> list[tuple[str, str]]:
    assembly = Assembly({part.id: part}, (), programme=Programme(environment=PLACE))
    found = part_violations(part, assembly, surfaces, HousePolicy(bans=bans))
    return [(violation.rule, violation.detail) for violation in found]


COATED = Part("p", surface=Surface("steel-8-8", (Layer("cd-chromate", 8.0),)))


@pytest.mark.parametrize(
    ("ban", "detail"),
    [
        (Ban("B", "No.", finishes=("cd-chromate",)), "cd-chromate"),
        (Ban("B", "No.", substances=("Cd", "Pb")), "Cd in cd-chromate"),
        (Ban("B", "No.", materials=("steel-8-8",)), "steel-8-8"),
        (Ban("B", "No.", families=("cadmium", "zinc")), "cadmium"),
        (Ban("B", "No.", finishes=("cd-chromate",), environments=(PLACE,)), "cd-chromate"),
    ],
)
def test_a_ban_names_what_it_bans(surfaces: Surfaces, ban: Ban, detail: str) -> None:
    finish = next(finish.id for finish in surfaces.catalogue.finishes.values() if "Cd" in finish.substances)
    part = Part("p", surface=Surface("steel-8-8", (Layer(finish, 8.0),)))
    adapted = replace(ban, finishes=(finish,) if ban.finishes else ())
    assert banned(surfaces, part, adapted)[0][0] == "B"
    assert detail.replace("cd-chromate", finish) in banned(surfaces, part, adapted)[0][1]


def test_a_ban_of_other_things_or_places_bans_nothing(surfaces: Surfaces) -> None:
    assert banned(surfaces, PLATE, Ban("B", "No.", finishes=("x",), families=("zinc",))) == []
    assert banned(surfaces, PLATE, Ban("B", "No.", families=("aluminium",), environments=("x",))) == []
    assert banned(surfaces, RIDDLE, Ban("B", "No.", families=("aluminium",))) == []


def test_the_overlay_bans_as_well(surfaces: Surfaces) -> None:
    overlaid = Surfaces(replace(surfaces.catalogue, bans=MappingProxyType({"zn-hdg": "spangles"})))
    part = Part("p", surface=Surface("steel-s355", (Layer("zn-hdg"),)))
    assert banned(overlaid, part) == [(OVERLAY_BAN, "zn-hdg")]


def test_a_place_described_by_figures_is_known_by_its_identifier(surfaces: Surfaces) -> None:
    environment = replace(surfaces.catalogue.environments[PLACE], id="custom")
    assembly = Assembly({"plate": PLATE}, (), programme=Programme(environment=environment))
    house = HousePolicy(
        bans=(Ban("B", "No.", families=("wrought aluminium", "aluminium"), environments=("custom",)),)
    )
    assert part_violations(PLATE, assembly, surfaces, house)


def test_preferred_finishes(surfaces: Surfaces) -> None:
    house = HousePolicy(preferred_finishes=("zn-hdg",))
    good = Part("p", surface=Surface("steel-s355", (Layer("zn-hdg"),)))
    other = Part("p", surface=Surface("steel-s355", (Layer("zn-passivated-clear"),)))
    assert preferred(good, surfaces, house) is True
    assert preferred(other, surfaces, house) is False
    assert preferred(PLATE, surfaces, house) is None
    assert preferred(RIDDLE, surfaces, house) is None
    assert preferred(good, surfaces, HousePolicy()) is None


@pytest.mark.parametrize(
    ("surface", "family"),
    [
        (Surface("steel-s355", (Layer("zn-hdg"),)), "zinc"),
        (Surface("steel-8-8", (Layer("cd-clear"),)), "cadmium"),
        (Surface(None, (), basis_family="glass"), "glass"),
        (Surface("ferrite"), "ceramic"),
    ],
)
def test_metals_are_known_by_family_or_electrode(surfaces: Surfaces, surface: Surface, family: str) -> None:
    bare = replace(surfaces.catalogue.materials["ferrite"], electrode_id="")
    materials = MappingProxyType({**surfaces.catalogue.materials, "ferrite": bare})
    adapted = Surfaces(replace(surfaces.catalogue, materials=materials))
    part = Part("p", surface=surface)
    assert banned(adapted, part, Ban("B", "No.", families=(family,))) == [("B", family)]
    assert banned(adapted, part, Ban("B", "No.", families=("unobtainium",))) == []
