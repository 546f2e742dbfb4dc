"""Voltage, heat, temperature and budget."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.contact_heat import (
    heat_W,
    share_of_budget_left,
    spot_temperature_C,
    voltage_drop_V,
    voltage_for_spot_temperature_V,
)
from service.chemistry.errors import OutOfRangeError


def test_direction_of_the_current_does_not_matter() -> None:
    assert voltage_drop_V(np.array([-10.0, 10.0]), 1e-3).tolist() == [0.01, 0.01]
    assert heat_W(np.array([-10.0, 10.0]), 1e-3) == pytest.approx(0.1)


def test_no_voltage_no_excess_temperature() -> None:
    assert spot_temperature_C(0.0, 40.0) == pytest.approx(40.0)


def test_small_voltages_heat_as_the_square() -> None:
    # series of the relation: dT = U^2 / (8 L T0)
    excess = spot_temperature_C(1e-3, 20.0) - 20.0
    assert excess == pytest.approx(1e-6 / (8.0 * 2.45e-8 * 293.15), rel=1e-3)


def test_voltage_and_temperature_are_inverses() -> None:
    voltage = np.array([0.01, 0.1, 0.5])
    assert voltage_for_spot_temperature_V(spot_temperature_C(voltage, 30.0), 30.0) == pytest.approx(voltage)


def test_the_budget_left_turns_negative_when_exceeded() -> None:
    assert share_of_budget_left(np.array([0.0, 1.0, 3.0]), 2.0).tolist() == [1.0, 0.5, -0.5]


@pytest.mark.parametrize(
    ("call", "quantity"),
    [
        (lambda: voltage_drop_V(1.0, -1.0), "resistance_ohm"),
        (lambda: spot_temperature_C(0.1, -273.15), "body_temperature_C"),
        (lambda: voltage_for_spot_temperature_V(100.0, -300.0), "body_temperature_C"),
        (lambda: voltage_for_spot_temperature_V(10.0, 20.0), "spot_temperature_C"),
        (lambda: share_of_budget_left(-1.0, 1.0), "used"),
        (lambda: share_of_budget_left(1.0, 0.0), "budget"),
    ],
)
def test_meaningless_figures_are_refused(call: object, quantity: str) -> None:
    assert callable(call)
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.quantity == quantity
