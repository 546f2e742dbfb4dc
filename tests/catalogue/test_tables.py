from __future__ import annotations

import dataclasses

import pytest

from service.catalogue.errors import MalformedRowError
from service.catalogue.records import Compound, Limit, Obtained, Source
from service.catalogue.tables import KEYS, TABLES, key_of, record_from_row, row_from_record
from tests.factories.knowledge import row, small_package

LIMIT = small_package()["limits"][0]


@pytest.mark.parametrize("table", TABLES)
def test_a_row_becomes_a_record_and_a_row_again(table: str) -> None:
    for values in small_package()[table]:
        record = record_from_row(table, values)
        assert isinstance(record, TABLES[table])
        assert row_from_record(record) == values


@pytest.mark.parametrize("table", TABLES)
def test_keys_are_fields_of_the_record(table: str) -> None:
    assert set(KEYS[table]) <= {field.name for field in dataclasses.fields(TABLES[table])}


def test_text_as_csv_holds_it_is_read_by_the_type_of_the_field() -> None:
    limit = record_from_row("limits", LIMIT | {"limit_V": "0.25", "obtained": "from memory"})
    assert isinstance(limit, Limit)
    assert (limit.limit_V, limit.obtained) == (0.25, Obtained.FROM_MEMORY)
    compound = record_from_row(
        "compounds", row("compounds", id="x") | {"helps": "a; b;", "temperature_min_C": ""}
    )
    assert isinstance(compound, Compound)
    assert (compound.helps, compound.temperature_min_C) == (("a", "b"), None)
    source = record_from_row("sources", row("sources", id="x") | {"year": "2020", "note": None})
    assert isinstance(source, Source)
    assert (source.year, source.note) == (2020, "")


@pytest.mark.parametrize(
    ("text", "value"),
    [("true", True), ("Yes", True), ("1", True), ("false", False), ("", False), (" no ", False)],
)
def test_truth_has_several_spellings(text: str, value: bool) -> None:  # noqa: FBT001
    assert (
        record_from_row("compounds", row("compounds", id="x") | {"is_conductive": text}).is_conductive
        is value
    )


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"limit_V": "much"}, "limit_V"),
        ({"limit_V": None}, "limit_V"),
        ({"obtained": "guessed"}, "obtained"),
        ({"colour": "red"}, "colour"),
    ],
)
def test_what_cannot_be_read_is_named(changed: dict[str, object], field: str) -> None:
    with pytest.raises(MalformedRowError) as caught:
        record_from_row("limits", LIMIT | changed)
    assert (caught.value.table, caught.value.field) == ("limits", field)


def test_a_missing_column_is_named() -> None:
    values = {name: value for name, value in LIMIT.items() if name != "rule"}
    with pytest.raises(MalformedRowError, match="rule"):
        record_from_row("limits", values)


def test_doubtful_truth_is_refused() -> None:
    with pytest.raises(MalformedRowError, match="is_conductive"):
        record_from_row("compounds", row("compounds", id="x") | {"is_conductive": "maybe"})


def test_the_key_of_a_row_is_its_identity() -> None:
    assert key_of("limits", LIMIT) == ("normal",)
    assert key_of("designations", small_package()["designations"][0]) == ("s235", "EN name", "S235JR")
