"""Indices of fresh water against published problems and worked waters."""

from __future__ import annotations

import pytest

from service.chemistry.water_indices import (
    chloride_to_sulfate_ratio,
    langelier_index,
    larson_skold_ratio,
    ryznar_index,
    saturation_pH,
)


@pytest.mark.parametrize(
    # Published problems on the saturation index of pools (training set, examples 1-3, and a leaflet):
    # alkalinity, calcium hardness (both mg/L as calcium carbonate), pH, degC, published index. Their factor
    # table fixes its constant at 12.1 and rounds to 0.1; dissolved solids of 1000 mg/L are assumed here.
    ("alkalinity", "calcium", "acidity_pH", "temperature_C", "published"),
    [
        (50.0, 200.0, 7.0, 24.4, -0.9),
        (75.0, 300.0, 7.6, 28.9, 0.2),
        (150.0, 400.0, 8.0, 34.4, 1.1),
        (25.0, 300.0, 7.0, 28.9, -0.9),
    ],
)
def test_langelier_index_of_published_problems(
    alkalinity: float, calcium: float, acidity_pH: float, temperature_C: float, published: float
) -> None:
    index = langelier_index(acidity_pH, saturation_pH(temperature_C, 1000.0, calcium, alkalinity))
    assert float(index) == pytest.approx(published, abs=0.17)


@pytest.mark.parametrize(
    # Invented waters, worked separately: pH, degC, dissolved solids, calcium and alkalinity as calcium
    # carbonate, chloride, sulfate; Langelier, Ryznar, Larson-Skold, chloride to sulfate
    ("water", "expected"),
    [
        ((6.5, 10.0, 60.0, 10.0, 15.0, 8.0, 6.0), (-3.48, 13.47, 1.17, 1.33)),
        ((7.6, 12.0, 450.0, 220.0, 230.0, 35.0, 45.0), (0.10, 7.41, 0.42, 0.78)),
        ((8.0, 15.0, 170.0, 95.0, 105.0, 14.0, 25.0), (-0.11, 8.21, 0.44, 0.56)),
        ((6.2, 11.0, 180.0, 40.0, 35.0, 45.0, 20.0), (-2.84, 11.88, 2.41, 2.25)),
        ((7.6, 12.0, 480.0, 5.0, 230.0, 40.0, 45.0), (-1.55, 10.70, 0.45, 0.89)),
        ((7.4, 20.0, 3000.0, 500.0, 200.0, 1300.0, 400.0), (0.27, 6.86, 11.26, 3.25)),
    ],
)
def test_indices_of_worked_waters(water: tuple[float, ...], expected: tuple[float, ...]) -> None:
    pH, temperature_C, solids, calcium, alkalinity, chloride, sulfate = water
    saturation = saturation_pH(temperature_C, solids, calcium, alkalinity)
    computed = (
        langelier_index(pH, saturation),
        ryznar_index(pH, saturation),
        larson_skold_ratio(chloride, sulfate, alkalinity),
        chloride_to_sulfate_ratio(chloride, sulfate),
    )
    assert [float(value) for value in computed] == pytest.approx(expected, abs=0.0051)
