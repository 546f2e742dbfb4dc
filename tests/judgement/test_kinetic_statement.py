from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.couples import Couple
from service.judgement.kinetic_statement import kinetic_statement
from service.judgement.kinetic_witness import kinetic_results
from service.judgement.lane_results import LaneResult
from service.judgement.policy import DEFAULT_POLICY
from service.judgement.severity import Severity
from tests.factories.couples import ALUMINIUM, COAST, COPPER, coated

GALVANIZED = Couple(coated("steel-s235", "zn-hdg", 70.0), COPPER)


def lane_of(couple: Couple, catalogue: Catalogue) -> LaneResult:
    (found,) = kinetic_results([couple], catalogue.environments[COAST], catalogue, DEFAULT_POLICY)
    return max(found.lanes, key=lambda lane: lane.severity.rank)


def told(couple: Couple, catalogue: Catalogue, severity: Severity | None = None, **figures: Any) -> str:
    lane = lane_of(couple, catalogue)
    lane = replace(lane, figures=lane.figures | figures, severity=severity or lane.severity)
    return kinetic_statement(couple, lane, catalogue, DEFAULT_POLICY)


def spread(low: float, median: float, high: float) -> dict[str, float]:
    return {"low": low, "median": median, "high": high}


def test_rate_loss_and_allowance_are_told_with_their_spread(catalogue: Catalogue) -> None:
    text = told(
        Couple(ALUMINIUM, COPPER, design_life_years=4.0),
        catalogue,
        galvanic_rate_um_per_year=spread(1.0, 2.0, 3.0),
        galvanic_loss_um=spread(4.0, 5.0, 6.0),
        allowance_um=500.0,
    )
    assert text.startswith("Aluminium 6082 T6 loses 2 µm a year to copper beside the joint at first (1 to 3)")
    assert "and 5 µm in 4 years (4 to 6), against an allowance of 500 µm (" in text


def test_a_loss_that_nothing_measures_is_told_as_such(catalogue: Catalogue) -> None:
    text = told(Couple(ALUMINIUM, COPPER), catalogue, galvanic_rate_um_per_year=spread(0.0, 0.0, 0.01))
    assert "loses less than 0.05 µm a year" in text


def test_a_loss_at_the_bound_alone_is_told_as_such(catalogue: Catalogue) -> None:
    text = told(Couple(ALUMINIUM, COPPER), catalogue, galvanic_loss_um=spread(0.0, 0.0, 31.0))
    assert "most likely loses nothing to copper; at the 95 % bound it loses 31 µm" in text


@pytest.mark.parametrize(
    ("life", "ratio", "words"),
    [
        ((2.0, 5.0), (1.0, 2.0, 3.0), "The coat is used up there after 2 to 5 years."),
        ((2.0, 5.0), (0.1, 0.5, 3.0), "The coat may be used up there after 2 to 5 years."),
        ((0.25, 0.5), (1.0, 2.0, 3.0), "The coat is used up there after 3 to 6 months."),
        ((0.01, 0.02), (1.0, 2.0, 3.0), "The coat is used up there after 3.6 to 7.3 days."),
        ((2.0, math.inf), (1.0, 2.0, 3.0), "The coat is used up there after 2 years or more."),
    ],
)
def test_a_coat_that_does_not_last_says_how_long(
    life: tuple[float, float], ratio: tuple[float, float, float], words: str, catalogue: Catalogue
) -> None:
    text = told(
        GALVANIZED,
        catalogue,
        coat_life_years={"low": life[0], "high": life[1]},
        loss_over_allowance=spread(*ratio),
    )
    assert text.startswith(
        "The coat of structural steel S235JR (70 µm hot-dip galvanized zinc, batch) loses "
    )
    assert words in text


def test_a_coat_that_lasts_says_nothing_of_its_end(catalogue: Catalogue) -> None:
    assert "used up" not in told(GALVANIZED, catalogue, loss_over_allowance=spread(0.1, 0.2, 0.3))


def test_a_severity_below_its_figures_says_why(catalogue: Catalogue) -> None:
    worst = spread(5.0, 50.0, 500.0)
    anodized = Couple(coated("al-6082-t6", "anod-ii-clear"), COPPER)
    assert "such pits" in told(anodized, catalogue, Severity.MODERATE, loss_over_allowance=worst).lower()
    assert "can be renewed" in told(GALVANIZED, catalogue, Severity.MODERATE, loss_over_allowance=worst)
    assert "as intended" in told(GALVANIZED, catalogue, Severity.SLIGHT, loss_over_allowance=worst)


def test_another_metal_under_a_coat_is_named_with_its_base(catalogue: Catalogue) -> None:
    couple = Couple(coated("al-6082-t6", "epoxy-primer-ncr"), COPPER)
    lane = next(
        lane
        for lane in kinetic_results([couple], catalogue.environments[COAST], catalogue, DEFAULT_POLICY)[
            0
        ].lanes
        if lane.pairing.electrodes[lane.side].exposure.name == "PORE"
    )
    first, second = lane.pairing.electrodes
    lane = replace(
        lane, pairing=replace(lane.pairing, electrodes=(replace(first, electrode_id="zinc"), second))
    )
    text = kinetic_statement(couple, lane, catalogue, DEFAULT_POLICY)
    assert " on aluminium 6082 T6, laid bare at pores of its coat, loses" in text
