"""Operations read back out of the document."""

from __future__ import annotations

from service.access import Scope
from service.web.api import assemble
from service.web.operations import Operation

API = assemble()
ASK = Operation.of(API, "/v1/couples", "POST")
BY_TEXT = Operation.of(API, "/v1/couples", "GET")


def test_what_an_operation_takes_gives_and_needs() -> None:
    assert BY_TEXT.body is None
    assert {"first", "second", "environment"} <= set(BY_TEXT.query)
    assert ASK.query == {}
    assert ASK.body is not None
    assert ASK.scopes == BY_TEXT.scopes == (Scope.JUDGE,)
    assert ASK.produces == ("application/json",)
    assert Operation.of(API, "/healthz", "GET").scopes == ()


def test_lists_may_be_repeated() -> None:
    assert BY_TEXT.is_repeatable("functions")
    assert not BY_TEXT.is_repeatable("first")


def test_names_are_found_at_any_depth() -> None:
    assert "first_area_cm2" in ASK.members_at("body", ("x",))
    assert "material_id" in ASK.members_at("body", ("first", "x"))
    assert "finish_id" in ASK.members_at("body", ("first", "layers", 0, "x"))
    assert ASK.members_at("body", ("nothing", "x")) == ()
    assert "limit" not in BY_TEXT.members_at("query", ("x",))
