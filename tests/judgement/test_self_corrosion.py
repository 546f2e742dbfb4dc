from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.couples import Couple
from service.judgement.policy import DEFAULT_POLICY
from service.judgement.self_corrosion import self_corrosion
from tests.factories.couples import COAST, COPPER, DRY, SEA, STAINLESS, STEEL, coated


def test_each_side_loses_by_the_standard(catalogue: Catalogue) -> None:
    couple = Couple(STEEL, COPPER, design_life_years=1.0)
    finding = self_corrosion(couple, catalogue.environments[COAST], catalogue, DEFAULT_POLICY)
    assert finding.severity is None
    assert finding.figures["first_um"] == pytest.approx(finding.figures["first_um_per_year"], rel=0.005)
    assert finding.figures["first_um_per_year"] > finding.figures["second_um_per_year"] > 0.0


def test_the_loss_grows_less_than_in_proportion(catalogue: Catalogue) -> None:
    environment = catalogue.environments[COAST]
    one, ten = (
        self_corrosion(Couple(STEEL, COPPER, design_life_years=years), environment, catalogue, DEFAULT_POLICY)
        for years in (1.0, 10.0)
    )
    assert one.figures["first_um"] < ten.figures["first_um"] < 10.0 * one.figures["first_um"]


@pytest.mark.parametrize(("allowance_um", "conditions"), [(None, 0), (10.0, 1)])
def test_a_side_that_loses_more_than_the_section_can_stand_must_be_protected(
    allowance_um: float | None, conditions: int, catalogue: Catalogue
) -> None:
    couple = Couple(STEEL, STAINLESS, section_allowance_um=allowance_um, design_life_years=2.0)
    finding = self_corrosion(couple, catalogue.environments["rural-atmosphere"], catalogue, DEFAULT_POLICY)
    assert [condition.code for condition in finding.conditions] == ["protect-bare-metal"] * conditions


def test_a_painted_side_is_not_counted(catalogue: Catalogue) -> None:
    couple = Couple(coated("steel-s235", "powder-coat"), COPPER)
    finding = self_corrosion(couple, catalogue.environments[COAST], catalogue, DEFAULT_POLICY)
    assert "first_um" not in finding.figures
    assert "second_um" in finding.figures


@pytest.mark.parametrize("environment_id", [SEA, DRY])
def test_outside_the_standard_it_is_silent(environment_id: str, catalogue: Catalogue) -> None:
    finding = self_corrosion(
        Couple(STEEL, COPPER), catalogue.environments[environment_id], catalogue, DEFAULT_POLICY
    )
    assert not finding.applies
