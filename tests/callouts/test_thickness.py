from __future__ import annotations

import pytest

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Amount
from service.callouts.normalise import normalise
from service.callouts.patterns import grams_of, marks_of
from service.callouts.thickness import PATTERNS, amount_of

# 1 in = 25.4 mm exactly, so 1 microinch = 0.0254 um and 1 mil = 25.4 um.
AMOUNTS = [
    ("8 µm", Amount(8.0)),
    ("8um", Amount(8.0)),
    ("12 microns", Amount(12.0)),
    ("5-8 µm", Amount(5.0, 8.0)),
    ("5 bis 8 µm", Amount(5.0, 8.0)),
    ("5~10(µm)", Amount(5.0, 10.0)),
    ("0,8 µm", Amount(0.8)),
    ('30u"', Amount(0.762)),
    ("30 µin", Amount(0.762)),
    ("50 microinches", Amount(1.27)),
    ("100-200 u-in", Amount(2.54, 5.08)),
    ("1 mil", Amount(25.4)),
    ("0.5 thou", Amount(12.7)),
    (".0002 in", Amount(5.08)),
    ('.002"', Amount(50.8)),
    (".002 THK", Amount(50.8)),
    ("0.025 mm", Amount(25.0)),
]


@pytest.mark.parametrize(("text", "wanted"), AMOUNTS)
def test_units_of_thickness(text: str, wanted: Amount, lexicon: Lexicon) -> None:
    normal = normalise(text).text
    assert [mark.sense for mark in marks_of(PATTERNS, normal, grams_of(normal), lexicon)] == [wanted]


@pytest.mark.parametrize("text", ["2 mm", "1/2 in", "1.5 in", "5000 µm", "0 µm", "8-5 µm", "M6", "x8umx"])
def test_dimensions_of_the_part_are_no_coat(text: str, lexicon: Lexicon) -> None:
    normal = normalise(text).text
    assert list(marks_of(PATTERNS, normal, grams_of(normal), lexicon)) == []


def test_figures_are_rounded_to_four_digits() -> None:
    assert amount_of("3", None, "microinch") == Amount(0.0762)
    assert amount_of("20", "30", "micron") == Amount(20.0, 30.0)
