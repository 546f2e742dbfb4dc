"""The joints of an assembly as a picture: parts on a ring, a line for each joint, worst on top."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Any

from service.web.pages.drawing import Drawing, Picture, Point
from service.web.pages.wording import VERDICTS

SIZE = 640.0
RADIUS = 190.0
MOST_JOINTS = 120
"""More lines than this are a thicket; the worst are drawn and the caption says so."""

Joint = Mapping[str, Any]


def joint_graph(document: Mapping[str, Any]) -> Picture | None:
    """Draw the joints of a report, ``None`` where there are none."""
    joints: Sequence[Joint] = document["joints"][:MOST_JOINTS]
    if not joints:
        return None
    numbers = {joint[end]["part"]: joint[end]["number"] for joint in joints for end in ("first", "second")}
    ring = _ring(joints)
    places = {part: _place(index, len(ring)) for index, part in enumerate(ring)}
    drawing = Drawing(SIZE, SIZE)
    for joint in reversed(joints):
        start, end = places[joint["first"]["part"]], places[joint["second"]["part"]]
        drawing.shape(_bow(start, end), f"link verdict-{joint['verdict']}")
    for index, part in enumerate(ring):
        drawing.dot(places[part], 5, "node")
        _label(drawing, index, len(ring), numbers[part])
    counts = document["totals"]["by_verdict"]
    told = ", ".join(f"{counts[name]} {wording.word.lower()}" for name, wording in VERDICTS.items())
    caption = (
        f"{len(ring)} parts and {len(joints)} joints: {told}. Unsuitable joints are thick and unbroken, "
        "conditional ones dashed, undetermined ones dotted, suitable ones thin."
    )
    if len(document["joints"]) > len(joints):
        caption += f" Only the worst {len(joints)} of {len(document['joints'])} joints are drawn."
    title = "Which parts meet"
    rows = tuple(
        (joint["joint"], joint["first"]["number"], joint["second"]["number"], joint["verdict"])
        for joint in joints
    )
    return Picture(
        "joints",
        title,
        caption,
        drawing.finish("joints", title, caption),
        ("joint", "first part", "second part", "verdict"),
        rows,
    )


def _ring(joints: Sequence[Joint]) -> list[str]:
    """Parts in an order that keeps neighbours together: along the joints, depth first."""
    partners: dict[str, list[str]] = defaultdict(list)
    for joint in joints:
        first, second = joint["first"]["part"], joint["second"]["part"]
        partners[first].append(second)
        partners[second].append(first)
    order: dict[str, None] = {}
    for start in sorted(partners):
        waiting = [start]
        while waiting:
            part = waiting.pop()
            if part not in order:
                order[part] = None
                waiting += [other for other in reversed(partners[part]) if other not in order]
    return list(order)


def _angle(index: int, count: int) -> float:
    return 2.0 * math.pi * index / count - math.pi / 2.0


def _place(index: int, count: int) -> Point:
    angle = _angle(index, count)
    return SIZE / 2 + RADIUS * math.cos(angle), SIZE / 2 + RADIUS * math.sin(angle)


def _bow(start: Point, end: Point) -> str:
    """A line bent towards the centre, so that lines between neighbours stay apart."""
    pull = 0.2 + 0.4 * math.dist(start, end) / (2.0 * RADIUS)
    middle = [
        (one + other) / 2 * (1.0 - pull) + SIZE / 2 * pull for one, other in zip(start, end, strict=True)
    ]
    return f"M{start[0]:.1f} {start[1]:.1f}Q{middle[0]:.1f} {middle[1]:.1f} {end[0]:.1f} {end[1]:.1f}"


def _label(drawing: Drawing, index: int, count: int, words: str) -> None:
    angle = _angle(index, count)
    at = SIZE / 2 + (RADIUS + 12) * math.cos(angle), SIZE / 2 + (RADIUS + 12) * math.sin(angle)
    is_left = math.cos(angle) < 0.0
    turn = math.degrees(angle) + (180.0 if is_left else 0.0)
    drawing.text(at, words, "label", "end" if is_left else "start", turn=turn)
