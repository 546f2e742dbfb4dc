"""Who is asking."""

from __future__ import annotations

from dataclasses import dataclass

from service.access.errors import InsufficientScopeError
from service.access.scopes import Scope


@dataclass(frozen=True, slots=True)
class Principal:
    """The holder of a valid API key, with what it may do."""

    key_id: str
    tenant_id: str
    scopes: frozenset[Scope]

    def require(self, scope: Scope) -> None:
        """Turn the caller away unless it holds a scope.

        Raises
        ------
        InsufficientScopeError
            If the key lacks it.
        """
        if scope not in self.scopes:
            raise InsufficientScopeError(scope)
