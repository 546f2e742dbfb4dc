from __future__ import annotations

from typing import Any
from xml.etree import ElementTree as ET

import pytest

from service.catalogue.surfaces import Surface
from service.judgement import Couple, judge
from service.judgement.curves import Curves, polarization_curves
from service.web.pages.polarization import polarization
from tests.seed_catalogue import seed_catalogue

NAMES = {key: electrode.name for key, electrode in seed_catalogue().electrodes.items()}


def curves_of(first: str, second: str, environment: str) -> Curves:
    catalogue = seed_catalogue()
    couple = Couple(Surface(first), Surface(second))
    (judged,) = judge([couple], catalogue.environments[environment], catalogue)
    curves = polarization_curves(judged, catalogue)
    assert curves
    return curves


@pytest.mark.parametrize(
    ("first", "second"), [("al-6082-t6", "ss-316"), ("ss-316", "al-6082-t6"), ("ss-316", "ss-316")]
)
def test_curves_are_drawn_within_their_axes(document: dict[str, Any], first: str, second: str) -> None:
    picture = polarization(curves_of(first, second, "seawater-quiescent"), document, NAMES)
    ET.fromstring(picture.svg)  # noqa: S314 - our own
    assert "immersed" in picture.caption
    assert "cancel at" in picture.caption
    assert "ustenitic stainless steel" in picture.caption


def test_currents_beyond_the_axis_are_left_out_of_the_table(document: dict[str, Any]) -> None:
    picture = polarization(curves_of("al-6082-t6", "ss-316", "seawater-quiescent"), document, NAMES)
    currents = [row[1] for row in picture.rows]
    assert None in currents
    assert len(picture.rows) == 13


def test_the_band_is_told_only_where_there_is_one(document: dict[str, Any]) -> None:
    curves = curves_of("al-6082-t6", "ss-316", "seawater-quiescent")
    assert "shaded band" in polarization(curves, document, NAMES).caption
    assert "shaded band" not in polarization(curves, {**document, "loss": None}, NAMES).caption
