from __future__ import annotations

from dataclasses import replace

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.joints import Joint
from service.assemblies.parts import Part

PARTS = {
    "top": Part("top", zone="deck"),
    "A": Part("A", parent="top"),
    "B": Part("B", parent="A", zone="bilge"),
    "loop": Part("loop", parent="pool"),
    "pool": Part("pool", parent="loop"),
}
ASSEMBLY = Assembly(PARTS, (), zones={"deck": "marine-atmosphere-0-100-m"})


def test_a_part_takes_the_zone_above_it() -> None:
    assert ASSEMBLY.zone_of(PARTS["A"]) == "deck"
    assert ASSEMBLY.zone_of(PARTS["B"]) == "bilge"


def test_a_loop_of_parents_ends() -> None:
    assert [part.id for part in ASSEMBLY.ancestors(PARTS["loop"])] == ["loop", "pool"]
    assert ASSEMBLY.zone_of(PARTS["loop"]) == ""


def test_a_joint_of_two_zones_lives_in_both() -> None:
    assert ASSEMBLY.places_of(Joint("J", "A", "B")) == ("marine-atmosphere-0-100-m", "bilge")


def test_what_a_joint_states_goes_before_its_parts() -> None:
    assert ASSEMBLY.places_of(Joint("J", "A", "B", zone="deck")) == ("marine-atmosphere-0-100-m",)
    assert ASSEMBLY.places_of(Joint("J", "A", "B", environment="x", zone="deck")) == ("x",)


def test_the_programme_stands_in_where_nothing_says_where() -> None:
    joint = Joint("J", "loop", "pool")
    assert ASSEMBLY.places_of(joint) == ()
    with_programme = replace(ASSEMBLY, programme=Programme(environment="rural-atmosphere"))
    assert with_programme.places_of(joint) == ("rural-atmosphere",)
    assert with_programme.place_of(PARTS["loop"]) == "rural-atmosphere"
    assert with_programme.place_of(PARTS["A"]) == "marine-atmosphere-0-100-m"


def test_parts_of_different_units_are_apart() -> None:
    parts = {"A": Part("A", effectivity="SN 1-5"), "B": Part("B", effectivity="SN 6-9")}
    assert not Assembly(parts, ()).are_together(Joint("J", "A", "B"))
