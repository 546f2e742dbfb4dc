"""Records as forms."""

from __future__ import annotations

from service.web.pages.editing import changed, controls
from tests.factories.knowledge import row

LIMIT = row("limits", id="strict", scale_id="series", limit_V=0.1, note="first\nsecond")


def named(table: str, name: str, **given: str) -> tuple[str, str, tuple[str, ...], bool, bool]:
    values = row(table, id="x", helps=["salt", "sealing"]) if table == "compounds" else LIMIT
    (found,) = [each for each in controls(table, values, given, {}) if each.name == name]
    return found.label, found.value, found.choices, found.is_long, found.is_key


def test_each_field_has_its_control() -> None:
    assert named("limits", "limit_V") == ("Limit, V", "0.1", (), False, False)
    assert named("limits", "id") == ("Id", "strict", (), False, True)
    assert named("limits", "scale_id")[0] == "Scale"
    assert named("limits", "note")[3]
    assert "read" in named("limits", "obtained")[2]
    assert named("compounds", "is_conductive")[1:3] == ("false", ("false", "true"))
    assert named("compounds", "helps")[1] == "salt; sealing"


def test_what_was_typed_stands_before_what_is_there() -> None:
    assert named("limits", "limit_V", limit_V="much")[1] == "much"
    (found,) = [each for each in controls("limits", LIMIT, {}, {"limit_V": "no"}) if each.fault]
    assert (found.name, found.fault) == ("limit_V", "no")


def test_a_new_record_may_choose_its_key() -> None:
    assert not any(control.is_key for control in controls("limits", None, {}, {}))


def test_only_what_differs_is_changed() -> None:
    as_it_is = {control.name: control.value for control in controls("limits", LIMIT, {}, {})}
    assert changed("limits", LIMIT, as_it_is) == {}
    assert changed("limits", LIMIT, {"limit_V": "0.2", "id": "other"}) == {"limit_V": "0.2"}
    assert changed("limits", None, {"id": "new"})["scale_id"] == ""
