"""Named environments: ranges, drivers of ISO 9223, computed figures."""

from __future__ import annotations

import math

import gsw  # type: ignore[import-untyped]
import pytest

from tests.seed_data.csv_rows import cells, number, rows

TAGS = {
    "sulfide",
    "ammonia",
    "drinking_water",
    "deaerated",
    "condensing",
    "hot_water",
    "road_salt",
    "biofilm",
    "sulfur_dioxide",
    "vibration",
    "uv",
    "organic_acid",
    "chlorine",
    "stagnant",
    "flowing",
    "soft_water",
    "bicarbonate",
    "citrate",
    "acid_mist",
    "alkaline_leak",
    "vacuum",
    "laboratory_test",
    "sea_water",
    "sea_salt",
    "rain_washed",
    "bias",
    "hydrogen",
    "mud_poultice",
    "dust",
    "thermal_cycling",
    "copper_ions",
    "unwashed",
    "electronics",
    "inhibited",
    "alkaline",
    "concrete",
    "soil",
    "body",
}
RANGED = ("temperature_{}C", "conductivity_{}S_per_m", "pH{}", "film_thickness_{}um")
NEEDED = {
    "rural-atmosphere",
    "urban-atmosphere",
    "industrial-atmosphere",
    "marine-atmosphere-0-100-m",
    "splash-and-tidal-zone",
    "seawater-quiescent",
    "seawater-flowing",
    "tap-water-hard",
    "tap-water-soft",
    "hot-soft-water",
    "deaerated-citrate",
    "sodium-chloride-3-5",
    "salt-spray-chamber",
    "heated-indoor",
    "gasketed-enclosure",
    "cabinet-with-condensation",
    "battery-box-lead-acid",
    "concrete-sound",
    "vacuum",
}


def by_id() -> dict[str, dict[str, str]]:
    return {row["id"]: row for row in rows("environments")}


def test_the_environments_of_the_demonstration_exist() -> None:
    assert set(by_id()) >= NEEDED


def test_ranges_hold_their_central_figure() -> None:
    for row in rows("environments"):
        for pattern in RANGED:
            low = number(row, pattern.format("low_" if pattern != "pH{}" else "_low"))
            middle = number(row, pattern.format(""))
            high = number(row, pattern.format("high_" if pattern != "pH{}" else "_high"))
            assert middle is None or low is None or low <= middle, (row["id"], pattern)
            assert middle is None or high is None or middle <= high, (row["id"], pattern)


def test_words_are_from_closed_sets() -> None:
    for row in rows("environments"):
        assert row["screening_class"] in {"harsh", "normal", "controlled"}, row["id"]
        assert cells(row, "tags") <= TAGS, row["id"]
        assert row["iso9223_category"] in {"", "C1", "C2", "C3", "C4", "C5", "CX"}, row["id"]
        assert row["isa7104_level"] in {"", "G1", "G2", "G3", "GX"}, row["id"]


def test_hours_fit_in_a_year() -> None:
    for row in rows("environments"):
        wet = number(row, "wetness_h_per_year")
        assert wet is None or 0 <= wet <= 8760, row["id"]
        parts = [number(row, f"hours_{name}_per_year") for name in ("rain", "deliquesced", "drying")]
        known = [part for part in parts if part is not None]
        assert len(known) in {0, 3}, row["id"]
        assert sum(known) <= 8760, row["id"]


def test_what_is_wetted_conducts_and_what_is_dry_does_not() -> None:
    for row in rows("environments"):
        has_conductivity = number(row, "conductivity_S_per_m") is not None
        assert has_conductivity == (row["electrolyte_class"] != "none"), row["id"]


def test_air_can_be_computed_from_its_drivers() -> None:
    for row in rows("environments"):
        if row["exposure"] == "atmosphere" and row["iso9223_category"]:
            for name in ("temperature_C", "relative_humidity_pct", "so2_mg_per_m2_d", "chloride_mg_per_m2_d"):
                assert row[name], (row["id"], name)


def test_the_category_of_air_is_that_of_carbon_steel() -> None:
    """ISO 9223:2012 equation 1 and table 2 as read in three open reproductions."""
    limits = ((1.3, "C1"), (25.0, "C2"), (50.0, "C3"), (80.0, "C4"), (200.0, "C5"), (math.inf, "CX"))
    checked = 0
    for row in rows("environments"):
        if row["exposure"] != "atmosphere" or not row["iso9223_category"]:
            continue
        temperature, humidity, so2, chloride = (
            float(row[name])
            for name in (
                "temperature_C",
                "relative_humidity_pct",
                "so2_mg_per_m2_d",
                "chloride_mg_per_m2_d",
            )
        )
        so2, chloride = max(so2, 0.7), max(chloride, 0.4)
        f = 0.150 * (temperature - 10) if temperature <= 10 else -0.054 * (temperature - 10)
        rate = 1.77 * so2**0.52 * math.exp(0.020 * humidity + f) + 0.102 * chloride**0.62 * math.exp(
            0.033 * humidity + 0.040 * temperature
        )
        assert row["iso9223_category"] == next(name for limit, name in limits if rate <= limit), row["id"]
        checked += 1
    assert checked >= 10


@pytest.mark.parametrize(
    ("environment", "salinity_g_per_kg"),
    [("seawater-quiescent", 35.0), ("seawater-flowing", 35.0), ("brackish-water", 10.0)],
)
def test_sea_water_figures_are_those_of_teos_10(environment: str, salinity_g_per_kg: float) -> None:
    row = by_id()[environment]
    practical = salinity_g_per_kg * 35.0 / 35.16504
    temperature = float(row["temperature_C"])
    conductivity = gsw.C_from_SP(practical, temperature, 0.0) / 10.0
    assert number(row, "conductivity_S_per_m") == pytest.approx(conductivity, rel=0.01)
    density = gsw.rho(salinity_g_per_kg, gsw.CT_from_t(salinity_g_per_kg, temperature, 0.0), 0.0)
    oxygen = gsw.O2sol_SP_pt(practical, temperature) * density * 31.998e-6
    assert number(row, "oxygen_mg_per_L") == pytest.approx(oxygen, rel=0.02)


def test_soil_conductivity_is_the_inverse_of_the_named_resistivity() -> None:
    for name, low_ohm_m, high_ohm_m in (
        ("soil-moderate", 50, 100),
        ("soil-corrosive", 30, 50),
        ("soil-high", 10, 30),
    ):
        row = by_id()[name]
        assert number(row, "conductivity_low_S_per_m") == pytest.approx(1 / high_ohm_m, rel=0.01)
        assert number(row, "conductivity_high_S_per_m") == pytest.approx(1 / low_ohm_m, rel=0.01)


def test_water_figures_of_electrolytes_are_those_of_teos_10() -> None:
    for row in rows("electrolytes"):
        if row["id"].startswith("sea-water-") and row["id"].endswith("-c"):
            temperature = float(row["temperature_C"])
            conductivity = gsw.C_from_SP(35.0 * 35.0 / 35.16504, temperature, 0.0) / 10.0
            assert number(row, "conductivity_S_per_m") == pytest.approx(conductivity, rel=1e-3)
