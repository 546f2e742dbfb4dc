"""Sea water and salt films."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.electrolyte import (
    SHARES,
    Deposit,
    dissolved_salt_conductivity,
    salt_film,
    sea_water_conductivity,
    sea_water_oxygen,
    sea_water_salinity,
)
from service.chemistry.errors import OutOfRangeError


def test_sea_water_outside_its_range_is_not_a_number() -> None:
    temperature = np.array([-3.0, 41.0, 20.0, 20.0, np.nan])
    salinity = np.array([35.0, 35.0, -1.0, 43.0, 35.0])
    assert np.all(np.isnan(sea_water_conductivity(temperature, salinity)))
    assert np.all(np.isnan(sea_water_oxygen(temperature, salinity)))


def test_salt_conducts_and_drives_oxygen_out() -> None:
    salinity = np.array([5.0, 20.0, 35.0])
    assert np.all(np.diff(sea_water_conductivity(15.0, salinity)) > 0.0)
    assert np.all(np.diff(sea_water_oxygen(15.0, salinity)) < 0.0)


@pytest.mark.parametrize("deposit", list(Deposit))
def test_shares_of_a_deposit_add_up(deposit: Deposit) -> None:
    assert sum(SHARES[deposit].values()) == pytest.approx(1.0)


def test_a_dry_salt_makes_no_film() -> None:
    film = salt_film(np.array([20.0, 60.0]), 1.0, deposit=Deposit.SODIUM_CHLORIDE)
    assert film.thickness_m.tolist() == [0.0, 0.0]
    assert film.conductivity_S_per_m.tolist() == [0.0, 0.0]
    assert film.sheet_conductance_S.tolist() == [0.0, 0.0]


def test_sea_salt_keeps_a_thin_brine_where_sodium_chloride_is_dry() -> None:
    thin, thick = salt_film(np.array([60.0, 80.0]), 1.0).thickness_m
    assert 0.0 < thin < 1e-6 < thick


def test_the_load_sets_the_sheet_conductance_and_humidity_hardly_does() -> None:
    humidity = np.array([76.0, 98.0])
    one, two = salt_film(humidity, 1.0), salt_film(humidity, 2.0)
    assert two.sheet_conductance_S == pytest.approx(2.0 * one.sheet_conductance_S)
    assert two.conductivity_S_per_m == pytest.approx(one.conductivity_S_per_m)
    assert one.sheet_conductance_S[1] / one.sheet_conductance_S[0] < 2.5
    assert one.thickness_m[1] / one.thickness_m[0] > 7.0


def test_air_wetter_than_98_percent_counts_as_98() -> None:
    wet, wettest = salt_film(np.array([98.0, 100.0]), 0.5).thickness_m
    assert wet == wettest


def test_no_salt_no_film() -> None:
    assert salt_film(90.0, 0.0).thickness_m == 0.0
    assert salt_film(90.0, 0.0).conductivity_S_per_m == 0.0


def test_a_negative_load_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        salt_film(90.0, -1.0)
    with pytest.raises(OutOfRangeError):
        dissolved_salt_conductivity(-1.0, 1e-4, 20.0)


def test_a_film_of_no_thickness_cannot_hold_salt() -> None:
    with pytest.raises(OutOfRangeError):
        dissolved_salt_conductivity(1.0, 0.0, 20.0)


def test_dissolved_sea_salt_conducts_nearly_as_sea_water() -> None:
    # 35 g/kg in water of 1024.6 kg/m3, one millimetre deep
    film = float(dissolved_salt_conductivity(35.0 * 1.0246, 1e-3, 20.0))
    assert film == pytest.approx(float(sea_water_conductivity(20.0)), rel=0.08)


def test_too_much_salt_leaves_a_saturated_film() -> None:
    some, more = dissolved_salt_conductivity(np.array([10.0, 1000.0]), 1e-5, 20.0)
    assert some == more
    assert 22.0 < more < 23.0


def test_an_equilibrium_film_and_its_dissolved_salt_agree() -> None:
    film = salt_film(90.0, 1.0, 20.0, Deposit.SODIUM_CHLORIDE)
    again = dissolved_salt_conductivity(1.0, film.thickness_m, 20.0)
    assert again == pytest.approx(film.conductivity_S_per_m, rel=1e-9)


def test_salinity_is_the_inverse_of_conductivity_within_its_range() -> None:
    salt, warmth = np.array([2.0, 8.0, 35.0]), np.array([5.0, 10.0, 25.0])
    assert sea_water_salinity(warmth, sea_water_conductivity(warmth, salt)) == pytest.approx(salt, rel=1e-6)
    assert np.isnan(sea_water_salinity(55.0, 6.0))
