"""Bessel functions against scipy.special."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import ive, kve  # type: ignore[import-untyped]

from service.chemistry.bessel import (
    annulus_ratio,
    disk_ratio,
    plate_ratio,
    scaled_first_kind,
    scaled_second_kind,
)

X = np.concatenate([np.geomspace(1e-8, 1e4, 4001), [2.0, 3.75]])


@pytest.mark.parametrize("order", [0, 1])
def test_polynomials_are_as_good_as_the_handbook_says(order: int) -> None:
    assert scaled_first_kind(X)[order] == pytest.approx(ive(order, X), rel=6e-7)
    assert scaled_second_kind(X)[order] == pytest.approx(kve(order, X), rel=3e-7)


def test_ratios_are_those_of_the_functions() -> None:
    assert disk_ratio(X) == pytest.approx(ive(1, X) / ive(0, X), rel=1.2e-6)
    assert plate_ratio(X) == pytest.approx(kve(1, X) / kve(0, X), rel=1.2e-6)


@pytest.mark.parametrize("widening", [1.001, 1.5, 10.0])
def test_the_annulus_is_the_closed_form(widening: float) -> None:
    x = np.geomspace(1e-3, 50.0, 60)
    y = widening * x
    mirrored = np.exp(-2.0 * (y - x)) * kve(1, y) / ive(1, y)
    expected = (kve(1, x) - mirrored * ive(1, x)) / (kve(0, x) + mirrored * ive(0, x))
    assert annulus_ratio(x, y) == pytest.approx(expected, rel=1e-5, abs=1e-6 / x.min())
    assert annulus_ratio(x, np.inf) == pytest.approx(plate_ratio(x), rel=1e-12)
