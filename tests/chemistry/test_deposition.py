"""Conversions of deposition figures."""

from __future__ import annotations

import numpy as np

from service.chemistry.deposition import so2_deposition_mg_per_m2_d, wet_candle_chloride_mg_per_m2_d


def test_concentration_limits_of_the_classes_convert_to_their_deposition_limits() -> None:
    # ISO 9223:2012 Table B.3: 5, 30, 90, 250 ug/m3 stand beside 4, 24, (80), 200 mg/(m2 d)
    assert so2_deposition_mg_per_m2_d(np.array([5.0, 30.0, 250.0])).tolist() == [4.0, 24.0, 200.0]


def test_a_wet_candle_catches_more_than_a_dry_plate() -> None:
    assert wet_candle_chloride_mg_per_m2_d(np.array([0.0, 5.0])).tolist() == [0.0, 12.0]
