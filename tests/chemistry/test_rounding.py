"""Three significant figures."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.chemistry.rounding import three_significant


@pytest.mark.parametrize(
    ("value", "rounded"),
    [
        (1234.5, 1230.0),
        (-0.00099996, -0.001),
        (999.6, 1000.0),
        (0.1, 0.1),
        (100.0, 100.0),
        (1.0, 1.0),
        (0.0, 0.0),
        (-98765e-9, -9.88e-5),
        (4.44e22, 4.44e22),
        (np.inf, np.inf),
    ],
)
def test_known_roundings(value: float, rounded: float) -> None:
    assert three_significant(value) == rounded


def test_not_a_number_passes() -> None:
    assert np.isnan(three_significant(np.nan))


def test_the_shape_is_kept() -> None:
    assert three_significant(np.ones((2, 3))).shape == (2, 3)


@given(st.floats(1e-20, 1e22).flatmap(lambda size: st.sampled_from([size, -size])))
def test_it_agrees_with_the_decimal_rounding_of_python(value: float) -> None:
    expected = float(f"{value:.2e}")
    half_way = abs(abs(value / 10.0 ** np.floor(np.log10(abs(value))) * 100.0) % 1.0 - 0.5) < 1e-9
    assert three_significant(value) == expected or half_way


@given(st.floats(1e-12, 1e12))
def test_rounding_twice_changes_nothing(value: float) -> None:
    once = three_significant(value)
    assert three_significant(once) == once
    assert len(f"{float(once):.17g}".rstrip("0")) <= 25
    assert float(f"{float(once):.2e}") == float(once)
