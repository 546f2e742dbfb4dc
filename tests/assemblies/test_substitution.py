from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.errors import InvalidAssemblyError
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY, Ban, HousePolicy, Limit
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.assemblies.substitution import (
    Substitute,
    SubstitutionResult,
    check_substitutes,
    document_of_substitution,
)
from service.assemblies.substitution_rules import Change
from service.catalogue.catalogue import Catalogue
from service.judgement import Geometry, Verdict

PLACE = "marine-atmosphere-0-100-m"
PARTS = {
    each.id: each
    for each in (
        Part("plate", "P-1", "Plate", text="EN AW-6082-T6", wetted_area_m2=0.1),
        Part("clip", "P-2", "Clip", text="EN AW-6082-T6", wetted_area_m2=0.1, quantity=4.0, zone=PLACE),
        Part("bar", "P-3", "Bar", text="CW024A", wetted_area_m2=0.1),
        Part("cap", "P-4", "Cap", text="EN AW-6082-T6", wetted_area_m2=0.1),
    )
}
JOINTS = (Joint("1", "plate", "clip"), Joint("2", "plate", "bar"), Joint("3", "clip", "cap"))
ASSEMBLY = Assembly(PARTS, JOINTS, programme=Programme(environment=PLACE))


def offer(*texts: str, **more: Any) -> list[Substitute]:
    return [Substitute(text, Part("offered", text=text, **more)) for text in texts]


def result(
    catalogue: Catalogue,
    text: str,
    part: str = "clip",
    house: HousePolicy = DEFAULT_HOUSE_POLICY,
    **more: Any,
) -> SubstitutionResult:
    return check_substitutes(ASSEMBLY, part, offer(text, **more), catalogue, house)[1][0]


def test_only_the_joints_of_the_part_are_compared(catalogue: Catalogue) -> None:
    found = result(catalogue, "CW024A")
    assert sorted(item.after.joint.id for item in found.joints) == ["1", "3"]
    assert {item.change for item in found.joints} == {Change.WORSE}
    assert found.change is Change.WORSE


def test_copper_on_aluminium_is_rejected_with_the_reason(catalogue: Catalogue) -> None:
    found = result(catalogue, "CW024A")
    assert found.decision == "reject"
    assert found.decided_by is not None
    assert found.decided_by.code == "becomes-unsuitable"


def test_the_same_metal_is_accepted(catalogue: Catalogue) -> None:
    found = result(catalogue, "EN AW-6082-T6")
    assert (found.decision, found.decided_by, found.change) == ("accept", None, Change.SAME)


def test_a_better_one_is_better(catalogue: Catalogue) -> None:
    found = result(catalogue, "EN AW-6082-T6", "bar")
    assert found.change is Change.BETTER
    assert "better" in {reason.code for reason in found.reasons}


def test_many_substitutes_keep_their_order_and_marks(catalogue: Catalogue) -> None:
    _, found = check_substitutes(ASSEMBLY, "P-2", offer("CW024A", "EN AW-6082-T6", "qqxj wvvk"), catalogue)
    assert [each.substitute.ref for each in found] == ["CW024A", "EN AW-6082-T6", "qqxj wvvk"]
    assert [each.decision for each in found] == ["reject", "accept", "review"]
    assert found[2].decided_by is not None
    assert found[2].decided_by.code == "undetermined"


def test_a_substitute_stands_where_the_part_stood(catalogue: Catalogue) -> None:
    part = result(catalogue, "CW024A").report.assembly.parts["clip"]
    assert (part.number, part.description, part.quantity, part.zone, part.wetted_area_m2) == (
        "P-2",
        "Clip",
        4.0,
        PLACE,
        0.1,
    )
    changed = result(
        catalogue, "CW024A", number="X-9", quantity=2.0, zone="clean-room"
    ).report.assembly.parts["clip"]
    assert (changed.number, changed.quantity, changed.zone) == ("X-9", 2.0, "clean-room")


def test_a_loose_reading_asks_for_review(catalogue: Catalogue) -> None:
    found = result(catalogue, "aluminium")
    assert found.decision == "review"
    assert {"read-loosely", "undetermined"} <= {reason.code for reason in found.reasons}
    assert "limit-violated" not in {reason.code for reason in found.reasons}


