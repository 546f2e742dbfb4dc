from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.catalogue.errors import DamagedReleaseError, MalformedRowError
from service.catalogue.release import content_hash, freeze, thaw
from tests.factories.knowledge import row, small_package


def test_the_order_of_rows_does_not_matter() -> None:
    package = small_package()
    export = freeze("a", package)
    for rows in package.values():
        rows.reverse()
    assert freeze("a", package) == export


def test_a_thawed_release_freezes_to_the_same_bytes() -> None:
    export = freeze("2026.01.01-1", small_package())
    catalogue = thaw(export)
    assert (catalogue.label, catalogue.content_hash) == ("2026.01.01-1", content_hash(export))
    assert thaw(export, content_hash(export)).materials == catalogue.materials


@given(st.binary(min_size=1, max_size=3), st.data())
def test_no_damage_goes_unnoticed(damage: bytes, data: st.DataObject) -> None:
    export = freeze("a", small_package())
    place = data.draw(st.integers(0, len(export) - 1))
    damaged = export[:place] + damage + export[place + len(damage) :]
    if damaged != export:
        with pytest.raises(DamagedReleaseError):
            thaw(damaged, content_hash(export))


def test_a_row_that_no_catalogue_could_read_is_not_frozen() -> None:
    package = small_package()
    package["limits"] = [row("limits", id="x") | {"limit_V": "much"}]
    with pytest.raises(MalformedRowError):
        freeze("a", package)


def test_tables_without_rows_are_there_and_empty() -> None:
    assert json.loads(freeze("a", {}))["tables"]["rules"] == []
    assert thaw(freeze("a", {})).rules == {}
