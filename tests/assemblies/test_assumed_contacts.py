from __future__ import annotations

import pytest

from service.assemblies import assumed_contacts
from service.assemblies.assembly import Assembly
from service.assemblies.assumed_contacts import (
    CARRIED,
    CLAMPED,
    CLAMPED_PAIR,
    SAME_THREAD,
    SIBLINGS,
    AssumedContacts,
    assume_contacts,
)
from service.assemblies.parts import Part
from service.assemblies.surfaces import Surfaces
from service.catalogue.surfaces import Surface
from service.judgement import Geometry


def part(
    name: str, parent: str = "top", text: str = "EN AW-6082-T6", description: str = "Plate", **more: str
) -> Part:
    return Part(name, text=text, parent=parent, description=description, **more)  # type: ignore[arg-type]


def screw(name: str, parent: str = "top", size: str = "M4") -> Part:
    return part(name, parent, "A4-80", f"Screw {size}x10")


def assume(surfaces: Surfaces, *parts: Part) -> AssumedContacts:
    return assume_contacts(Assembly({each.id: each for each in parts}, ()), surfaces)


def contacts(found: AssumedContacts) -> list[tuple[str, str, str]]:
    return [(joint.first, joint.second, joint.basis) for joint in found.joints]


def test_a_fastener_clamps_its_siblings(surfaces: Surfaces) -> None:
    found = assume(surfaces, part("A"), screw("S"), part("B", text="CW024A"), part("C", text="S355"))
    assert contacts(found) == [("A", "S", CLAMPED), ("B", "S", CLAMPED), ("C", "S", CLAMPED)]
    assert {joint.geometry for joint in found.joints} == {Geometry.FASTENER}
    assert [joint.id for joint in found.joints] == ["assumed 1", "assumed 2", "assumed 3"]
    assert found.assumptions == (CLAMPED,)


def test_two_clamped_parts_touch_each_other(surfaces: Surfaces) -> None:
    found = assume(surfaces, part("A"), part("B", text="CW024A"), screw("S"))
    assert contacts(found)[-1] == ("A", "B", CLAMPED_PAIR)


def test_fasteners_of_one_thread_go_together(surfaces: Surfaces) -> None:
    nut = part("N", text="8.8 tZn", description="Nut M4")
    other = part("W", text="CW024A", description="Washer M6")
    found = assume(surfaces, screw("S"), nut, other, part("A"))
    assert ("S", "N", SAME_THREAD) in contacts(found)
    assert not any(basis == SAME_THREAD and "W" in ends for *ends, basis in contacts(found))


def test_without_fasteners_parts_touch_in_pairs(surfaces: Surfaces) -> None:
    found = assume(surfaces, part("A"), part("B", text="CW024A"), part("C", text="S355"))
    assert contacts(found) == [("A", "B", SIBLINGS), ("A", "C", SIBLINGS), ("B", "C", SIBLINGS)]


def test_parts_of_different_parents_do_not_touch(surfaces: Surfaces) -> None:
    assert contacts(assume(surfaces, part("A", "one"), part("B", "two", "CW024A"))) == []


def test_a_part_touches_those_below_it(surfaces: Surfaces) -> None:
    found = assume(surfaces, part("top", parent=""), part("A", text="CW024A"), screw("S"))
    assert ("top", "A", CARRIED) in contacts(found)
    assert ("top", "S", CARRIED) in contacts(found)
    assert found.joints[-1].geometry is Geometry.FASTENER


def test_pairs_alike_are_one_joint_that_stands_for_all(surfaces: Surfaces) -> None:
    found = assume(surfaces, part("A"), part("B"), part("C"), screw("S"))
    (joint,) = found.joints
    assert joint.pairs == (("A", "S"), ("B", "S"), ("C", "S"))


@pytest.mark.parametrize(
    "other",
    [
        Part("B", parent="top", description="Board"),
        Part("B", parent="top", surface=Surface("ferrite")),
        Part("B", parent="top", text="CW024A", is_isolated=True),
        Part("B", parent="top", text="CW024A", effectivity="SN 11-20"),
    ],
    ids=["no surface", "insulator", "isolated", "never together"],
)
def test_some_parts_make_no_contact(surfaces: Surfaces, other: Part) -> None:
    assert contacts(assume(surfaces, part("A", effectivity="SN 1-10"), other)) == []


def test_a_list_with_too_many_pairs_is_told(surfaces: Surfaces, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(assumed_contacts, "MOST_PAIRS", 2)
    texts = ("EN AW-6082-T6", "CW024A", "S355", "A4-80")
    many = [part(f"X{number}", "", text) for number, text in enumerate(texts)]
    few = [part("Y1", "pair"), part("Y2", "pair", "CW024A")]
    found = assume(surfaces, *many, *few)
    assert contacts(found) == [("Y1", "Y2", SIBLINGS)]
    assert found.too_many == ("the list as a whole",)


def test_flat_joints_are_alike_either_way_round(surfaces: Surfaces) -> None:
    found = assume(surfaces, part("A"), part("B", text="CW024A"), part("C"))
    assert [joint.pairs for joint in found.joints] == [(("A", "B"), ("C", "B")), (("A", "C"),)]


def test_texts_that_are_read_alike_are_alike(surfaces: Surfaces) -> None:
    found = assume(
        surfaces, part("A", text="A4-80, clip 6"), part("B", text="A4-80, clip 7"), part("C", text="CW024A")
    )
    assert [joint.pairs for joint in found.joints][-1] == (("A", "C"), ("B", "C"))


def test_texts_that_are_not_understood_are_like_themselves_alone(surfaces: Surfaces) -> None:
    found = assume(surfaces, part("A", text="qqxj"), part("B", text="wvvk"), part("C", text="CW024A"))
    assert len(found.joints) == 3
