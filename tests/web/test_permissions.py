"""Scopes are written into the document and read back."""

from __future__ import annotations

from service.access import Scope
from service.web.permissions import SCHEME, needs, scopes_of


def test_scopes_read_back() -> None:
    assert scopes_of(needs(Scope.READ, Scope.JUDGE)) == (Scope.READ, Scope.JUDGE)
    assert scopes_of({}) == ()


def test_the_scheme_explains_every_scope() -> None:
    assert all(f"`{scope}`" in SCHEME["description"] for scope in Scope)
