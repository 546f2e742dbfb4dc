from __future__ import annotations

import pytest

from service.assemblies.figures import AREAS_PER_M2, figure, quantity, unit_named


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("38", 38.0, ""),
        ("38,5", 38.5, ""),
        ("1.234,5", 1234.5, ""),
        ("1,234.5", 1234.5, ""),
        ("1'234", 1234.0, ""),
        ("1.234.567", 1234567.0, ""),
        ("12 345", 12345.0, ""),
        ("~ 40 cm²", 40.0, "cm2"),
        ("ca. 3.5e2 mm^2", 350.0, "mm2"),
        ("-5 °C", -5.0, "c"),
        ("2 sq in", 2.0, "in2"),
        ("15 µm", 15.0, "um"),
    ],
)
def test_figures_are_read_as_people_write_them(text: str, value: float, unit: str) -> None:
    found, found_unit = figure(text)
    assert found == pytest.approx(value)
    assert found_unit == unit


@pytest.mark.parametrize("text", ["", "about", "n/a", "1.2.3", "1e999", "--5"])
def test_what_is_no_figure_is_refused(text: str) -> None:
    with pytest.raises(ValueError):  # noqa: PT011 - the message is of float() or ours
        figure(text)


def test_the_unit_of_the_cell_goes_before_that_of_the_heading() -> None:
    assert quantity("250 mm2", "cm2", AREAS_PER_M2) == pytest.approx(2.5e-4)
    assert quantity("2", "in2", AREAS_PER_M2) == pytest.approx(2 * 6.4516e-4)


def test_the_same_area_is_the_same_number_as_in_a_request() -> None:
    assert quantity("1450", "cm2", AREAS_PER_M2) == 1450 / 1e4


@pytest.mark.parametrize(
    ("text", "reason"), [("5 kg", "none of the units"), ("0", "no positive"), ("-3", "no positive")]
)
def test_a_quantity_is_positive_and_in_a_known_unit(text: str, reason: str) -> None:
    with pytest.raises(ValueError, match=reason):
        quantity(text, "cm2", AREAS_PER_M2)


@pytest.mark.parametrize(
    ("text", "unit"), [("[cm²]", "cm2"), ("Inches", "in"), ("qmm", "mm2"), ("Jahre", "years"), ("", "")]
)
def test_units_have_one_spelling(text: str, unit: str) -> None:
    assert unit_named(text) == unit
