"""Constriction, films and force."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.contact import (
    cluster_resistance_ohm,
    constriction_resistance_ohm,
    contact_area_m2,
    film_resistance_ohm,
    minimum_force_N,
    spot_resistance_ohm,
)
from service.chemistry.errors import OutOfRangeError

COPPER, ALUMINIUM = 1.75e-8, 2.9e-8


def test_unlike_members_resist_as_the_mean_of_like_ones() -> None:
    like = (spot_resistance_ohm(rho, rho, 1e-4) for rho in (COPPER, ALUMINIUM))
    assert spot_resistance_ohm(COPPER, ALUMINIUM, 1e-4) == pytest.approx(0.5 * sum(like))


def test_four_times_the_force_halves_a_plastic_constriction() -> None:
    one, four = constriction_resistance_ohm(COPPER, COPPER, 500e6, np.array([10.0, 40.0]))
    assert four == pytest.approx(0.5 * one)


def test_partly_elastic_spots_carry_less_pressure_on_more_area() -> None:
    plastic, elastic = contact_area_m2(10.0, 500e6, np.array([1.0, 0.2]))
    assert elastic == pytest.approx(5.0 * plastic)


def test_one_spot_as_large_as_its_cluster_counts_twice() -> None:
    # n = 1, a = alpha: each term is the resistance of a single spot
    assert cluster_resistance_ohm(COPPER, 1.0, 1e-4, 1e-4) == pytest.approx(
        2.0 * spot_resistance_ohm(COPPER, COPPER, 1e-4)
    )


def test_many_spots_leave_the_resistance_of_the_cluster() -> None:
    many = cluster_resistance_ohm(COPPER, 1e6, 1e-5, 1e-3)
    assert many == pytest.approx(spot_resistance_ohm(COPPER, COPPER, 1e-3), rel=1e-3)


def test_minimum_force_inverts_the_constriction() -> None:
    force = np.array([0.5, 20.0, 5000.0])
    resistance = constriction_resistance_ohm(COPPER, ALUMINIUM, 300e6, force)
    assert minimum_force_N(COPPER, ALUMINIUM, 300e6, resistance) == pytest.approx(force)


def test_no_film_no_film_resistance() -> None:
    assert film_resistance_ohm(1e3, 0.0, 1e-8) == 0.0


@pytest.mark.parametrize(
    ("call", "quantity"),
    [
        (lambda: contact_area_m2(0.0, 500e6), "force_N"),
        (lambda: contact_area_m2(1.0, -1.0), "hardness_Pa"),
        (lambda: contact_area_m2(1.0, 1e6, 0.0), "pressure_share"),
        (lambda: spot_resistance_ohm(np.nan, 1e-8, 1e-4), "first_resistivity_ohm_m"),
        (lambda: cluster_resistance_ohm(1e-8, 0.5, 1e-5, 1e-4), "spots"),
        (lambda: film_resistance_ohm(-1.0, 1e-9, 1e-8), "film_resistivity_ohm_m"),
        (lambda: film_resistance_ohm(1.0, 1e-9, 0.0), "area_m2"),
        (lambda: minimum_force_N(1e-8, 1e-8, 5e8, 0.0), "resistance_ohm"),
    ],
)
def test_meaningless_figures_are_refused(call: object, quantity: str) -> None:
    assert callable(call)
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.quantity == quantity
