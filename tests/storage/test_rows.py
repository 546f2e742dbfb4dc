from __future__ import annotations

import dataclasses
import types
import typing

import pytest
from sqlalchemy import Table

from service.catalogue.tables import KEYS, TABLES
from service.storage.rows import OPTIONAL, REQUIRED, key_text, key_values, referred, row_hash
from service.storage.tables import KNOWLEDGE
from tests.factories.knowledge import row, small_package


@pytest.mark.parametrize("table", TABLES)
def test_a_key_survives_being_made_text(table: str) -> None:
    for values in small_package()[table]:
        expected = {name: values[name] for name in KEYS[table]}
        assert key_values(table, key_text(table, values)) == expected


@pytest.mark.parametrize("key", ["{}", '["one"]', "no json"])
def test_text_that_is_no_key_is_refused(key: str) -> None:
    with pytest.raises(ValueError, match=r".*"):
        key_values("designations", key)


def test_the_hash_of_a_row_depends_on_its_values_alone() -> None:
    assert row_hash({"a": 1, "b": 2}) == row_hash({"b": 2, "a": 1})
    assert row_hash({"a": 1, "b": 2}) != row_hash({"a": 1, "b": 3})


def test_required_references_are_those_that_a_record_needs() -> None:
    assert REQUIRED["limits"] == {"source_id": "sources", "scale_id": "scales"}
    assert OPTIONAL["materials"] == {"electrode_id": "electrodes"}


def test_the_subject_of_a_measurement_counts_as_a_reference() -> None:
    measurement = row("measurements", subject_kind="finish", subject_id="gold-plate")
    assert ("subject_id", "finishes", "gold-plate") in referred("measurements", measurement)


@pytest.mark.parametrize("table", TABLES)
def test_a_table_has_the_columns_of_its_record(table: str) -> None:
    core = KNOWLEDGE[table].__table__
    assert isinstance(core, Table)
    hints = typing.get_type_hints(TABLES[table])
    assert [column.name for column in core.columns] == [f.name for f in dataclasses.fields(TABLES[table])]
    assert [column.name for column in core.primary_key] == list(KEYS[table])
    for column in core.columns:
        if column.name not in OPTIONAL[table]:
            assert column.nullable == isinstance(hints[column.name], types.UnionType), column.name
