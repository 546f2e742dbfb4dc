from __future__ import annotations

from service.assemblies.groups import conductive_groups
from service.assemblies.joints import Joint
from service.assemblies.parts import Part

PARTS = {name: Part(name) for name in "ABCDE"}


def test_joints_join_what_they_touch() -> None:
    joints = [Joint("1", "A", "B"), Joint("2", "C", "B"), Joint("3", "D", "E")]
    assert conductive_groups(PARTS, joints) == [("A", "B", "C"), ("D", "E")]


def test_a_chain_is_one_group_whatever_its_order() -> None:
    joints = [Joint("1", "D", "E"), Joint("2", "B", "C"), Joint("3", "C", "D"), Joint("4", "A", "B")]
    assert conductive_groups(PARTS, joints) == [("A", "B", "C", "D", "E")]


def test_isolation_opens_a_joint() -> None:
    assert conductive_groups(PARTS, [Joint("1", "A", "B", is_isolated=True)]) == []
    parts = PARTS | {"B": Part("B", is_isolated=True)}
    assert conductive_groups(parts, [Joint("1", "A", "B")]) == []


def test_an_insulator_joins_nothing() -> None:
    joints = [Joint("1", "A", "B"), Joint("2", "B", "C")]
    assert conductive_groups(PARTS, joints, frozenset({"B"})) == []


def test_a_net_joins_its_parts() -> None:
    parts = PARTS | {"A": Part("A", net="PE"), "C": Part("C", net="PE"), "E": Part("E", net="PE")}
    assert conductive_groups(parts, [Joint("1", "A", "B")]) == [("A", "B", "C", "E")]
    assert conductive_groups(parts, [], frozenset({"C"})) == [("A", "E")]
