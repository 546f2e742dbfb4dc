"""Polarization curves of a judged couple."""

from __future__ import annotations

import numpy as np
import pytest

from service.catalogue.surfaces import Surface
from service.judgement import Couple, judge
from service.judgement.curves import polarization_curves
from service.judgement.judge import Judgement
from tests.seed_catalogue import seed_catalogue


def judged(first: str, second: str, environment: str) -> Judgement:
    catalogue = seed_catalogue()
    couple = Couple(Surface(first), Surface(second))
    return judge([couple], catalogue.environments[environment], catalogue)[0]


@pytest.mark.parametrize("environment", ["seawater-quiescent", "marine-atmosphere-0-100-m"])
def test_currents_cancel_at_the_crossing(environment: str) -> None:
    curves = polarization_curves(judged("al-6082-t6", "ss-316", environment), seed_catalogue())
    assert curves
    totals = curves.sides[0].net_current_A + curves.sides[1].net_current_A
    is_below = curves.potential_V < curves.crossing_potential_V
    assert np.all(totals[is_below] < 0.0)
    assert np.all(totals[~is_below] > 0.0)
    cathode = -curves.sides[1].net_current_A
    at_crossing = np.interp(curves.crossing_potential_V, curves.potential_V, cathode)
    assert at_crossing == pytest.approx(curves.crossing_current_A, rel=0.02)


def test_each_side_is_at_rest_at_its_corrosion_potential() -> None:
    curves = polarization_curves(judged("al-6082-t6", "ss-316", "seawater-quiescent"), seed_catalogue())
    assert curves
    for side in curves.sides:
        below = side.net_current_A[curves.potential_V < side.corrosion_potential_V - 0.01]
        above = side.net_current_A[curves.potential_V > side.corrosion_potential_V + 0.01]
        assert below.max() < 0.0 < above.min()


def test_the_crossing_lies_between_both_metals_at_rest() -> None:
    curves = polarization_curves(judged("al-6082-t6", "ss-316", "seawater-quiescent"), seed_catalogue())
    assert curves
    low, high = sorted(side.corrosion_potential_V for side in curves.sides)
    assert low <= curves.crossing_potential_V <= high
    assert curves.spell == "immersed"


def test_there_are_no_curves_where_nothing_is_computed() -> None:
    assert polarization_curves(judged("al-6082-t6", "ss-316", "clean-room"), seed_catalogue()) is None
