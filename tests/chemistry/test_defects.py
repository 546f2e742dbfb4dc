"""Openings in coats."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.defects import film_opening_resistance, opening_resistance, openings
from service.chemistry.errors import OutOfRangeError


def test_areas_add_up_and_openings_are_counted() -> None:
    worn = openings(0.01, np.array([0.0, 1e-6, 0.5]), 1e-3)
    assert worn.covered_area + worn.exposed_area == pytest.approx(np.full(3, 0.01))
    assert worn.count[:2].tolist() == [0.0, 1.0]
    assert worn.count[2] == pytest.approx(0.005 / (np.pi * 1e-6))


@pytest.mark.parametrize("share", [-0.1, 1.1, np.nan])
def test_impossible_shares_are_refused(share: float) -> None:
    with pytest.raises(OutOfRangeError):
        openings(0.01, share, 1e-3)


def test_an_opening_is_mouth_and_bore_and_many_share_the_current() -> None:
    mouth = opening_resistance(5.0, 1e-3)
    assert mouth == pytest.approx(50.0)
    deep = opening_resistance(5.0, 1e-3, 1e-3)
    assert deep - mouth == pytest.approx(1e-3 / (5.0 * np.pi * 1e-6))
    assert opening_resistance(5.0, 1e-3, 1e-3, 4.0) == pytest.approx(deep / 4.0)


def test_under_a_film_the_resistance_grows_with_the_logarithm_of_the_distance() -> None:
    near, far = (film_opening_resistance(5.0, 30e-6, 1e-3, outer) for outer in (10e-3, 100e-3))
    assert far == pytest.approx(2.0 * near)
    assert film_opening_resistance(5.0, 30e-6, 1e-3, 10e-3, 2.0) == pytest.approx(near / 2.0)
    with pytest.raises(OutOfRangeError):
        film_opening_resistance(5.0, 30e-6, 1e-3, 1e-3)
