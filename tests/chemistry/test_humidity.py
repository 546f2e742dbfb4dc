"""Distribution of hourly humidity and temperature."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats  # type: ignore[import-untyped]

from service.chemistry.errors import OutOfRangeError
from service.chemistry.humidity import median_above, share_above, share_above_freezing


def test_the_incomplete_beta_function_agrees_with_scipy() -> None:
    random = np.random.default_rng(20240611)
    threshold, mean = random.uniform(0.5, 99.5, 3000), random.uniform(2.0, 98.0, 3000)
    concentration = random.uniform(1.0, 60.0, 3000)
    a, b = mean / 100.0 * concentration, (1.0 - mean / 100.0) * concentration
    expected = stats.beta.sf(threshold / 100.0, a, b)
    assert share_above(threshold, mean, concentration) == pytest.approx(expected, abs=1e-12)


def test_a_symmetric_distribution_is_halved_at_its_mean() -> None:
    assert share_above(50.0, 50.0, 7.0) == pytest.approx(0.5, abs=1e-14)


def test_the_median_above_a_threshold_halves_the_hours_above_it() -> None:
    threshold, mean = np.array([33.0, 75.3, 90.0]), np.array([60.0, 75.0, 88.0])
    median = median_above(threshold, mean)
    assert np.all((median > threshold) & (median < 100.0))
    assert share_above(median, mean) == pytest.approx(0.5 * share_above(threshold, mean), rel=1e-9)


def test_share_above_freezing_by_the_normal_distribution() -> None:
    expected = stats.norm.sf(0.0, 9.8, 9.0)
    assert share_above_freezing(9.8) == pytest.approx(expected)
    assert share_above_freezing(9.8, 9.0, -5.0) > share_above_freezing(9.8)


@pytest.mark.parametrize(
    ("threshold", "mean", "concentration", "quantity"),
    [
        (0.0, 70.0, 5.0, "threshold_pct"),
        (100.0, 70.0, 5.0, "threshold_pct"),
        (80.0, 0.0, 5.0, "mean_pct"),
        (80.0, 100.0, 5.0, "mean_pct"),
        (80.0, np.nan, 5.0, "mean_pct"),
        (80.0, 70.0, 0.0, "concentration"),
    ],
)
def test_meaningless_humidities_are_refused(
    threshold: float, mean: float, concentration: float, quantity: str
) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        share_above(threshold, mean, concentration)
    assert caught.value.quantity == quantity


def test_a_spread_must_be_positive() -> None:
    with pytest.raises(OutOfRangeError):
        share_above_freezing(10.0, 0.0)
