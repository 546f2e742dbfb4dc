"""The seed package as it is committed: a valid Frictionless package whose figures can be traced."""

from __future__ import annotations

import csv
import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from frictionless import Package, system

from service.catalogue.records import Obtained
from service.catalogue.tables import TABLES
from service.storage import read_package
from service.storage.package import DESCRIPTOR, descriptor_text

SEED_DATA = Path(__file__).parents[2] / "seed_data"
LEAST_ROWS = {
    "sources": 60,
    "electrodes": 70,
    "materials": 250,
    "designations": 1200,
    "finishes": 100,
    "compounds": 50,
    "environments": 40,
    "rules": 60,
    "scales": 8,
    "limits": 5,
    "measurements": 1500,
}
REMEMBERED = {Obtained.FROM_MEMORY.value, Obtained.COMMON_PRACTICE.value}
PRETENDED_PLACE = re.compile(
    r"\b(pp?\.|page|table|tab\.|fig(ure|\.)|clause|section)\s*[A-Z]?\d", re.IGNORECASE
)
UNITS = {
    "corrosion_potential": {"V"},
    "anodic_index": {"V"},
    "standard_potential": {"V"},
    "cathodic_current_density": {"A/m2"},
    "corrosion_current_density": {"A/m2"},
    "activity_rank": {"1"},
    "density": {"kg/m3"},
    "resistivity": {"ohm m"},
    "thermal_expansion": {"1/K"},
    "tensile_strength": {"Pa"},
    "softening_voltage": {"V"},
    "hardness": {"HB", "HV", "HRB", "HRC"},
}


@cache
def rows(table: str) -> list[dict[str, str]]:
    with (SEED_DATA / f"{table}.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def figures() -> list[dict[str, str]]:
    """Rows of every table that say how their figures were obtained."""
    return [row | {"table": table} for table in TABLES for row in rows(table) if "obtained" in row]


def test_the_descriptor_is_current() -> None:
    assert (SEED_DATA / DESCRIPTOR).read_text(encoding="utf-8") == descriptor_text()


def test_the_package_is_valid() -> None:
    with system.use_context(trusted=True):
        report = Package(str(SEED_DATA / DESCRIPTOR)).validate()
    assert report.flatten(["name", "rowNumber", "fieldName", "note"]) == []


def test_the_package_can_be_read() -> None:
    assert set(read_package(SEED_DATA)) == set(TABLES)


@pytest.mark.parametrize(("table", "least"), LEAST_ROWS.items())
def test_the_tables_are_filled(table: str, least: int) -> None:
    assert len(rows(table)) >= least


def test_every_figure_names_a_source() -> None:
    sources = {row["id"] for row in rows("sources")}
    assert not [row for row in figures() if row["source_id"] not in sources]


def test_a_remembered_figure_pretends_no_page() -> None:
    remembered = [row["locator"] for row in figures() if row["obtained"] in REMEMBERED]
    assert not [place for place in remembered if PRETENDED_PLACE.search(place) and "read in" not in place]


def test_a_read_figure_says_where() -> None:
    assert not [row for row in figures() if row["obtained"] not in REMEMBERED and not row["locator"]]


def test_memory_and_practice_are_not_cited_for_what_was_read() -> None:
    unciteable = {row["id"] for row in rows("sources") if row["kind"] in {"memory", "practice"}}
    read = {Obtained.READ.value, Obtained.READ_IN_REPRODUCTION.value}
    assert not [row for row in figures() if row["obtained"] in read and row["source_id"] in unciteable]


def test_every_measurement_has_a_figure_in_a_known_unit() -> None:
    for row in rows("measurements"):
        assert row["value"] or row["low"] or row["high"], row["id"]
        assert row["unit"] in UNITS[row["quantity"]], row["id"]


def test_ranges_run_upwards_and_hold_their_value() -> None:
    for row in rows("measurements"):
        low, value, high = (float(row[name]) if row[name] else None for name in ("low", "value", "high"))
        assert low is None or high is None or low <= high, row["id"]
        assert value is None or low is None or low <= value, row["id"]
        assert value is None or high is None or value <= high, row["id"]


def test_a_potential_in_use_states_its_reference_electrode() -> None:
    potentials = [row for row in rows("measurements") if row["quantity"] == "corrosion_potential"]
    assert not [
        row["id"] for row in potentials if not row["reference_electrode"] and not row["quarantine_reason"]
    ]


def test_a_row_on_a_potential_scale_uses_the_scale_reference() -> None:
    scales = {row["id"]: row for row in rows("scales")}
    on_scales = [row for row in rows("measurements") if row["scale_id"]]
    assert on_scales
    for row in on_scales:
        assert row["reference_electrode"] == scales[row["scale_id"]]["reference_electrode"], row["id"]


def test_quarantine_and_fitness_agree() -> None:
    for row in rows("measurements"):
        is_out = row["fitness"] == "unfit" or row["plausibility"] == "failed"
        assert is_out == bool(row["quarantine_reason"]), row["id"]


def test_every_material_has_a_density_and_a_name() -> None:
    named = {row["material_id"] for row in rows("designations")}
    dense = {row["subject_id"] for row in rows("measurements") if row["quantity"] == "density"}
    solid = {row["id"] for row in rows("materials") if row["composition"] and "gasket" not in row["name"]}
    assert {row["id"] for row in rows("materials")} <= named
    assert solid <= dense


def test_compositions_add_up() -> None:
    for row in rows("materials"):
        if row["composition"] and "oxide" not in row["name"]:
            total = sum(float(part.split()[1]) for part in row["composition"].split(";"))
            assert total == pytest.approx(100, abs=4.1), row["id"]


def test_an_electrode_dissolves_into_elements_of_its_representative() -> None:
    materials = {row["id"]: row for row in rows("materials")}
    for row in rows("electrodes"):
        composition = materials[row["representative_material_id"]]["composition"]
        elements = {part.split()[0] for part in composition.split(";")} if composition else set()
        first = row["dissolution"].split(":")[0]
        assert not elements or not first or row["is_inert"] == "true" or first in elements, row["id"]


def test_substrates_are_families_of_materials() -> None:
    families = {row["family"] for row in rows("materials")} | {"hardened steel"}
    assert {row["substrate_family"] for row in rows("finish_substrates")} <= families


def test_aluminium_tempers_say_which_one_a_bare_number_means() -> None:
    bare = [row for row in rows("designations") if row["text"] == "EN AW-6061"]
    assert {row["material_id"] for row in bare} == {"al-6061-t4", "al-6061-t6"}
    assert all("al-6061-t6" in row["note"] or "T6" in row["note"] for row in bare)


def test_unified_numbers_are_well_formed() -> None:
    unified = [row["text"] for row in rows("designations") if row["system"] == "UNS"]
    assert not [text for text in unified if not re.fullmatch(r"[A-Z]\d{5}", text)]
    numbers = [row["text"] for row in rows("designations") if row["system"] == "EN number"]
    steel = [text for text in numbers if re.match(r"1\.", text)]
    assert not [text for text in steel if not re.fullmatch(r"1\.\d{4}", text)]


def test_one_steel_number_names_one_steel() -> None:
    exact = [
        row["text"]
        for row in rows("designations")
        if row["system"] == "EN number"
        and "nearest relative" not in row["note"]
        and row["text"][:2] in {"1.", "2."}
    ]
    assert [text for text, count in Counter(exact).items() if count > 1] == []
