from __future__ import annotations

from typing import Any
from xml.etree import ElementTree as ET

from service.web.pages.joint_graph import MOST_JOINTS, joint_graph

COUNTS = {"suitable": 0, "conditional": 0, "unsuitable": 0, "undetermined": 0}


def report(*pairs: tuple[str, str]) -> dict[str, Any]:
    joints = [
        {
            "joint": f"J{number}",
            "verdict": "unsuitable",
            "first": {"part": one, "number": one},
            "second": {"part": other, "number": other},
        }
        for number, (one, other) in enumerate(pairs)
    ]
    return {"joints": joints, "totals": {"by_verdict": COUNTS}}


def test_each_part_and_each_joint_is_drawn_once() -> None:
    picture = joint_graph(report(("A", "B"), ("B", "C"), ("A", "B")))
    assert picture
    root = ET.fromstring(picture.svg)  # noqa: S314 - our own
    names = [element.tag.rpartition("}")[2] for element in root]
    assert names.count("circle") == 3
    assert names.count("path") == 3
    assert len(picture.rows) == 3


def test_no_joint_makes_no_picture() -> None:
    assert joint_graph(report()) is None


def test_a_thicket_is_thinned_and_says_so() -> None:
    picture = joint_graph(report(*((f"A{number}", f"B{number}") for number in range(MOST_JOINTS + 5))))
    assert picture
    assert len(picture.rows) == MOST_JOINTS
    assert f"Only the worst {MOST_JOINTS}" in picture.caption


def test_a_part_joined_to_itself_is_drawn() -> None:
    picture = joint_graph(report(("A", "A")))
    assert picture
    assert "1 parts" in picture.caption
