from __future__ import annotations

import pytest

from service.catalogue.errors import UnknownRecordError
from service.catalogue.records import RuleKind
from service.catalogue.tables import TABLES
from tests.factories.knowledge import catalogue_of, small_package

CATALOGUE = catalogue_of(small_package())


def test_records_are_found_by_identifier() -> None:
    assert CATALOGUE.record("materials", "s235").name == "S235JR"
    assert CATALOGUE.record("materials", "s235") is CATALOGUE.materials["s235"]


@pytest.mark.parametrize(("table", "name"), [("materials", "nowhere"), ("scales", "")])
def test_an_unknown_record_is_named(table: str, name: str) -> None:
    with pytest.raises(UnknownRecordError) as caught:
        CATALOGUE.record(table, name)
    assert (caught.value.table, caught.value.record_id) == (table, name)


def test_indexes_hold_every_record_of_their_table() -> None:
    assert [found.id for found in CATALOGUE.measurements_of["electrode", "zinc"]] == ["zinc-in-brine"]
    assert [found.id for found in CATALOGUE.measurements_of["material", "s235"]] == ["steel-density"]
    assert sum(map(len, CATALOGUE.measurements_of.values())) == len(CATALOGUE.measurements)
    assert [found.id for found in CATALOGUE.kinetics_of["zinc"]] == ["zinc-active"]
    assert sum(map(len, CATALOGUE.rules_of.values())) == len(CATALOGUE.rules)
    assert CATALOGUE.rules["earth"].kind in set(RuleKind)


def test_nothing_in_it_can_be_changed() -> None:
    with pytest.raises(TypeError):
        CATALOGUE.materials["s235"] = CATALOGUE.materials["zinc-sheet"]  # type: ignore[index]
    with pytest.raises(AttributeError):
        CATALOGUE.label = "other"  # type: ignore[misc]


def test_its_records_make_it_again() -> None:
    records = CATALOGUE.records()
    assert set(records) == set(TABLES)
    again = type(CATALOGUE).from_records(CATALOGUE.label, CATALOGUE.content_hash, records)
    assert again.records() == records


def test_without_an_overlay_it_says_so() -> None:
    assert (CATALOGUE.overlay_hash, CATALOGUE.bans) == ("", {})
