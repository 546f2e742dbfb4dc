"""The fixed sample, its correlation, spreads and quantiles."""

from __future__ import annotations

from statistics import NormalDist

import numpy as np
import pytest

from service.chemistry.errors import OutOfRangeError
from service.chemistry.sampling import (
    correlate,
    quantiles,
    spread,
    spread_logarithmic,
    standard_normal_sample,
)


@pytest.mark.parametrize(("n", "dimensions"), [(32, 4), (64, 8), (64, 14), (64, 16), (128, 24)])
def test_columns_are_normal_and_hardly_correlated(n: int, dimensions: int) -> None:
    sample = standard_normal_sample(n, dimensions)
    scores = [NormalDist().inv_cdf((rank + 0.5) / n) for rank in range(n)]
    assert np.sort(sample, axis=0) == pytest.approx(np.tile(np.array(scores)[:, None], dimensions), abs=1e-12)
    between = np.corrcoef(sample.T) - np.eye(dimensions)
    assert np.abs(between).max() < 0.06


def test_the_sample_never_changes() -> None:
    sample = standard_normal_sample(64, 3)
    assert sample is standard_normal_sample(64, 3)
    assert not sample.flags.writeable
    standard_normal_sample.cache_clear()
    assert np.array_equal(sample, standard_normal_sample(64, 3))
    assert sample[0].round(4).tolist() == [-0.2171, 0.6024, -0.5561]


@pytest.mark.parametrize(("n", "dimensions"), [(64, 0), (64, 25), (8, 8)])
def test_impossible_sizes_are_refused(n: int, dimensions: int) -> None:
    with pytest.raises(OutOfRangeError):
        standard_normal_sample(n, dimensions)


def test_correlated_scores_have_the_correlation_asked_for() -> None:
    first, second = standard_normal_sample(256, 2).T
    for wanted in (-0.7, 0.0, 0.9):
        mixed = correlate(first, second, wanted)
        assert np.corrcoef(first, mixed)[0, 1] == pytest.approx(wanted, abs=0.02)
        assert mixed.std() == pytest.approx(first.std(), rel=0.02)
    with pytest.raises(OutOfRangeError):
        correlate(first, second, 1.1)


def test_spreads_meet_their_bounds() -> None:
    sample = standard_normal_sample(2001, 1)[:, 0]
    for figures, bounds in (
        (spread(sample, 5.0, 4.0, 9.0), (4.0, 5.0, 9.0)),
        (spread_logarithmic(sample, 5.0, 1.0, 9.0), (1.0, 5.0, 9.0)),
    ):
        assert quantiles(figures) == pytest.approx(np.array(bounds), rel=3e-3)


def test_quantiles_are_those_of_numpy() -> None:
    values = standard_normal_sample(64, 6)
    expected = np.quantile(values, [0.05, 0.5, 0.95], axis=0)
    assert quantiles(values, axis=0) == pytest.approx(expected, abs=1e-14)


def test_a_hole_in_the_sample_leaves_no_quantile_and_infinity_passes() -> None:
    values = np.array([[1.0, np.nan, 3.0], [1.0, 2.0, np.inf]])
    low, high = quantiles(values, (0.0, 1.0))
    assert np.isnan(low[0])
    assert np.isnan(high[0])
    assert (low[1], high[1]) == (1.0, np.inf)
    with pytest.raises(OutOfRangeError):
        quantiles(values, (1.5,))
