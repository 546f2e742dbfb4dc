"""Indices of fresh water."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.errors import OutOfRangeError
from service.chemistry.water_indices import (
    LARSON_SKOLD_BANDS,
    chloride_to_sulfate_ratio,
    langelier_index,
    larson_skold_ratio,
    ryznar_index,
    saturation_pH,
)


def test_hot_and_hard_water_is_nearer_to_scaling() -> None:
    cold, hot = saturation_pH(np.array([10.0, 60.0]), 300.0, 150.0, 150.0)
    soft, hard = saturation_pH(20.0, 300.0, np.array([10.0, 300.0]), 150.0)
    assert hot < cold
    assert hard < soft


def test_the_two_indices_agree_in_balance() -> None:
    assert langelier_index(8.0, 8.0) == 0.0
    assert ryznar_index(8.0, 8.0) == 8.0


def test_water_without_chloride_and_sulfate_has_no_ratio() -> None:
    assert larson_skold_ratio(0.0, 0.0, 100.0) == 0.0
    assert chloride_to_sulfate_ratio(0.0, 10.0) == 0.0


def test_bands_of_the_larson_skold_ratio_are_in_order() -> None:
    limits = [limit for limit, _ in LARSON_SKOLD_BANDS]
    assert limits == sorted(limits)
    assert limits[-1] == np.inf


@pytest.mark.parametrize(
    ("call", "quantity"),
    [
        (lambda: saturation_pH(20.0, 0.0, 10.0, 10.0), "dissolved_solids_mg_per_L"),
        (lambda: saturation_pH(20.0, 10.0, 0.0, 10.0), "calcium_hardness_mg_per_L"),
        (lambda: saturation_pH(20.0, 10.0, 10.0, 0.0), "alkalinity_mg_per_L"),
        (lambda: larson_skold_ratio(-1.0, 1.0, 1.0), "chloride_mg_per_L"),
        (lambda: larson_skold_ratio(1.0, -1.0, 1.0), "sulfate_mg_per_L"),
        (lambda: larson_skold_ratio(1.0, 1.0, 0.0), "alkalinity_mg_per_L"),
        (lambda: chloride_to_sulfate_ratio(-1.0, 1.0), "chloride_mg_per_L"),
        (lambda: chloride_to_sulfate_ratio(1.0, 0.0), "sulfate_mg_per_L"),
    ],
)
def test_meaningless_concentrations_are_refused(call: object, quantity: str) -> None:
    assert callable(call)
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.quantity == quantity
