"""The picture of both polarization curves and their crossing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from service.judgement.curves import Curve, Curves
from service.judgement.surface_names import in_sentence
from service.web.pages.drawing import Axis, Drawing, Picture, Point
from service.web.pages.wording import figure

WIDTH = 480.0
_TOP, _BOTTOM, _LEFT, _RIGHT = 44.0, 268.0, 84.0, WIDTH - 16.0
_DECADES_BELOW = 4.0
"""How far below the crossing current the axis goes."""

_uA = 1e6
_TABLE_ROWS = 13


def polarization(curves: Curves, document: Mapping[str, Any], names: Mapping[str, str]) -> Picture:
    """Draw the net current of both sides over potential; where they cross, the couple is at rest.

    ``names`` holds the names of electrodes by id.
    """
    crossing = max(curves.crossing_current_A * _uA, 1e-9)
    strongest = max(float(np.abs(side.net_current_A).max()) for side in curves.sides) * _uA
    x_axis = Axis(float(curves.potential_V[0]) * 1e3, float(curves.potential_V[-1]) * 1e3, _LEFT, _RIGHT)
    top = 10.0 ** np.ceil(np.log10(min(strongest, crossing * 1e3)))
    bottom = 10.0 ** np.floor(np.log10(crossing) - _DECADES_BELOW / 2)
    y_axis = Axis(float(bottom), float(max(top, bottom * 100)), _BOTTOM, _TOP, is_log=True)
    drawing = Drawing(WIDTH, 312)
    _draw_band(drawing, x_axis, document)
    for name, side in zip(("first", "second"), curves.sides, strict=True):
        for points in _visible(side, curves, x_axis, y_axis):
            drawing.curve(points, f"curve line-{name}")
    at = x_axis.at(curves.crossing_potential_V * 1e3), y_axis.at(crossing)
    drawing.dot(at, 6, "crossing")
    is_right = at[0] > (_LEFT + _RIGHT) / 2
    beside = (at[0] - 12 if is_right else at[0] + 12), at[1] - 10
    drawing.text(
        beside,
        f"at rest, {figure(curves.crossing_potential_V * 1e3, 'mV')}",
        "tick",
        "end" if is_right else "start",
    )
    for place, name in enumerate(("first", "second")):
        start = _LEFT + 110 + place * 150
        drawing.line((start, 10), (start + 26, 10), f"curve line-{name}")
        drawing.text((start + 32, 14), f"{name} surface", "tick")
    drawing.scale_below(x_axis, _BOTTOM, "potential, mV against the standard hydrogen electrode", figure)
    drawing.scale_left(y_axis, _LEFT, "net current, µA (size)", figure)
    title, caption = "Where their currents balance", _caption(curves, document, crossing, names)
    columns = ("potential, mV SHE", "net current of the first, µA", "net current of the second, µA")
    svg = drawing.finish("polarization", title, caption)
    return Picture("polarization", title, caption, svg, columns, _rows(curves, y_axis.high))


def _draw_band(drawing: Drawing, axis: Axis, document: Mapping[str, Any]) -> None:
    potential = (document["loss"] or {}).get("couple_potential_mV_SHE")
    if potential and potential["low"] is not None:
        low, high = axis.at(potential["low"]), axis.at(potential["high"])
        drawing.box((low, _TOP), high - low, _BOTTOM - _TOP, "band")


def _visible(side: Curve, curves: Curves, x_axis: Axis, y_axis: Axis) -> list[list[Point]]:
    """Stretches of a curve that lie within the axes."""
    stretches: list[list[Point]] = [[]]
    for potential, current in zip(curves.potential_V, np.abs(side.net_current_A) * _uA, strict=True):
        if y_axis.low <= current <= y_axis.high:
            stretches[-1].append((x_axis.at(float(potential) * 1e3), y_axis.at(float(current))))
        elif stretches[-1]:
            stretches.append([])
    return [points for points in stretches if len(points) > 1]


def _caption(
    curves: Curves, document: Mapping[str, Any], crossing_uA: float, names: Mapping[str, str]
) -> str:
    spell = (
        "immersed" if curves.spell == "immersed" else f"in a film ({_SPELLS.get(curves.spell, curves.spell)})"
    )
    sides = (
        f"{in_sentence(names[side.electrode_id])} ({side.state}, {figure(side.area_m2 * 1e4, 'cm²')})"
        for side in curves.sides
    )
    text = (
        f"Net currents {spell} at central figures, of {' and of '.join(sides)}. They cancel at "
        f"{figure(curves.crossing_potential_V * 1e3, 'mV')} with {figure(crossing_uA, 'µA')}."
    )
    if (document["loss"] or {}).get("couple_potential_mV_SHE"):
        text += " The shaded band is the computed potential (5 to 95 %); it allows for resistance."
    return text


_SPELLS = {"deliquesced": "damp salt", "drying": "drying salt water", "rain": "rain"}


def _rows(curves: Curves, most_uA: float) -> tuple[tuple[float | None, ...], ...]:
    """Figures at even steps of potential; a current beyond the axis is an extrapolation and left out."""
    places = np.linspace(0, len(curves.potential_V) - 1, _TABLE_ROWS).astype(int)
    rows = []
    for place in places:
        currents = [float(side.net_current_A[place]) * _uA for side in curves.sides]
        shown = [float(f"{current:.3g}") if abs(current) <= most_uA else None for current in currents]
        rows.append((round(float(curves.potential_V[place]) * 1e3), *shown))
    return tuple(rows)
