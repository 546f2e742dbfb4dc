"""Scopes are written into the document and read back."""

from __future__ import annotations

from service.access import Scope
from service.web.permissions import KEY_SCHEME, needs, scopes_of, token_scheme


def test_scopes_read_back() -> None:
    assert scopes_of(needs(Scope.READ, Scope.JUDGE)) == (Scope.READ, Scope.JUDGE)
    assert scopes_of({}) == ()


def test_the_schemes_explain_every_scope() -> None:
    assert all(f"`{scope}`" in KEY_SCHEME["description"] for scope in Scope)
    assert set(token_scheme()["flows"]["clientCredentials"]["scopes"]) == set(Scope)


def test_a_key_and_a_token_need_the_same_scopes() -> None:
    key, token = needs(Scope.PUBLISH)["security"]
    assert list(key.values()) == list(token.values()) == [["releases:publish"]]
