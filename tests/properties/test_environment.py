"""Properties that hold for any air, water, film and contact."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.chemistry.atmosphere import (
    LONG_TERM_EXPONENTS,
    StandardMetal,
    cumulative_loss,
    first_year_rate_um_per_year,
    validity,
)
from service.chemistry.brine import conductivity_S_per_m
from service.chemistry.contact import constriction_resistance_ohm, minimum_force_N
from service.chemistry.contact_heat import spot_temperature_C, voltage_for_spot_temperature_V
from service.chemistry.corrosivity import corrosivity_category
from service.chemistry.electrolyte import Deposit, salt_film, sea_water_conductivity, sea_water_oxygen
from service.chemistry.humidity import median_above, share_above
from service.chemistry.intermodulation import products_in_bands
from service.chemistry.rain import HOURS_PER_YEAR
from service.chemistry.solutes import Solute, equilibrium_molality, mass_fraction, water_activity
from service.chemistry.wetness import Climate, film_hours

metals = st.sampled_from(list(StandardMetal))
temperatures = st.floats(-17.1, 28.7)
humidities = st.floats(34.0, 93.0)
sulfur = st.floats(0.7, 150.0)
chloride = st.floats(0.4, 760.0)
climates = st.builds(
    Climate,
    temperature_C=st.floats(-20.0, 30.0),
    relative_humidity_pct=st.floats(15.0, 96.0),
    salt_load_g_per_m2=st.floats(0.0, 20.0),
    rain_h_per_year=st.floats(0.0, 4000.0),
    is_sheltered=st.booleans(),
    deposit=st.sampled_from(list(Deposit)),
    humidity_concentration=st.floats(3.0, 15.0),
)


@given(metals, temperatures, humidities, sulfur, chloride, st.floats(1.01, 2.0))
def test_wetter_and_dirtier_air_never_corrodes_less(
    metal: StandardMetal, temperature: float, humidity: float, so2: float, salt: float, factor: float
) -> None:
    rate = first_year_rate_um_per_year(metal, temperature, humidity, so2, salt)
    assert rate > 0.0
    assert first_year_rate_um_per_year(metal, temperature, humidity * factor, so2, salt) > rate
    assert first_year_rate_um_per_year(metal, temperature, humidity, so2 * factor, salt) > rate
    assert first_year_rate_um_per_year(metal, temperature, humidity, so2, salt * factor) > rate
    assert validity(temperature, humidity, so2, salt).inside


@given(metals, st.lists(st.floats(0.0, 1000.0), min_size=2, max_size=20))
def test_categories_follow_the_order_of_rates(metal: StandardMetal, rates: list[float]) -> None:
    assert np.all(np.diff(corrosivity_category(metal, np.sort(rates))) >= 0)


@given(metals, st.floats(0.0, 100.0), st.floats(0.0, 60.0), st.floats(0.01, 40.0))
def test_loss_grows_with_time_and_slows_down(
    metal: StandardMetal, first_year: float, years: float, step: float
) -> None:
    exponent = LONG_TERM_EXPONENTS[metal][1]
    early, middle, late = cumulative_loss(
        first_year, exponent, np.array([years, years + step, years + 2 * step])
    )
    assert early <= middle <= late
    assert late - middle <= (middle - early) * (1.0 + 1e-9) + 1e-9


@given(st.floats(-2.0, 39.0), st.floats(2.0, 41.0))
def test_warm_sea_water_conducts_better_and_holds_less_oxygen(temperature: float, salinity: float) -> None:
    cold, warm = np.array([temperature, temperature + 1.0])
    assert sea_water_conductivity(warm, salinity) > sea_water_conductivity(cold, salinity)
    assert sea_water_oxygen(warm, salinity) < sea_water_oxygen(cold, salinity)


@given(st.sampled_from(list(Solute)), st.floats(76.5, 99.9))
def test_a_solution_in_equilibrium_has_the_activity_of_the_air(solute: Solute, humidity: float) -> None:
    activity = water_activity(solute, equilibrium_molality(solute, humidity))
    assert float(activity) == pytest.approx(humidity / 100.0, abs=1e-6)


@given(st.sampled_from(list(Solute)), st.floats(0.0, 5.8), st.floats(-2.0, 60.0))
def test_conductivities_are_those_of_real_brines(solute: Solute, molality: float, temperature: float) -> None:
    kappa = float(conductivity_S_per_m(solute, mass_fraction(solute, molality), temperature))
    assert 0.0 <= kappa < 50.0


@given(st.floats(76.0, 97.0), st.floats(0.001, 20.0), st.floats(0.0, 35.0), st.sampled_from(list(Deposit)))
def test_damper_air_thickens_and_dilutes_a_film(
    humidity: float, load: float, temperature: float, deposit: Deposit
) -> None:
    drier, damper = np.array([humidity, humidity + 1.0])
    thin, thick = (salt_film(rh, load, temperature, deposit) for rh in (drier, damper))
    assert thick.thickness_m > thin.thickness_m
    assert thick.sheet_conductance_S > thin.sheet_conductance_S
    double = salt_film(drier, 2.0 * load, temperature, deposit)
    assert float(double.thickness_m) == pytest.approx(2.0 * float(thin.thickness_m))


@given(st.floats(1.0, 99.0), st.floats(5.0, 95.0), st.floats(2.0, 20.0))
def test_shares_of_a_humidity_are_shares(threshold: float, mean: float, concentration: float) -> None:
    share = float(share_above(threshold, mean, concentration))
    assert 0.0 <= share <= 1.0
    mirrored = float(share_above(100.0 - threshold, 100.0 - mean, concentration))
    assert share + mirrored == pytest.approx(1.0, abs=1e-10)
    assert threshold <= median_above(threshold, mean, concentration) <= 100.0


@given(climates)
def test_a_year_has_8766_hours(climate: Climate) -> None:
    hours = film_hours(climate)
    states = [float(h) for h in (hours.rain_h, hours.deliquesced_h, hours.drying_h, hours.dry_h)]
    assert sum(states) == pytest.approx(HOURS_PER_YEAR, abs=1e-6)
    assert min(states) >= 0.0
    assert 0.0 <= float(hours.residual_brine_h) <= states[3]


@given(climates, st.floats(1.1, 5.0))
def test_more_salt_never_shortens_the_brine_nor_thins_it(climate: Climate, factor: float) -> None:
    less = film_hours(climate)
    more = film_hours(replace(climate, salt_load_g_per_m2=np.asarray(climate.salt_load_g_per_m2) * factor))
    assert more.deliquesced_h >= less.deliquesced_h
    assert more.deliquesced.thickness_m >= less.deliquesced.thickness_m
    assert more.drying.conductivity_S_per_m * more.drying.thickness_m >= (
        less.drying.conductivity_S_per_m * less.drying.thickness_m * (1.0 - 1e-9)
    )


@given(st.floats(1e-8, 1e-5), st.floats(1e-8, 1e-5), st.floats(1e7, 1e10), st.floats(1e-3, 1e5))
def test_force_and_constriction_are_inverses(
    first: float, second: float, hardness: float, force: float
) -> None:
    resistance = constriction_resistance_ohm(first, second, hardness, force)
    assert resistance == constriction_resistance_ohm(second, first, hardness, force)
    assert float(minimum_force_N(first, second, hardness, resistance)) == pytest.approx(force)


@given(st.floats(-50.0, 150.0), st.floats(1e-3, 1.0))
def test_spot_temperature_round_trip(body: float, voltage: float) -> None:
    spot = spot_temperature_C(voltage, body)
    assert spot > body
    assert float(voltage_for_spot_temperature_V(spot, body)) == pytest.approx(voltage, rel=1e-6)


@given(
    st.lists(st.integers(1, 4000), min_size=1, max_size=3, unique=True),
    st.tuples(st.integers(0, 4000), st.integers(0, 4000)).map(sorted),
    st.integers(2, 5),
)
def test_every_product_reaches_its_band_and_is_made_as_stated(
    carriers: list[int], band: list[int], order: int
) -> None:
    low, high = band
    products = products_in_bands([float(f) for f in carriers], [(float(low), float(high))], order)
    for product in products:
        made = sum(k * f for k, f in zip(product.coefficients, carriers, strict=True)) * 1_000_000
        assert product.frequency_Hz == made
        assert low * 1_000_000 <= made <= high * 1_000_000
        assert 2 <= product.order == sum(map(abs, product.coefficients)) <= order
    assert len({product.coefficients for product in products}) == len(products)
    fewer = products_in_bands([float(f) for f in carriers], [(float(low), float(high))], max(2, order - 1))
    assert set(fewer) <= set(products)
