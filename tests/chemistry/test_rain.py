"""Rain hours, what rain carries, and drying."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.errors import OutOfRangeError
from service.chemistry.rain import (
    HOURS_PER_YEAR,
    drying_time_h,
    rain_conductivity_S_per_m,
    rain_hours_per_year,
)


def test_rain_hours_are_depth_over_intensity_and_never_exceed_the_year() -> None:
    assert rain_hours_per_year(np.array([0.0, 1000.0, 1e6]), 2.0).tolist() == [0.0, 500.0, HOURS_PER_YEAR]


def test_rain_near_surf_is_saltier_than_inland() -> None:
    inland, coast, surf = rain_conductivity_S_per_m(np.array([0.0, 20.0, 400.0]), 800.0)
    assert inland == 0.001
    assert inland < coast < 0.01 < surf < 0.1


def test_a_film_dries_faster_in_warm_and_in_dry_air() -> None:
    slow, fast = drying_time_h(1e-4, np.array([5.0, 25.0]), 80.0)
    assert fast < slow
    damp, dry = drying_time_h(1e-4, 15.0, np.array([90.0, 50.0]))
    assert damp == pytest.approx(5.0 * dry)


def test_a_film_dries_even_in_saturated_air() -> None:
    assert drying_time_h(1e-4, 15.0, 100.0) == drying_time_h(1e-4, 15.0, 95.0)


def test_evaporation_by_hand() -> None:
    # 15 degC: 12.8 g/m3 at saturation; at 80 % the deficit is 2.56 g/m3; 5 mm/s carry 12.8 mg/(m2 s), and
    # 0.1 kg/m2 of water lasts 7810 s
    assert drying_time_h(1e-4, 15.0, 80.0) == pytest.approx(7810.0 / 3600.0, rel=0.01)


@pytest.mark.parametrize(("depth", "intensity"), [(-1.0, 1.0), (800.0, 0.0)])
def test_meaningless_rain_is_refused(depth: float, intensity: float) -> None:
    with pytest.raises(OutOfRangeError):
        rain_hours_per_year(depth, intensity)


@pytest.mark.parametrize(("chloride", "depth"), [(-1.0, 800.0), (10.0, 0.0)])
def test_meaningless_deposition_is_refused(chloride: float, depth: float) -> None:
    with pytest.raises(OutOfRangeError):
        rain_conductivity_S_per_m(chloride, depth)
