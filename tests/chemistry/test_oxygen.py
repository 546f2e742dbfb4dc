"""Oxygen: solubility, diffusivity, limiting current."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.oxygen import (
    STAGNANT_LAYER,
    THINNEST_FILM,
    TRANSFER_LAYER,
    limiting_current_density,
    oxygen_diffusivity,
    oxygen_solubility,
    proton_limiting_current_density,
    surface_limiting_current_density,
)


def test_salt_and_warmth_drive_oxygen_out_and_let_it_move() -> None:
    temperature = np.linspace(0.0, 60.0, 61)
    assert (np.diff(oxygen_solubility(temperature)) < 0.0).all()
    assert (np.diff(oxygen_diffusivity(temperature)) > 0.0).all()
    salinity = np.linspace(0.0, 263.0, 50)
    assert (np.diff(oxygen_solubility(25.0, salinity)) < 0.0).all()
    assert (np.diff(oxygen_diffusivity(25.0, salinity)) < 0.0).all()


def test_salt_slows_diffusion_as_stated() -> None:
    ratio = oxygen_diffusivity(25.0, np.array([35.0, 263.0])) / oxygen_diffusivity(25.0)
    assert ratio == pytest.approx(np.array([0.95, 0.50]), abs=0.005)


def test_a_film_feeds_more_than_stagnant_water_up_to_the_natural_layer() -> None:
    film = np.array([10e-6, 100e-6, 500e-6, 2e-3])
    limit = limiting_current_density(20.0, 35.0, film)
    assert limit[0] > limit[1] > limit[2] == limit[3]
    supply = limit * (np.minimum(film, STAGNANT_LAYER) + TRANSFER_LAYER)
    assert supply == pytest.approx(np.full(4, supply[0]))


def test_immersion_has_no_transfer_layer() -> None:
    immersed = limiting_current_density(20.0, 35.0)
    film = limiting_current_density(20.0, 35.0, 1.0)
    assert film / immersed == pytest.approx(STAGNANT_LAYER / (STAGNANT_LAYER + TRANSFER_LAYER))


def test_no_prediction_below_the_thinnest_film() -> None:
    thin = limiting_current_density(20.0, 35.0, np.array([THINNEST_FILM, 0.99 * THINNEST_FILM, np.nan]))
    assert np.isnan(thin).tolist() == [False, True, True]


def test_a_narrow_passage_feeds_more_oxygen_at_the_same_velocity() -> None:
    narrow, wide = limiting_current_density(25.0, 35.0, np.inf, 1.0, np.array([0.01, 0.1]))
    assert narrow / wide == pytest.approx(10.0**0.14)
    assert limiting_current_density(25.0, bore=0.01) == limiting_current_density(25.0)


def test_flow_helps_from_some_velocity_on() -> None:
    flow = limiting_current_density(25.0, 35.0, np.inf, np.array([0.0, 0.01, 0.3, 1.0, 3.0]))
    assert flow[0] == flow[1] == limiting_current_density(25.0, 35.0)
    layers = STAGNANT_LAYER * flow[0] / flow[2:]
    assert 50e-6 < layers[0] < 200e-6
    assert ((layers[1:] > 10e-6) & (layers[1:] < 60e-6)).all()
    assert flow[4] / flow[3] == pytest.approx(3.0**0.86)


def test_hydrogen_ions_matter_at_ph_5_only() -> None:
    share = proton_limiting_current_density(np.array([5.0, 6.0])) / limiting_current_density(25.0, 35.0)
    assert share == pytest.approx(np.array([0.058, 0.0058]), rel=0.05)
    assert proton_limiting_current_density(5.0, 50e-6) == pytest.approx(0.179, rel=0.01)


def test_a_surface_uses_its_share_of_stagnant_water() -> None:
    share = np.linspace(0.02, 1.0, 9)
    assert surface_limiting_current_density(0.3, share, 0.3) == pytest.approx(0.3 * share)


def test_a_thin_film_feeds_a_good_cathode_and_hardly_a_poor_one() -> None:
    good, poor = surface_limiting_current_density(3.0, np.array([1.0, 0.03]), 0.3) / np.array([0.3, 0.009])
    assert good == pytest.approx(10.0)
    assert 1.0 < poor < 1.05


def test_scarce_oxygen_limits_every_surface() -> None:
    limit = surface_limiting_current_density(0.001, np.array([0.03, 0.3, 1.0]), 0.3)
    assert (limit <= 0.001).all()
    assert limit == pytest.approx(0.001, rel=0.15)
