from __future__ import annotations

from dataclasses import replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import is_read
from service.catalogue.records import Kinetics, Measurement, Obtained
from service.judgement.backing import CURRENT, POTENTIAL, backing_of

STEEL = "steel-carbon-active-chloride"
DUPLEX = "stainless-super-duplex-ennobled-chloride"


def backing(catalogue: Catalogue, record_id: str, *more: Measurement, **changes: object) -> set[str]:
    """Quantities and identifiers that bear a record out, with some rows added or the record changed."""
    record = replace(catalogue.kinetics[record_id], **changes)  # type: ignore[arg-type]
    key = "electrode", record.electrode_id
    known = {row.id: row for row in catalogue.measurements_of.get(key, ())} | {row.id: row for row in more}
    changed = replace(
        catalogue,
        kinetics={**catalogue.kinetics, record_id: record},
        measurements_of={**catalogue.measurements_of, key: tuple(known.values())},
    )
    return set(backing_of(changed)[record_id])


def potential(catalogue: Catalogue, **changes: object) -> Measurement:
    row = next(
        row
        for row in catalogue.measurements_of["electrode", "steel-carbon"]
        if row.quantity == POTENTIAL and row.scale_id == "sea-water-flowing-ranges"
    )
    return replace(row, id="better", obtained=Obtained.READ, **changes)  # type: ignore[arg-type]


def test_a_class_figure_of_steel_rests_on_a_read_potential_and_a_current(catalogue: Catalogue) -> None:
    rows = [catalogue.measurements[row_id] for row_id in backing_of(catalogue)[STEEL]]
    assert {row.quantity for row in rows} == {POTENTIAL, CURRENT}
    assert all(is_read(row.obtained) for row in rows)


def test_only_rows_of_the_state_and_electrolyte_count(catalogue: Catalogue) -> None:
    for record_id, ids in backing_of(catalogue).items():
        record: Kinetics = catalogue.kinetics[record_id]
        for row in (catalogue.measurements[row_id] for row_id in ids):
            assert row.state in {"", record.state.value}
            electrolyte = catalogue.electrolytes[row.electrolyte_id]
            assert electrolyte.electrolyte_class is record.electrolyte_class


def test_a_metal_as_found_is_not_ennobled(catalogue: Catalogue) -> None:
    for row_id in backing_of(catalogue)[DUPLEX]:
        assert catalogue.measurements[row_id].state == "ennobled"


def test_what_lies_outside_the_range_bears_nothing_out(catalogue: Catalogue) -> None:
    far = {"corrosion_potential_low_V": 1.0, "corrosion_potential_V": 1.1, "corrosion_potential_high_V": 1.2}
    kept = {catalogue.measurements[row_id].quantity for row_id in backing(catalogue, STEEL, **far)}
    assert kept == {CURRENT}


def test_remembered_and_unfit_rows_bear_nothing_out(catalogue: Catalogue) -> None:
    remembered = replace(potential(catalogue), id="0-remembered", obtained=Obtained.FROM_MEMORY)
    unfit = replace(potential(catalogue), id="0-unfit", quarantine_reason="another alloy")
    silent = replace(potential(catalogue), id="0-silent", value=None, low=None, high=None)
    without = replace(potential(catalogue), id="0-without", reference_electrode="")
    found = backing(catalogue, STEEL, remembered, unfit, silent, without)
    assert found == set(backing_of(catalogue)[STEEL])
