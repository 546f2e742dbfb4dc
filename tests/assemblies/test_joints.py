from __future__ import annotations

from service.assemblies.joints import Joint


def test_a_joint_is_stated_unless_a_rule_made_it() -> None:
    assert not Joint("J", "A", "B").is_assumed
    assert Joint("J", "A", "B", basis="a rule").is_assumed


def test_a_joint_stands_for_its_own_pair_and_its_likes() -> None:
    assert Joint("J", "A", "B", alike=(("A", "C"),)).pairs == (("A", "B"), ("A", "C"))
