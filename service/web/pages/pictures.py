"""Pictures of an answer's own figures: potential ranges, attack along the joint, uncertainty."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from service.judgement import Severity
from service.web.pages.drawing import Axis, Drawing, Picture, around
from service.web.pages.wording import bounds, figure, handy, readable, spread

Document = Mapping[str, Any]
WIDTH = 480.0
LEFT, RIGHT = 16.0, WIDTH - 16.0
_LONGEST_NAME = 58
_LEAST_BAR = 6.0
_ROOM_FOR_FIGURES = 110.0
_SHARE_IN_REACH = 0.9
"""Share of the galvanic current that flows within the reach, as the reach is defined."""


def pictures_of(document: Document) -> list[Picture]:
    """Return every picture that the figures of an answer allow."""
    drawn = (potential_ranges(document), attack_along_joint(document), uncertainty(document))
    return [picture for picture in drawn if picture is not None]


def potential_ranges(document: Document) -> Picture | None:
    """Both surfaces on one potential axis, with the difference that is still permissible."""
    screening = (finding for finding in document["findings"] if finding["witness"] == "screening")
    figures: Document = next(screening, {"figures": {}})["figures"]
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
    drawing.text(
        _beside(axis.at(reach)), f"permissible: {figure(limit, 'mV')}", "tick", _anchor(axis.at(reach))
    )
    for place, side in enumerate(("first", "second")):
        y = 44.0 + place * 62
        drawing.text((LEFT, y), f"{side}: {_short(_name(document, side))}")
        _draw_range(drawing, axis, sides[side], y + 8, side)
    drawing.scale_below(axis, 156, f"potential, mV {_against(shown)}, nobler to the right", figure)
    low_mV, high_mV = shown["difference_low_mV"], shown["difference_high_mV"]
    gap = figure(high_mV, "mV") if low_mV == high_mV else bounds(None, low_mV, high_mV, "mV")
    caption = (
        f"On the scale ‘{shown['name']}’ the surfaces lie {gap} apart; {figure(limit, 'mV')} is permissible "
        f"in {document['environment']['screening_class']} service. A difference gives the direction of "
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


def _draw_range(drawing: Drawing, axis: Axis, bounds_mV: tuple[float, float], y: float, side: str) -> None:
    """A bar from bound to bound with its figures beside it; a single value is a bar that can be seen."""
    low, high = (axis.at(each) for each in bounds_mV)
    width = max(high - low, _LEAST_BAR)
    start = (low + high - width) / 2
    drawing.box((start, y), width, 20, f"side-{side}")
    told = " to ".join(figure(each) for each in dict.fromkeys(bounds_mV))
    is_right = start + width > WIDTH - _ROOM_FOR_FIGURES
    at = start - 6 if is_right else start + width + 6
    drawing.text((at, y + 15), told, "tick", "end" if is_right else "start")


def attack_along_joint(document: Document) -> Picture | None:
    """Attack over the distance from the joint line, from its rate and reach."""
    loss = document["loss"]
    if not loss or not loss["reach_mm"]["median"] or not loss["galvanic_rate_um_per_year"]["median"]:
        return None
    factor, unit = handy(loss["reach_mm"]["median"], "mm")
    reach = loss["reach_mm"]["median"] * factor
    # A reach without any spread is the width of the side: the current gets everywhere.
    is_even = loss["reach_mm"]["low"] == loss["reach_mm"]["high"]
    x_axis, y_axis = Axis(0.0, 2.0 * reach, 64, RIGHT), Axis(0.0, 1.05, 190, 34)
    distances = [2.0 * reach * step / 80 for step in range(81)]
    points = [(x_axis.at(each), y_axis.at(_share(each, reach, is_even=is_even))) for each in distances]
    inside = [point for point in points if point[0] <= x_axis.at(reach) + 1e-6]
    drawing = Drawing(WIDTH, 240)
    drawing.area([(64, 190), *inside, (inside[-1][0], 190)], f"under under-{loss['side']}")
    drawing.curve(inside if is_even else points, f"curve line-{loss['side']}")
    drawing.line((x_axis.at(reach), 40), (x_axis.at(reach), 190), "guide")
    edge = "edge of the side" if is_even else "reach"
    drawing.text((x_axis.at(reach) + 6, 54), f"{edge} {figure(reach, unit)}", "tick")
    origin = "edge of the bare metal" if loss.get("laid_bare_at") else "joint line"
    distance, share = f"distance from the {origin}, {unit}", f"attack, share of that at the {origin}"
    drawing.scale_below(x_axis, 190, distance, figure)
    drawing.scale_left(y_axis, 64, share, figure)
    title = "How far the attack goes"
    caption = _attack_caption(document, origin, is_even=is_even)
    rows = tuple(
        (float(f"{part * reach:.3g}"), float(f"{_share(part * reach, reach, is_even=is_even):.2g}"))
        for part in (0.0, 0.25, 0.5, 1.0, 1.5, 2.0)
    )
    return Picture(
        "reach",
        title,
        caption,
        drawing.finish("reach", title, caption),
        (distance, share),
        rows,
    )


def _share(distance: float, reach: float, *, is_even: bool) -> float:
    if is_even:
        return 1.0 if distance <= reach else 0.0
    return math.exp(distance / reach * math.log(1.0 - _SHARE_IN_REACH))


def _attack_caption(document: Document, origin: str, *, is_even: bool) -> str:
    loss = document["loss"]
    name, rate = _name(document, loss["side"]), spread(loss["galvanic_rate_um_per_year"], "µm/year")
    if loss.get("laid_bare_at"):
        name = f"the metal that lies bare at {loss['laid_bare_at']}"
    if is_even:
        factor, unit = handy(loss["reach_mm"]["median"], "mm")
        width = figure(loss["reach_mm"]["median"] * factor, unit)
        return f"The current reaches all of {name} ({width} wide); it loses {rate}, drawn as even."
    return (
        f"Nine tenths of the galvanic attack on {name} lie within {spread(loss['reach_mm'], 'mm')} of the "
        f"{origin}, where it loses {rate} averaged over that width. The curve is an exponential through "
        "the computed reach."
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
        f"{figure(allowance, 'µm')} ({loss['allowance_basis']}). By figures alone the sampled cases are: "
        f"{told}."
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
