from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from service.web.pages.drawing import Axis, Drawing, around, standalone

SVG = "{http://www.w3.org/2000/svg}"


def test_an_axis_places_values_between_its_edges() -> None:
    axis = Axis(0.0, 10.0, 100.0, 200.0)
    assert axis.at(5.0) == 150.0
    assert axis.at(-3.0) == 100.0
    assert axis.at(99.0) == 200.0


def test_a_logarithmic_axis_gives_each_decade_the_same_length() -> None:
    axis = Axis(1.0, 1000.0, 0.0, 300.0, is_log=True)
    assert axis.at(10.0) == pytest.approx(100.0)
    assert axis.ticks() == [1.0, 10.0, 100.0, 1000.0]


def test_a_long_logarithmic_axis_leaves_decades_out() -> None:
    assert len(Axis(1e-6, 1e12, 0.0, 1.0, is_log=True).ticks(6)) <= 7


@pytest.mark.parametrize(("low", "high"), [(0.0, 1.05), (-940.0, -110.0), (0.0, 0.1246), (-3.0, 7000.0)])
def test_ticks_are_few_round_and_inside(low: float, high: float) -> None:
    ticks = Axis(low, high, 0.0, 1.0).ticks()
    assert 2 <= len(ticks) <= 8
    assert all(low <= tick <= high for tick in ticks)


def test_an_axis_of_one_value_puts_it_in_the_middle() -> None:
    assert Axis(3.0, 3.0, 0.0, 10.0).at(3.0) == 5.0
    assert around([3.0, 3.0]) == (2.0, 4.0)


def test_a_drawing_is_xml_with_title_and_description() -> None:
    drawing = Drawing(100, 50)
    drawing.text((1, 2), "a < b & c", turn=30.0)
    drawing.line((0, 0), (1, 1), "axis")
    drawing.box((0, 0), 0.0, 5.0, "side-first")
    drawing.dot((3, 3), 2, "node")
    drawing.curve([(0, 0), (1, 2)], "curve")
    drawing.area([(0, 0), (1, 2), (2, 0)], "under")
    drawing.shape("M0 0L1 1", "mark", at=(2, 3), scale=0.5)
    root = ET.fromstring(drawing.finish("name", "A title", "What it says <b>"))  # noqa: S314 - our own
    assert root.find(f"{SVG}title").text == "A title"  # type: ignore[union-attr]
    assert root.find(f"{SVG}desc").text == "What it says <b>"  # type: ignore[union-attr]
    assert root.find(f"{SVG}text").text == "a < b & c"  # type: ignore[union-attr]
    assert root.get("aria-labelledby") == "name-title name-text"
    assert float(root.find(f"{SVG}rect").get("width", "0")) > 0.0  # type: ignore[union-attr]


def test_a_picture_on_its_own_carries_its_looks() -> None:
    drawing = Drawing(10, 10)
    drawing.text((1, 1), "x")
    root = ET.fromstring(standalone(drawing.finish("n", "t", "d"), ".ramp-1 {fill: #123456}"))  # noqa: S314 - our own
    look = root.find(f"{SVG}style").text  # type: ignore[union-attr]
    assert look
    assert ".side-first" in look
    assert "#123456" in look


def test_axes_carry_their_labels() -> None:
    drawing = Drawing(480, 200)
    drawing.scale_below(Axis(0.0, 10.0, 20.0, 460.0), 150, "distance, mm", str)
    drawing.scale_left(Axis(0.0, 1.0, 150.0, 20.0), 60, "share", str)
    svg = str(drawing.finish("axes", "t", "d"))
    assert "distance, mm" in svg
    assert "share" in svg
