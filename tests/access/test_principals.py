"""A principal may do what its key's scopes say, and nothing else."""

from __future__ import annotations

import pytest

from service.access.errors import InsufficientScopeError
from service.access.principals import Principal
from service.access.scopes import Scope


def test_a_missing_scope_is_named() -> None:
    holder = Principal("key_1", "harbour", frozenset({Scope.READ}))
    holder.require(Scope.READ)
    with pytest.raises(InsufficientScopeError) as caught:
        holder.require(Scope.PUBLISH)
    assert caught.value.scope == "releases:publish"
