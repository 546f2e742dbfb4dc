"""Scopes have names, descriptions and a default."""

from __future__ import annotations

import pytest

from service.access.errors import UnknownScopeError
from service.access.scopes import CALLER, DESCRIPTIONS, EVERYTHING, Scope, parse_scopes


def test_every_scope_says_what_it_allows() -> None:
    assert set(DESCRIPTIONS) == set(Scope) == EVERYTHING


def test_a_new_key_changes_nothing_for_others() -> None:
    assert CALLER.isdisjoint({Scope.REVIEW, Scope.PUBLISH, Scope.TENANT, Scope.PROPOSE})


def test_names_become_scopes_or_are_refused() -> None:
    assert parse_scopes(["catalogue:read", "couples:judge"]) == {Scope.READ, Scope.JUDGE}
    with pytest.raises(UnknownScopeError) as caught:
        parse_scopes(["catalogue:write"])
    assert "catalogue:read" in caught.value.known
