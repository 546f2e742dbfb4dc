from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.chemistry.rounding import three_significant
from service.judgement.attack import attack_of
from service.judgement.couples import Couple
from service.judgement.draws import SAMPLE_SIZE
from service.judgement.findings import Anode
from service.judgement.lane_results import LaneResult, lane_results, severity_ranks
from service.judgement.lanes import lanes_of, pairings_of
from service.judgement.loss import losses
from service.judgement.policy import DEFAULT_POLICY
from service.judgement.severity import Severity
from tests.factories.couples import ALUMINIUM, COAST, COPPER, SEA, STEEL, coated


def summed_up(couple: Couple, environment_id: str, catalogue: Catalogue) -> list[LaneResult]:
    environment = catalogue.environments[environment_id]
    pairings, _ = pairings_of([couple], environment, catalogue)
    attack = attack_of(lanes_of(pairings, catalogue), environment, catalogue)
    lost = losses(pairings, attack, [couple], environment, catalogue, DEFAULT_POLICY)
    return lane_results(pairings, attack, lost, catalogue, DEFAULT_POLICY)


def test_figures_are_those_of_the_sample_in_their_units(catalogue: Catalogue) -> None:
    environment, couple = catalogue.environments[COAST], Couple(ALUMINIUM, COPPER)
    pairings, _ = pairings_of([couple], environment, catalogue)
    attack = attack_of(lanes_of(pairings, catalogue), environment, catalogue)
    lost = losses(pairings, attack, [couple], environment, catalogue, DEFAULT_POLICY)
    (result,) = lane_results(pairings, attack, lost, catalogue, DEFAULT_POLICY)
    expected = {
        "galvanic_rate_um_per_year": lost.galvanic_rate[0],
        "galvanic_loss_um": lost.galvanic[0],
        "deepest_loss_um": lost.deepest[0],
        "uncoupled_rate_um_per_year": lost.uncoupled_rate[0],
        "uncoupled_loss_um": lost.uncoupled[0],
        "galvanic_current_density_mA_per_m2": attack.galvanic_density[0] * 1e3,
        "peak_current_density_mA_per_m2": attack.peak_density[0] * 1e3,
        "couple_potential_mV_SHE": attack.potential * 1e3,
        "reach_mm": attack.reach[0] * 1e3,
    }
    for name, sample in expected.items():
        assert result.figures[name]["median"] == pytest.approx(np.median(sample), rel=0.006), name
        assert result.figures[name]["high"] == pytest.approx(np.quantile(sample, 0.95), rel=0.006), name


def figures(result: LaneResult) -> list[float]:
    return [
        value
        for entry in result.figures.values()
        if isinstance(entry, dict)
        for value in entry.values()
        if np.isfinite(value)
    ]


def test_figures_hold_three_significant_digits_in_rising_order(catalogue: Catalogue) -> None:
    (result,) = summed_up(Couple(ALUMINIUM, COPPER), SEA, catalogue)
    found = np.array(figures(result))
    np.testing.assert_array_equal(found, three_significant(found))
    for name, entry in result.figures.items():
        if isinstance(entry, dict) and "median" in entry:
            assert entry["low"] <= entry["median"] <= entry["high"], name


def test_the_shares_of_the_severities_are_the_whole_sample(catalogue: Catalogue) -> None:
    (result,) = summed_up(Couple(ALUMINIUM, COPPER), COAST, catalogue)
    assert sum(result.severity_shares) == pytest.approx(1.0)
    assert all(share * SAMPLE_SIZE == round(share * SAMPLE_SIZE) for share in result.severity_shares)


def test_severity_follows_the_95_percent_loss(catalogue: Catalogue) -> None:
    (result,) = summed_up(Couple(ALUMINIUM, COPPER), SEA, catalogue)
    assert result.severity is DEFAULT_POLICY.severity(result.figures["loss_over_allowance"]["high"])
    assert result.anode is Anode.FIRST
    assert result.side == 0
    assert result.probability_of_first == 1.0
    assert result.is_solved


def test_like_on_like_has_no_anode(catalogue: Catalogue) -> None:
    (result,) = summed_up(Couple(COPPER, COPPER), COAST, catalogue)
    assert result.anode is Anode.NONE
    assert result.severity is Severity.NONE
    assert result.probability_of_first == 0.5


def test_a_sacrificial_coat_is_spent_as_intended_on_its_own_kind(catalogue: Catalogue) -> None:
    (result,) = summed_up(Couple(coated("steel-s235", "zn-plain", 5.0), STEEL), SEA, catalogue)
    assert result.figures["loss_over_allowance"]["high"] > 2.0
    assert result.severity is Severity.SLIGHT
    assert result.figures["coat_life_years"]["low"] > 0.0


def test_a_coat_that_leaves_a_new_couple_behind_matters_more(catalogue: Catalogue) -> None:
    (result,) = summed_up(Couple(coated("steel-s235", "zn-plain", 5.0), COPPER), SEA, catalogue)
    assert result.severity is Severity.MODERATE


def test_a_coat_that_outlasts_the_joint_has_its_own_severity(catalogue: Catalogue) -> None:
    couple = Couple(coated("steel-s235", "zn-hdg", 200.0), STEEL, design_life_years=0.5)
    (result,) = summed_up(couple, "rural-atmosphere", catalogue)
    assert result.is_coat
    assert result.severity is Severity.NONE


def test_in_a_draw_the_side_that_suffers_more_is_named(catalogue: Catalogue) -> None:
    couple = Couple(STEEL, coated("steel-a36", "zn-plain", 8.0))
    assert summed_up(couple, SEA, catalogue)[0].anode is Anode.SECOND


@pytest.mark.parametrize(("ratio", "rank"), [(0.0, 0), (0.1, 0), (0.101, 1), (0.5, 1), (2.0, 2), (2.01, 3)])
def test_a_bound_belongs_to_the_milder_word(ratio: float, rank: int) -> None:
    assert severity_ranks(np.array([ratio]), DEFAULT_POLICY).tolist() == [rank]


def test_a_ratio_is_rounded_before_it_meets_a_bound() -> None:
    bound: Any = DEFAULT_POLICY.severity_bounds[0]
    assert severity_ranks(three_significant(np.array([bound * 1.0004])), DEFAULT_POLICY).tolist() == [0]
