"""What may become a row of the knowledge base."""

from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.errors import MalformedRowError
from service.curation.errors import UnknownTableError
from service.curation.rows import allowed_values, check_table, checked_row
from tests.factories.knowledge import row

TRIGGER = {"environment": {"tags": {"has": "sulfide"}}}


def test_a_sound_row_is_written_as_its_record_holds_it() -> None:
    written = checked_row("limits", row("limits", id="strict", scale_id="series", limit_V="0.1"))
    assert written["limit_V"] == 0.1


def test_a_trigger_may_come_as_json_or_as_text() -> None:
    rule = row("rules", id="tarnish", trigger=TRIGGER)
    assert checked_row("rules", rule)["trigger"] == '{"environment": {"tags": {"has": "sulfide"}}}'
    assert checked_row("rules", rule | {"trigger": '{"environment": {}}'})["trigger"] == '{"environment": {}}'


@pytest.mark.parametrize(
    ("table", "values", "field"),
    [
        ("limits", {"id": "strict", "limit_V": -0.1}, "limit_V"),
        ("limits", {"id": "strict", "limit_V": "1e999"}, "limit_V"),
        ("limits", {"id": "strict", "limit_V": True}, "limit_V"),
        ("limits", {"id": "", "limit_V": 0.1}, "id"),
        ("limits", {"id": "So strict", "limit_V": 0.1}, "id"),
        ("limits", {"id": "strict", "note": "bell \x07"}, "note"),
        ("limits", {"id": "strict", "note": 7}, "note"),
        ("limits", {"id": "strict", "note": ["a", "b"]}, "note"),
        ("limits", {"id": "strict", "note": {"a": "b"}}, "note"),
        ("environments", {"id": "dock", "relative_humidity_pct": 101.0}, "relative_humidity_pct"),
        ("compounds", {"id": "wax", "helps": ["steel; zinc"]}, "helps"),
        ("compounds", {"id": "wax", "helps": ["steel\x00"]}, "helps"),
        ("rules", {"id": "tarnish", "trigger": "{}"}, "trigger"),
        ("rules", {"id": "tarnish", "trigger": {"weather": {}}}, "trigger"),
        ("mitigations", {"id": "wait", "parameters": "soon"}, "parameters"),
    ],
)
def test_what_nobody_could_use_is_refused_at_its_field(
    table: str, values: dict[str, Any], field: str
) -> None:
    with pytest.raises(MalformedRowError) as caught:
        checked_row(table, row(table, **values))
    assert caught.value.field == field


def test_a_table_must_be_there() -> None:
    check_table("limits")
    for asked in (check_table, lambda table: checked_row(table, {})):
        with pytest.raises(UnknownTableError):
            asked("opinions")


def test_the_words_of_a_closed_set_are_known() -> None:
    assert "read" in allowed_values("limits", "obtained")
    assert allowed_values("limits", "note") == ()
