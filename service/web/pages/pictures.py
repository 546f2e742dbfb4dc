"""Pictures of an answer's own figures: potential ranges, attack along the joint, uncertainty."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from service.judgement import Severity
from service.web.pages.drawing import Axis, Drawing, Picture, around
from service.web.pages.wording import figure, readable, spread

Document = Mapping[str, Any]
WIDTH = 480.0
LEFT, RIGHT = 16.0, WIDTH - 16.0
_LONGEST_NAME = 58
_SHARE_IN_REACH = 0.9
"""Share of the galvanic current that flows within the reach, as the reach is defined."""


def pictures_of(document: Document) -> list[Picture]:
    """Return every picture that the figures of an answer allow."""
    drawn = (potential_ranges(document), attack_along_joint(document), uncertainty(document))
    return [picture for picture in drawn if picture is not None]


def potential_ranges(document: Document) -> Picture | None:
    """Both surfaces on one potential axis, with the difference that is still permissible."""
    screening = (finding for finding in document["findings"] if finding["witness"] == "screening")
    figures = next(screening, {"figures": {}})["figures"]
    if not figures.get("scales"):
        return None
    shown, limit = figures["scales"][0], figures["permissible_difference_mV"]
    sides = {side: (shown[f"{side}_low_mV"], shown[f"{side}_high_mV"]) for side in ("first", "second")}
    less_noble = min(sides, key=lambda side: sum(sides[side]))
    reach = sides[less_noble][1] + limit
    axis = Axis(*around([*sides["first"], *sides["second"], reach]), LEFT, RIGHT)
    drawing = Drawing(WIDTH, 214)
    start = axis.at(sides[less_noble][1])
    drawing.box((start, 22), axis.at(reach) - start, 134, "allowed")
    drawing.text(_beside(axis.at(reach)), f"permissible: {limit} mV", "tick", _anchor(axis.at(reach)))
    for place, side in enumerate(("first", "second")):
        low, high = sides[side]
        y = 44.0 + place * 62
        drawing.text((LEFT, y), f"{side}: {_short(_name(document, side))}")
        drawing.box((axis.at(low), y + 8), axis.at(high) - axis.at(low), 20, f"side-{side}")
    drawing.scale_below(axis, 156, f"potential, mV {_against(shown)}, nobler to the right", figure)
    gap = f"{figure(shown['difference_low_mV'])} to {figure(shown['difference_high_mV'], 'mV')}"
    caption = (
        f"On the scale ‘{shown['name']}’ the surfaces lie {gap} apart; {figure(limit, 'mV')} is permissible "
        f"in service of class ‘{document['environment']['screening_class']}’. This gives the direction of "
        "the current, not its rate."
    )
    rows = tuple((_name(document, side), *sides[side]) for side in sides)
    title = "How far apart the surfaces are"
    return Picture(
        "potentials",
        title,
        caption,
        drawing.finish("potentials", title, caption),
        ("surface", "lowest potential, mV", "highest potential, mV"),
        (*rows, ("permissible difference", None, limit)),
    )


def attack_along_joint(document: Document) -> Picture | None:
    """Attack over the distance from the joint line, from its peak and reach."""
    loss = document["loss"]
    if (
        not loss
        or not (loss["reach_mm"] or {}).get("median")
        or not loss["galvanic_rate_um_per_year"]["median"]
    ):
        return None
    reach = loss["reach_mm"]["median"]
    decay = reach / -math.log(1.0 - _SHARE_IN_REACH)
    x_axis = Axis(0.0, 2.0 * reach, 64, RIGHT)
    y_axis = Axis(0.0, 1.05, 190, 34)
    distances = [2.0 * reach * step / 80 for step in range(81)]
    points = [(x_axis.at(each), y_axis.at(math.exp(-each / decay))) for each in distances]
    drawing = Drawing(WIDTH, 240)
    inside = [point for point in points if point[0] <= x_axis.at(reach) + 1e-6]
    drawing.area([(64, 190), *inside, (inside[-1][0], 190)], f"under under-{loss['side']}")
    drawing.curve(points, f"curve line-{loss['side']}")
    drawing.line((x_axis.at(reach), 40), (x_axis.at(reach), 190), "guide")
    drawing.text((x_axis.at(reach) + 6, 54), f"reach {figure(reach, 'mm')}", "tick")
    drawing.scale_below(x_axis, 190, "distance from the joint line, mm", figure)
    drawing.scale_left(y_axis, 64, "attack, share of that at the joint line", figure)
    caption = (
        f"Nine tenths of the galvanic attack on {_name(document, loss['side'])} lie within "
        f"{spread(loss['reach_mm'], 'mm')} of the joint line, where it loses "
        f"{spread(loss['galvanic_rate_um_per_year'], 'µm a year')} averaged over that width. "
        "The curve is an exponential through the computed reach."
    )
    title = "How far from the joint the attack goes"
    shares = (0.0, 0.25, 0.5, 1.0, 1.5, 2.0)
    rows = tuple(
        (float(f"{share * reach:.3g}"), float(f"{math.exp(-share * reach / decay):.2g}")) for share in shares
    )
    return Picture(
        "reach",
        title,
        caption,
        drawing.finish("reach", title, caption),
        ("distance from the joint line, mm", "attack, share of that at the joint line"),
        rows,
    )


def uncertainty(document: Document) -> Picture | None:
    """The loss against its allowance, and how the sample falls into severities."""
    loss = document["loss"]
    if not loss or "galvanic_loss_um" not in loss:
        return None
    lost, allowance = loss["galvanic_loss_um"], loss["allowance_um"]
    drawing = Drawing(WIDTH, 258)
    _draw_loss(drawing, lost, allowance, loss["side"])
    found = loss.get("probability_of_severity") or {}
    shares = {severity.value: found[severity.value] for severity in Severity if severity.value in found}
    _draw_shares(drawing, shares)
    years = document["joint"]["design_life_years"]
    told = ", ".join(f"{name} {figure(100 * share, '%')}" for name, share in shares.items() if share)
    caption = (
        f"In {figure(years, 'years')} the eaten side loses {spread(lost, 'µm')}; it may lose "
        f"{figure(allowance, 'µm')} ({loss['allowance_basis']}). Of the sampled cases: {told}."
    )
    title = "How sure that is"
    rows: tuple[tuple[str, float | None], ...] = (
        ("loss, 5 % bound, µm", lost["low"]),
        ("loss, median, µm", lost["median"]),
        ("loss, 95 % bound, µm", lost["high"]),
        ("allowance, µm", allowance),
        *(
            (f"share of cases with severity ‘{name}’, %", float(f"{100 * part:.3g}"))
            for name, part in shares.items()
        ),
    )
    svg = drawing.finish("uncertainty", title, caption)
    return Picture("uncertainty", title, caption, svg, ("figure", "value"), rows)


def _draw_loss(drawing: Drawing, lost: Mapping[str, float], allowance: float, side: str) -> None:
    values = [max(value, 1e-3) for value in (lost["low"], lost["median"], lost["high"], allowance)]
    low = 10.0 ** math.floor(math.log10(min(values)))
    high = 10.0 ** math.ceil(math.log10(max(values)))
    axis = Axis(low, max(high, 10 * low), LEFT + 8, RIGHT - 8, is_log=True)
    drawing.box((axis.start, 26), axis.at(allowance) - axis.start, 64, "allowed")
    drawing.line((axis.at(allowance), 22), (axis.at(allowance), 90), "limit")
    at = axis.at(allowance)
    drawing.text(
        (at, 16), f"allowance {figure(allowance, 'µm')}", "tick", "end" if at > WIDTH / 2 else "start"
    )
    drawing.line((axis.at(values[0]), 58), (axis.at(values[2]), 58), f"whisker line-{side}")
    drawing.dot((axis.at(values[1]), 58), 8, f"side-{side}")
    drawing.scale_below(axis, 90, "loss over the design life, µm (dot: median, bar: 5 to 95 %)", figure)


def _draw_shares(drawing: Drawing, shares: Mapping[str, float]) -> None:
    total, start = sum(shares.values()) or 1.0, LEFT
    drawing.text((LEFT, 164), "share of sampled cases by severity")
    for place, share in enumerate(shares.values()):
        width = share / total * (RIGHT - LEFT)
        if share:
            drawing.box((start, 172), width, 28, f"ramp-{(0, 2, 5, 8)[min(place, 3)]}")
        start += width
    for place, (name, share) in enumerate(shares.items()):
        x = LEFT + place * (RIGHT - LEFT) / max(len(shares), 1)
        drawing.box((x, 214), 12, 12, f"swatch ramp-{(0, 2, 5, 8)[min(place, 3)]}")
        drawing.text((x + 17, 225), name, "tick")
        drawing.text((x + 17, 241), figure(100 * share, "%"), "tick")


def _name(document: Document, side: str) -> str:
    if side not in {"first", "second"}:
        return "the joint"
    surface = document["surfaces"][side]
    return readable(surface["name"] or surface["text"])


def _short(name: str) -> str:
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 1]}…"


def _against(scale: Mapping[str, Any]) -> str:
    reference = scale["reference_electrode"]
    return f"against {reference}" if reference else "on the scale’s own zero"


def _beside(x: float) -> tuple[float, float]:
    return (x - 4 if x > WIDTH / 2 else x + 4), 14.0


def _anchor(x: float) -> str:
    return "end" if x > WIDTH / 2 else "start"
