from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.chemistry.atmosphere import StandardMetal
from service.judgement.attack import attack_of
from service.judgement.couples import Couple, Function
from service.judgement.exposed import ExposedElectrode, Exposure
from service.judgement.lanes import lanes_of, pairings_of
from service.judgement.loss import (
    FALLBACK_UM_PER_YEAR_PER_A_PER_M2,
    Losses,
    allowance_of,
    between,
    losses,
    penetration_of,
)
from service.judgement.metals import metal_figures
from service.judgement.policy import DEFAULT_POLICY
from service.judgement.uncoupled import first_year_loss
from tests.factories.couples import ALUMINIUM, COAST, COPPER, SEA, STEEL, ZINC, coated

OUTER = ExposedElectrode("zinc", 1.0, Exposure.OUTER)


def lost(couple: Couple, environment_id: str, catalogue: Catalogue, **figures: Any) -> Losses:
    environment = replace(catalogue.environments[environment_id], **figures)
    pairings, _ = pairings_of([couple], environment, catalogue)
    attack = attack_of(lanes_of(pairings, catalogue), environment, catalogue)
    return losses(pairings, attack, [couple], environment, catalogue, DEFAULT_POLICY)


def test_a_metal_alone_loses_what_iso_9223_says(catalogue: Catalogue) -> None:
    found = lost(Couple(STEEL, STEEL), COAST, catalogue)
    standard = first_year_loss(StandardMetal.CARBON_STEEL, catalogue.environments[COAST])
    assert standard is not None
    assert np.median(found.uncoupled_rate[0]) == pytest.approx(standard.um_per_year, rel=0.02)
    assert np.all(found.galvanic_rate == 0.0)


def test_the_spread_of_the_standard_is_kept(catalogue: Catalogue) -> None:
    rate = lost(Couple(STEEL, STEEL), COAST, catalogue).uncoupled_rate[0]
    standard = first_year_loss(StandardMetal.CARBON_STEEL, catalogue.environments[COAST])
    assert standard is not None
    assert np.quantile(rate, 0.975) / np.median(rate) == pytest.approx(standard.spread, rel=0.1)


def test_under_water_a_metal_alone_loses_its_corrosion_current(catalogue: Catalogue) -> None:
    found = lost(Couple(STEEL, STEEL), SEA, catalogue)
    record = next(
        row
        for row in catalogue.kinetics.values()
        if row.electrode_id == "steel-carbon" and row.electrolyte_class.value == "chloride"
    )
    expected = record.corrosion_current_A_per_m2 * penetration_of(metal_figures(catalogue)["steel-carbon"])
    assert np.median(found.uncoupled_rate[0]) == pytest.approx(expected)


def test_loss_grows_with_the_years_and_slows_down(catalogue: Catalogue) -> None:
    one, four = (
        np.median(lost(Couple(ALUMINIUM, COPPER, design_life_years=years), COAST, catalogue).galvanic[0])
        for years in (1.0, 4.0)
    )
    assert one < four <= 4.0 * one


def test_a_seal_is_judged_by_its_deepest_point_and_a_section_by_the_mean(catalogue: Catalogue) -> None:
    section = lost(Couple(ALUMINIUM, COPPER), SEA, catalogue)
    seal = lost(Couple(ALUMINIUM, COPPER, functions=(Function.SEAL,)), SEA, catalogue)
    np.testing.assert_array_equal(section.judged, section.galvanic)
    np.testing.assert_array_equal(seal.judged, seal.deepest)
    assert np.median(seal.deepest[0]) > np.median(seal.galvanic[0])


def test_a_coat_is_measured_by_its_thickness_and_has_a_life(catalogue: Catalogue) -> None:
    found = lost(Couple(coated("steel-s235", "zn-plain", 8.0), COPPER), COAST, catalogue)
    assert found.is_coat[:, 0].tolist() == [True, False]
    assert found.allowance_um[:, 0].tolist() == [8.0, DEFAULT_POLICY.allowance_um(())]
    assert np.all(np.isfinite(found.life_low[0]))
    assert np.all(np.isinf(found.life_low[1]))
    assert np.all(found.life_low[0] <= found.life_high[0])
    np.testing.assert_allclose(found.ratio[0], found.judged[0] / 8.0)


def test_a_coat_of_a_sealed_joint_is_still_judged_by_its_mean(catalogue: Catalogue) -> None:
    couple = Couple(coated("steel-s235", "zn-plain", 8.0), COPPER, functions=(Function.SEAL,))
    found = lost(couple, COAST, catalogue)
    np.testing.assert_array_equal(found.judged[0], found.galvanic[0])


def test_a_thicker_coat_lasts_longer(catalogue: Catalogue) -> None:
    thin, thick = (
        np.median(lost(Couple(coated("steel-s235", "zn-plain", um), COPPER), COAST, catalogue).life_low[0])
        for um in (5.0, 25.0)
    )
    assert thick > 4.0 * thin


def test_the_ground_of_an_allowance_is_named() -> None:
    stated, silent = Couple(ZINC, COPPER, section_allowance_um=0.0), Couple(ZINC, COPPER)
    assert allowance_of(replace(OUTER, thickness_um=5.0), stated, DEFAULT_POLICY) == (
        5.0,
        "thickness of the coat",
        True,
    )
    assert allowance_of(OUTER, stated, DEFAULT_POLICY) == (0.0, "stated by the caller", False)
    amount, basis, is_coat = allowance_of(OUTER, silent, DEFAULT_POLICY)
    assert amount == DEFAULT_POLICY.allowance_um(())
    assert DEFAULT_POLICY.name in basis
    assert not is_coat


def test_magnesium_loses_twice_what_the_current_says_and_gold_nothing(catalogue: Catalogue) -> None:
    metals = metal_figures(catalogue)
    magnesium = next(figures for figures in metals.values() if figures.is_magnesium)
    assert penetration_of(magnesium) == 2.0 * (magnesium.um_per_year_per_A_per_m2 or 0.0) > 0.0
    assert penetration_of(metals["gold"]) == 0.0
    unknown = replace(metals["zinc"], um_per_year_per_A_per_m2=None)
    assert penetration_of(unknown) == FALLBACK_UM_PER_YEAR_PER_A_PER_M2


def test_a_range_is_kept_by_every_draw() -> None:
    drawn = between(np.array(2.0), np.array(4.0), np.array([-9.0, -1.6449, 0.0, 1.6449, 9.0]))
    np.testing.assert_allclose(drawn, [2.0, 2.0, 3.0, 4.0, 4.0])
