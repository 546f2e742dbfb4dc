"""Dose-response functions, their validity, and long-term loss."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.atmosphere import (
    DOSE_RESPONSE,
    LONG_TERM_EXPONENTS,
    StandardMetal,
    cumulative_loss,
    first_year_rate_um_per_year,
    validity,
)
from service.chemistry.errors import OutOfRangeError


@pytest.mark.parametrize("metal", list(StandardMetal))
def test_rate_is_continuous_where_the_temperature_term_switches(metal: StandardMetal) -> None:
    below, at, above = first_year_rate_um_per_year(metal, np.array([10 - 1e-9, 10.0, 10 + 1e-9]), 70, 5, 5)
    assert below == pytest.approx(at, rel=1e-8)
    assert above == pytest.approx(at, rel=1e-8)


@pytest.mark.parametrize("metal", list(StandardMetal))
def test_warming_from_the_cold_raises_the_sulfur_term_and_then_lowers_it(metal: StandardMetal) -> None:
    cold, mild, hot = first_year_rate_um_per_year(metal, np.array([0.0, 10.0, 25.0]), 70, 50, 0.4)
    assert cold < mild
    assert hot < mild


@pytest.mark.parametrize("metal", list(StandardMetal))
def test_clean_air_is_raised_to_the_lower_fit_limits(metal: StandardMetal) -> None:
    clean = first_year_rate_um_per_year(metal, 10, 70, 0.0, 0.0)
    floor = first_year_rate_um_per_year(metal, 10, 70, 0.7, 0.4)
    assert clean == floor > 0.0


def test_arrays_broadcast_to_one_shape() -> None:
    rate = first_year_rate_um_per_year(
        StandardMetal.ZINC, np.array([[5.0], [15.0]]), np.array([60.0, 70.0, 80.0]), 4, 3
    )
    assert rate.shape == (2, 3)
    assert np.all(np.diff(rate, axis=1) > 0.0)


def test_validity_names_the_inputs_outside() -> None:
    mask = validity(np.array([10.0, 30.0]), 70, 200, 5)
    assert mask.outside() == ("temperature", "so2")
    assert mask.inside.tolist() == [False, False]
    assert validity(28.7, 93, 150.4, 760.5).outside() == ()
    assert validity(-17.2, 33.9, 0.69, 0.39).outside() == ("temperature", "humidity", "so2", "chloride")


def test_not_a_number_is_outside_and_stays_not_a_number() -> None:
    assert validity(np.nan, 70, 4, 3).outside() == ("temperature",)
    assert np.isnan(first_year_rate_um_per_year(StandardMetal.COPPER, 10, 70, np.nan, 3))


def test_aluminium_is_stated_with_twice_the_doubt() -> None:
    factors = {metal: response.uncertainty_factor for metal, response in DOSE_RESPONSE.items()}
    assert factors.pop(StandardMetal.ALUMINIUM) == 2.0
    assert set(factors.values()) == {1.5}


@pytest.mark.parametrize(("metal", "exponents"), LONG_TERM_EXPONENTS.items())
def test_the_conservative_exponent_loses_more(metal: StandardMetal, exponents: tuple[float, float]) -> None:
    average, conservative = cumulative_loss(2.0, np.array(exponents), 30.0)
    assert 2.0 < average < conservative < 60.0, metal


def test_loss_beyond_twenty_years_follows_the_tangent() -> None:
    before, at, after = cumulative_loss(1.0, 0.6, np.array([20 - 1e-6, 20.0, 20 + 1e-6]))
    assert (at - before) == pytest.approx(after - at, rel=1e-4)
    late = cumulative_loss(1.0, 0.6, np.array([40.0, 60.0, 80.0]))
    assert np.diff(late, 2) == pytest.approx(0.0, abs=1e-12)
    assert float(late[0]) > 40.0**0.6


def test_one_year_loses_the_first_year_rate_and_no_time_loses_nothing() -> None:
    assert cumulative_loss(3.0, 0.7, np.array([0.0, 1.0])).tolist() == [0.0, 3.0]


def test_negative_time_is_refused() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        cumulative_loss(1.0, 0.5, np.array([1.0, -1.0]))
    assert caught.value.quantity == "years"
