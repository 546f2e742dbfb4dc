"""Kinetic parameters: complete, ordered and physically possible."""

from __future__ import annotations

import pytest

from tests.seed_data.csv_rows import ids, number, rows

RANGES = (
    ("corrosion_potential", "V"),
    ("corrosion_current", "A_per_m2"),
    ("oxygen_efficiency", ""),
    ("breakdown_potential", "V"),
)
QUIESCENT_LIMIT_A_PER_M2 = 0.33
"""4 F D C / 500 um in sea water at 25 degC: D 2.0e-9 m2/s (Han and Bartels 1996), C 6.78 mg/L (TEOS-10)."""

MANSFELD_ORDER = (
    "silver",
    "copper",
    "steel-low-alloy",
    "stainless-304",
    "alloy-718",
    "titanium-6al-4v",
    "tin",
    "cadmium",
)
"""Dissimilar metals by their effect on aluminium alloys in 3.5 % NaCl, worst first: F. Mansfeld,
D. H. Hengstenberg, J. V. Kenkel, Corrosion 30 (1974) 343, abstract. The abstract sets stainless steel
and nickel side by side."""


def in_use() -> list[dict[str, str]]:
    return [row for row in rows("kinetics") if not row["quarantine_reason"]]


def figure(row: dict[str, str], column: str) -> float:
    value = number(row, column)
    assert value is not None, (row["id"], column)
    return value


def of(electrode: str, state: str, electrolyte_class: str = "chloride") -> dict[str, str]:
    (row,) = [
        row
        for row in in_use()
        if (row["electrode_id"], row["state"], row["electrolyte_class"])
        == (electrode, state, electrolyte_class)
    ]
    return row


def ways(electrode: str) -> list[dict[str, str]]:
    return [
        row
        for row in in_use()
        if row["electrode_id"] == electrode
        and row["electrolyte_class"] == "chloride"
        and row["state"] != "ennobled"
    ]


def test_every_electrode_has_parameters_in_chloride() -> None:
    assert {row["electrode_id"] for row in in_use() if row["electrolyte_class"] == "chloride"} == ids(
        "electrodes"
    )


def test_all_that_matter_have_parameters_in_fresh_water() -> None:
    fresh = {row["electrode_id"] for row in in_use() if row["electrolyte_class"] == "fresh"}
    assert ids("electrodes") - fresh == {"manganese", "uranium"}


def test_one_row_for_each_electrode_state_and_class() -> None:
    keys = [(row["electrode_id"], row["state"], row["electrolyte_class"]) for row in in_use()]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize(("quantity", "unit"), RANGES)
def test_ranges_hold_their_central_figure(quantity: str, unit: str) -> None:
    for row in rows("kinetics"):
        names = [f"{quantity}_{place}{unit}".rstrip("_") for place in ("low_", "", "high_")]
        low, middle, high = (number(row, name) for name in names)
        if middle is not None and low is not None and high is not None:
            assert low <= middle <= high, row["id"]
        else:
            assert low is middle is high is None, row["id"]


def test_slopes_and_shares_are_possible() -> None:
    for row in rows("kinetics"):
        assert 0.02 <= figure(row, "cathodic_slope_V") <= 0.5, row["id"]
        slope = number(row, "anodic_slope_V")
        assert slope is None or 0.01 <= slope <= 0.2, row["id"]
        assert 0.0 < figure(row, "oxygen_efficiency_low") <= figure(row, "oxygen_efficiency_high") <= 1.0


def test_a_passive_state_breaks_down_above_its_corrosion_potential() -> None:
    passive = [row for row in in_use() if row["state"] in {"passive", "ennobled"}]
    assert passive
    for row in passive:
        assert figure(row, "breakdown_potential_V") > figure(row, "corrosion_potential_V"), row["id"]
        assert figure(row, "passive_current_A_per_m2") == figure(row, "corrosion_current_A_per_m2"), row["id"]
        assert row["anodic_slope_V"] == "", row["id"]


def test_an_active_or_pitting_state_has_an_anodic_slope_and_no_breakdown() -> None:
    for row in in_use():
        if row["state"] in {"active", "pitting"}:
            assert row["anodic_slope_V"], row["id"]
            assert not row["breakdown_potential_V"], row["id"]


