"""From current to loss."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.errors import MissingValenceError, OutOfRangeError, UnknownElementError
from service.chemistry.faraday import (
    deepest_attack,
    dissolved_current,
    equivalent_weight,
    loss_after,
    mass_loss_rate,
    penetration_rate,
    per_year,
    plating_life_years,
)


def test_elements_below_one_per_cent_do_not_count() -> None:
    pure = equivalent_weight({"Al": 1.0}, {"Al": 3})
    assert equivalent_weight({"Al": 0.985, "Fe": 0.009, "Si": 0.006}, {"Al": 3}) == pytest.approx(pure)
    assert equivalent_weight({"Al": 0.98, "Fe": 0.02}, {"Al": 3, "Fe": 2}) > pure


def test_what_does_not_dissolve_still_falls_off_with_the_rest() -> None:
    silicon = equivalent_weight({"Al": 0.9, "Si": 0.1}, {"Al": 3, "Si": 0})
    assert silicon == pytest.approx(equivalent_weight({"Al": 1.0}, {"Al": 3}) / 0.9)


def test_incomplete_input_is_refused() -> None:
    with pytest.raises(MissingValenceError, match="Mg") as caught:
        equivalent_weight({"Al": 0.9, "Mg": 0.1}, {"Al": 3})
    assert caught.value.element == "Mg"
    with pytest.raises(UnknownElementError):
        equivalent_weight({"Al": 0.9, "Xx": 0.1}, {"Al": 3, "Xx": 1})
    with pytest.raises(OutOfRangeError):
        equivalent_weight({"Si": 1.0}, {"Si": 0})
    with pytest.raises(OutOfRangeError):
        equivalent_weight({"Fe": 0.001}, {"Fe": 2})


def test_mass_and_thickness_belong_together() -> None:
    current = np.array([0.1, 1.0, 10.0])
    loss = penetration_rate(current, 32.69, 7140.0)
    assert loss * 7140.0 == pytest.approx(mass_loss_rate(current, 32.69))
    assert per_year(loss)[1] == pytest.approx(1.4975e-3, rel=1e-3)


def test_magnesium_dissolves_twice_what_an_ammeter_shows() -> None:
    assert dissolved_current(np.array([1.0, -2.0]), 0.5).tolist() == [2.0, -4.0]
    for efficiency in (0.0, 1.1, np.nan):
        with pytest.raises(OutOfRangeError):
            dissolved_current(1.0, efficiency)


def test_the_deepest_attack_is_never_less_than_the_mean() -> None:
    assert deepest_attack(2.0, np.array([0.5, 1.0, 7.0])).tolist() == [2.0, 2.0, 14.0]


def test_loss_and_life_are_inverse() -> None:
    years = np.array([0.2, 1.0, 3.0, 25.0])
    for exponent in (0.0, 0.3, 0.7):
        lost = loss_after(years, 4e-6, exponent)
        assert plating_life_years(lost, 4e-6, exponent).decayed == pytest.approx(years)
    assert loss_after(years, 4e-6, 0.0) == pytest.approx(4e-6 * years)


def test_decay_only_lengthens_a_life() -> None:
    life = plating_life_years(np.array([1e-6, 4e-6, 20e-6]), 4e-6, 0.4)
    assert life.undecayed == pytest.approx(np.array([0.25, 1.0, 5.0]))
    assert (life.decayed >= life.undecayed).all()
    assert life.decayed[:2].tolist() == life.undecayed[:2].tolist()


def test_what_loses_nothing_lasts_for_ever() -> None:
    life = plating_life_years(10e-6, np.array([0.0, 1e-6]), 0.3)
    assert np.isinf([life.undecayed[0], life.decayed[0]]).all()


@pytest.mark.parametrize("exponent", [-0.1, 1.0, np.nan])
def test_an_impossible_decay_is_refused(exponent: float) -> None:
    with pytest.raises(OutOfRangeError):
        loss_after(1.0, 1e-6, exponent)
    with pytest.raises(OutOfRangeError):
        plating_life_years(1e-6, 1e-6, exponent)
