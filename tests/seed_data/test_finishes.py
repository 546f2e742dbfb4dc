"""Finishes, the substrates that take them, and compounds: complete, consistent and cautious."""

from __future__ import annotations

import itertools

import pytest

from tests.seed_data.csv_rows import cells, ids, number, rows

SUBSTANCES = {"Cd", "CrVI", "Pb", "Be", "Ni", "PFAS"}
TOXIC = {"Cd": "toxic", "CrVI": "carcinogen", "Pb": "toxic"}


def test_links_between_tables_hold() -> None:
    finishes = rows("finishes")
    assert {row["outer_electrode_id"] for row in finishes} - {""} <= ids("electrodes")
    assert {row["underplate_id"] for row in finishes} - {""} <= ids("finishes")
    substrates = rows("finish_substrates")
    assert {row["finish_id"] for row in substrates} == ids("finishes")
    assert {row["underplate_id"] for row in substrates} - {""} <= ids("finishes")


def test_thicknesses_run_upwards() -> None:
    for row in rows("finishes"):
        figures = [number(row, f"thickness_{name}_um") for name in ("min", "typical", "max")]
        known = [figure for figure in figures if figure is not None]
        assert known == sorted(known), row["id"]
        assert len(known) in {0, 3}, row["id"]


def test_a_metallic_finish_shows_an_electrode_and_a_film_shows_its_substrate() -> None:
    for row in rows("finishes"):
        if row["role"] == "metallic":
            assert row["outer_electrode_id"], row["id"]
        if row["role"] in {"conversion", "passivation", "anodic", "bare"}:
            assert not row["outer_electrode_id"], row["id"]


def test_only_films_are_looked_through() -> None:
    looked_through = {row["role"] for row in rows("finishes") if row["is_looked_through"] == "true"}
    assert looked_through == {"conversion", "passivation"}


def test_words_are_from_closed_sets() -> None:
    for row in rows("finishes"):
        assert row["rohs"] in {"compliant", "restricted", "check"}, row["id"]
        assert row["solderable"] in {"yes", "limited", "no"}, row["id"]
        assert row["whisker_risk"] in {"none", "low", "medium", "high", "very high"}, row["id"]
        assert row["embrittlement_risk"] in {"none", "low", "medium", "high"}, row["id"]
        assert row["wear_class"] in {"low", "medium", "high", "very high"}, row["id"]
        assert cells(row, "substances") <= SUBSTANCES, row["id"]
    for row in rows("finish_substrates"):
        assert row["suitability"] in {"good", "conditional", "no"}
        assert row["polarity"] in {"anodic", "cathodic", "neutral", "insulating"}


def test_restricted_substances_are_marked_and_cautioned() -> None:
    for row in rows("finishes"):
        for substance in cells(row, "substances") & set(TOXIC):
            assert row["rohs"] == "restricted", row["id"]
            assert row["reach"], row["id"]
            assert TOXIC[substance] in row["note"], row["id"]


@pytest.mark.parametrize(("first", "second"), [("finish_id", "substrate_family")])
def test_a_substrate_is_judged_once_for_each_finish(first: str, second: str) -> None:
    pairs = [(row[first], row[second]) for row in rows("finish_substrates")]
    assert len(pairs) == len(set(pairs))


def test_no_process_charges_hard_steel_without_a_condition() -> None:
    risky = {row["id"] for row in rows("finishes") if row["embrittlement_risk"] == "high"}
    hard = [row for row in rows("finish_substrates") if row["substrate_family"] == "hardened steel"]
    assert hard
    assert not [row for row in hard if row["finish_id"] in risky and row["suitability"] == "good"]


def test_titanium_is_never_cadmium_plated() -> None:
    cadmium = {row["id"] for row in rows("finishes") if "Cd" in cells(row, "substances")}
    on_titanium = [row for row in rows("finish_substrates") if row["substrate_family"] == "titanium"]
    judged = {row["finish_id"]: row["suitability"] for row in on_titanium if row["finish_id"] in cadmium}
    assert set(judged) == cadmium
    assert set(judged.values()) == {"no"}


def test_compounds_name_families_of_materials() -> None:
    families = {row["family"] for row in rows("materials")}
    for row in rows("compounds"):
        assert cells(row, "attacks") | cells(row, "helps") <= families, row["id"]
        assert not cells(row, "attacks") & cells(row, "helps"), row["id"]


def test_compounds_defer_to_makers_and_codes() -> None:
    assert all("local codes" in row["directions"] for row in rows("compounds"))


def test_compound_temperatures_run_upwards() -> None:
    for row in rows("compounds"):
        low, high = number(row, "temperature_min_C"), number(row, "temperature_max_C")
        assert low is None or high is None or low < high, row["id"]


def test_chromate_compounds_carry_their_caution() -> None:
    chromate = [row for row in rows("compounds") if "chromate" in row["composition"].split(" or ")[0]]
    assert chromate
    assert all("carcinogen" in row["caution"] for row in chromate if "free" not in row["name"].lower())


def test_published_thickness_classes() -> None:
    """Class minima as read in reproductions of the named specifications."""
    finishes = {row["id"]: row for row in rows("finishes")}
    published = {
        "zn-passivated-clear": (5, 25),  # ASTM B633: 5, 8, 12, 25 um
        "sn-matte": (1.5, 30),  # ASTM B545: class F 1.5, class E 30 um
        "en-high": (5, 75),  # ASTM B733: SC1 5, SC4 75 um
    }
    for finish, (thinnest, thickest) in published.items():
        assert number(finishes[finish], "thickness_min_um") == thinnest
        assert number(finishes[finish], "thickness_max_um") == thickest
    classes_in = [0.0005, 0.0003, 0.0002]  # QQ-P-416F 1.2.2
    assert number(finishes["cd-yellow"], "thickness_min_um") == pytest.approx(
        min(classes_in) * 25_400, abs=0.1
    )


def test_identifiers_are_unique() -> None:
    for table in ("finishes", "compounds"):
        names = [row["id"] for row in rows(table)]
        assert not [a for a, b in itertools.pairwise(sorted(names)) if a == b]
