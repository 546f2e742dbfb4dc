"""Tables ready to send: search, slices and near keys."""

from __future__ import annotations

import orjson
import pytest

from service.web.collections import TABLES, Collection, collections_of, joined
from service.web.errors import NoSuchRecordError
from tests.factories.knowledge import catalogue_of, row, small_package


@pytest.fixture
def materials() -> Collection:
    package = small_package()
    package["materials"] += [row("materials", id=f"m{number:02}", name="Spare") for number in range(10)]
    return Collection.of(catalogue_of(package), "materials")


def test_every_table_is_there() -> None:
    found = collections_of(catalogue_of(small_package()))
    assert tuple(found) == TABLES
    assert all(collection.keys for collection in found.values())


def test_slices_follow_each_other_without_gap(materials: Collection) -> None:
    seen: list[str] = []
    while True:
        part = materials.slice({}, seen[-1] if seen else "", 5)
        seen += part.keys
        assert part.total == 12
        if part.is_last:
            break
    assert seen == sorted(materials.keys)


def test_a_slice_that_ends_exactly_is_the_last(materials: Collection) -> None:
    assert materials.slice({}, "", 12).is_last
    assert not materials.slice({}, "", 11).is_last
    assert materials.slice({"q": "nothing like it"}, "", 5).is_last


def test_all_words_of_a_search_must_be_there(materials: Collection) -> None:
    assert materials.slice({"q": "sheet ZINC"}, "", 5).keys == ["zinc-sheet"]
    assert materials.slice({"q": "sheet steel"}, "", 5).keys == []
    assert materials.slice({"q": " "}, "", 50).total == 12


def test_near_keys_come_from_keys_and_names(materials: Collection) -> None:
    assert materials.near("zink-sheet") == ("zinc-sheet",)
    assert materials.near("s235jr")[0] == "s235"
    with pytest.raises(NoSuchRecordError) as caught:
        materials.body("m00x")
    assert "m00" in caught.value.suggestions


def test_ready_bytes_join_into_a_document() -> None:
    assert orjson.dumps({"items": joined([b'{"a":1}', b"2"])}) == b'{"items":[{"a":1},2]}'