def test_oxygen_can_feed_the_corrosion_current_except_on_magnesium() -> None:
    for row in in_use():
        share = figure(row, "oxygen_efficiency") * QUIESCENT_LIMIT_A_PER_M2
        if not row["electrode_id"].startswith("magnesium"):
            assert figure(row, "corrosion_current_A_per_m2") < 0.8 * share, row["id"]


def test_magnesium_corrodes_by_reducing_water() -> None:
    """The water figure, carried to E_corr with 0.12 V per decade, must give i_corr."""
    for row in in_use():
        if row["electrode_id"].startswith("magnesium"):
            potential = figure(row, "corrosion_potential_V")
            water = figure(row, "water_reduction_A_per_m2") * 10 ** ((-1.0 - potential) / 0.12)
            assert water == pytest.approx(figure(row, "corrosion_current_A_per_m2"), rel=0.1), row["id"]


def test_cathodes_on_aluminium_come_in_the_published_order() -> None:
    shares = [max(figure(row, "oxygen_efficiency") for row in ways(name)) for name in MANSFELD_ORDER]
    assert shares == sorted(shares, reverse=True)
    assert len(set(shares)) == len(shares)
    nickel, stainless = (figure(ways(name)[0], "oxygen_efficiency") for name in ("nickel", "stainless-304"))
    assert nickel == pytest.approx(stainless, rel=0.2)
    steel = figure(of("steel-low-alloy", "active"), "oxygen_efficiency")
    assert steel > 2 * stainless
    assert figure(of("titanium-6al-4v", "passive"), "oxygen_efficiency") < 0.5 * stainless


def test_aluminium_pits_in_chloride_and_is_passive_in_fresh_water() -> None:
    for electrode in ids("electrodes"):
        is_alloy = electrode.startswith("aluminium-") and electrode not in {
            "aluminium-zinc-55",
            "aluminium-anode-alloy",
        }
        if is_alloy:
            assert figure(of(electrode, "pitting"), "anodic_slope_V") <= 0.02
            fresh = of(electrode, "passive", "fresh")
            assert figure(fresh, "breakdown_potential_V") > figure(
                of(electrode, "pitting"), "corrosion_potential_V"
            )


def test_published_solution_potentials_lie_inside_the_ranges() -> None:
    """ASTM G69-20, Significance and Use (summary page): AA1100 -0.750, 2024-T3 -0.60 to -0.62,
    AA7072 -0.885 V SCE; SCE is +0.241 V SHE. The G69 solution holds peroxide, hence the margin.
    """
    for electrode, published in (
        ("aluminium-1xxx", -0.750),
        ("aluminium-2xxx", -0.61),
        ("aluminium-7072-clad", -0.885),
    ):
        row = of(electrode, "pitting")
        low, high = (figure(row, f"corrosion_potential_{place}_V") for place in ("low", "high"))
        assert low <= published + 0.241 <= high


def test_tap_water_potentials_lie_inside_the_ranges() -> None:
    """Matsukawa et al., Corrosion 67 (2011) 125004, abstract, V Ag/AgCl (+0.197 V SHE taken)."""
    for electrode, state, published in (
        ("nickel", "passive", 0.127),
        ("stainless-316", "passive", 0.120),
        ("titanium", "passive", 0.107),
        ("copper", "active", 0.073),
        ("brass-muntz", "active", -0.067),
        ("tin", "active", -0.160),
        ("lead", "active", -0.347),
        ("steel-carbon", "active", -0.580),
        ("cast-iron", "active", -0.613),
        ("zinc", "active", -0.927),
    ):
        row = of(electrode, state, "fresh")
        low, high = (figure(row, f"corrosion_potential_{place}_V") for place in ("low", "high"))
        assert low <= published + 0.197 <= high, electrode


def test_unfit_rows_are_kept_with_a_reason() -> None:
    unfit = [row for row in rows("kinetics") if row["fitness"] == "unfit"]
    assert unfit
    assert all(row["quarantine_reason"] for row in unfit)
    assert not [row for row in in_use() if row["plausibility"] == "failed"]