def test_a_ban_of_the_house_rejects(catalogue: Catalogue) -> None:
    house = replace(DEFAULT_HOUSE_POLICY, bans=(Ban("no-zinc", "No zinc here.", families=("zinc",)),))
    found = result(catalogue, "S355 hot dip galvanized ISO 1461", house=house)
    assert found.decision == "reject"
    assert "banned" in {reason.code for reason in found.reasons}


def test_a_part_without_joints_is_for_review(catalogue: Catalogue) -> None:
    lone = replace(ASSEMBLY, parts={**PARTS, "lone": Part("lone", text="S355")})
    (found,) = check_substitutes(lone, "lone", offer("EN AW-6082-T6"), catalogue)[1]
    assert (found.decision, found.change) == ("review", Change.SAME)
    assert found.decided_by is not None
    assert found.decided_by.code == "no-joints"


def test_an_unknown_part_is_refused(catalogue: Catalogue) -> None:
    with pytest.raises(InvalidAssemblyError) as caught:
        check_substitutes(ASSEMBLY, "P-9", offer("S355"), catalogue)
    assert caught.value.pointer == "/part"


def test_a_part_of_other_units_is_refused(catalogue: Catalogue) -> None:
    parts = {**PARTS, "cap": replace(PARTS["cap"], effectivity="SN 1-10")}
    late = replace(ASSEMBLY, parts=parts, programme=Programme(environment=PLACE, effective_at="SN 11"))
    with pytest.raises(InvalidAssemblyError, match="not built into 'SN 11'"):
        check_substitutes(late, "cap", offer("S355"), catalogue)


def test_a_limit_that_only_the_substitute_breaks_rejects(catalogue: Catalogue) -> None:
    strict = replace(
        DEFAULT_HOUSE_POLICY, limits=(Limit("thin", "Lose little.", tuple(Verdict), largest_loss_um=1.0),)
    )
    rules = replace(strict.acceptance, reject_on=("limit-violated",))
    found = result(catalogue, "CW024A", house=replace(strict, acceptance=rules))
    assert found.decided_by is not None
    assert found.decided_by.code == "limit-violated"
    assert "Lose little." in found.decided_by.detail


def test_assumed_contacts_are_compared_pair_by_pair(catalogue: Catalogue) -> None:
    assumed = replace(ASSEMBLY, joints=())
    before, (found,) = check_substitutes(assumed, "cap", offer("CW024A"), catalogue)
    ends = {frozenset((item.after.joint.first, item.after.joint.second)) for item in found.joints}
    assert ends == {frozenset(("plate", "cap")), frozenset(("clip", "cap")), frozenset(("bar", "cap"))}
    assert before.contacts is not None
    assert "assumed-contacts" in {reason.code for reason in found.reasons}
    assert before.totals["pairs"] == 6


def test_the_likes_of_a_replaced_pair_stay(catalogue: Catalogue) -> None:
    assumed = replace(ASSEMBLY, joints=())
    before, (found,) = check_substitutes(assumed, "plate", offer("CW024A"), catalogue)
    assert before.totals["pairs"] == 6
    rest = [item for item in found.report.joints if item.joint.id.endswith("(others)")]
    assert [item.joint.pairs for item in rest] == [(("clip", "bar"), ("cap", "bar"))] or rest
    assert all("plate" not in pair for item in rest for pair in item.joint.pairs)


def test_neighbours_that_lose_their_protection_are_told(catalogue: Catalogue) -> None:
    sea = "seawater-quiescent"
    parts = {
        each.id: each
        for each in (
            Part("hull", text="S355J2", wetted_area_m2=0.5),
            Part("screen", text="CuNi10Fe1Mn", wetted_area_m2=0.4),
            Part("plug", description="Plug", text="Zn sheet EN 988", wetted_area_m2=0.5),
        )
    }
    joints = tuple(Joint(end, "hull", end, geometry=Geometry.IMMERSED) for end in ("screen", "plug"))
    assembly = Assembly(parts, joints, programme=Programme(environment=sea, design_life_years=20.0))
    (found,) = check_substitutes(assembly, "plug", offer("CuNi10Fe1Mn"), catalogue)[1]
    assert any("hull is attacked worse in its network" in reason.detail for reason in found.reasons)


def test_the_document_is_its_hash(catalogue: Catalogue) -> None:
    before, found = check_substitutes(ASSEMBLY, "clip", offer("CW024A"), catalogue)
    document = document_of_substitution(before, found, "clip", DEFAULT_HOUSE_POLICY)
    assert document["substitutes"][0]["decision"] == "reject"
    assert len(document["sha256"]) == 64
