from __future__ import annotations

import dataclasses

import pytest

from service.catalogue.tables import TABLES
from service.storage.package_fields import OWN, SHARED, description

COLUMNS = [(table, field.name) for table, record in TABLES.items() for field in dataclasses.fields(record)]


@pytest.mark.parametrize(("table", "column"), COLUMNS)
def test_every_column_is_described_by_a_sentence(table: str, column: str) -> None:
    assert description(table, column).endswith(".")


def test_no_description_is_left_over() -> None:
    columns = {
        table: {field.name for field in dataclasses.fields(record)} for table, record in TABLES.items()
    }
    assert set(OWN) <= set(columns)
    assert not {(table, name) for table, own in OWN.items() for name in own if name not in columns[table]}
    assert set(SHARED) <= set().union(*columns.values())


def test_a_column_nobody_described_is_an_error() -> None:
    with pytest.raises(KeyError):
        description("materials", "colour")
