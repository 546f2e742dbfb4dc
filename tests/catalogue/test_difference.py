from __future__ import annotations

import pytest

from service.catalogue.difference import Change, ChangeKind, diff
from service.catalogue.release import freeze
from tests.factories.knowledge import Values, catalogue_of, row, small_package


@pytest.fixture
def later() -> dict[str, list[Values]]:
    return small_package()


def changes(later: dict[str, list[Values]]) -> list[Change]:
    found = diff(catalogue_of(small_package()), catalogue_of(later, "2026.01.02-1"))
    assert found == diff(freeze("a", small_package()), freeze("b", later))
    return found


def test_the_same_rows_in_another_order_under_another_label_are_no_change(
    later: dict[str, list[Values]],
) -> None:
    for rows in later.values():
        rows.reverse()
    assert changes(later) == []


def test_a_changed_value_is_a_correction(later: dict[str, list[Values]]) -> None:
    later["limits"][0]["limit_V"] = 0.15
    assert changes(later) == [Change("limits", ("normal",), "limit_V", 0.25, 0.15, ChangeKind.CORRECTED)]


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("obtained", "read"),
        ("fitness", "close"),
        ("plausibility", "doubtful"),
        ("quarantine_reason", "other alloy"),
    ],
)
def test_a_change_of_trust_is_a_regrading(later: dict[str, list[Values]], field: str, value: str) -> None:
    before = later["measurements"][0][field]
    later["measurements"][0][field] = value
    assert changes(later) == [
        Change("measurements", ("zinc-in-brine",), field, before, value, ChangeKind.REGRADED)
    ]


def test_rows_that_come_and_go_are_shown_whole(later: dict[str, list[Values]]) -> None:
    gone = later["finish_substrates"].pop()
    new = row("designations", material_id="zinc-sheet", system="common", text="zinc")
    later["designations"].append(new)
    assert changes(later) == [
        Change("designations", ("zinc-sheet", "common", "zinc"), "", None, new, ChangeKind.ADDED),
        Change("finish_substrates", ("gold-plate", "copper alloy"), "", gone, None, ChangeKind.REMOVED),
    ]


def test_one_row_may_change_in_several_fields(later: dict[str, list[Values]]) -> None:
    later["compounds"][0] |= {"helps": ["salt"], "obtained": "read"}
    assert [(change.field, change.kind) for change in changes(later)] == [
        ("helps", ChangeKind.CORRECTED),
        ("obtained", ChangeKind.REGRADED),
    ]


def test_the_way_back_undoes_the_way_there(later: dict[str, list[Values]]) -> None:
    later["limits"][0]["limit_V"] = 0.15
    later["compounds"].clear()
    there = diff(catalogue_of(small_package()), catalogue_of(later))
    back = diff(catalogue_of(later), catalogue_of(small_package()))
    assert [(c.table, c.key, c.field, c.after, c.before) for c in there] == [
        (c.table, c.key, c.field, c.before, c.after) for c in back
    ]
