"""Which scope a route needs: written into the document, from which the route class enforces it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.access.scopes import DESCRIPTIONS, Scope

SCHEME_NAME = "ApiKey"
SCHEME: Mapping[str, Any] = {
    "type": "http",
    "scheme": "bearer",
    "bearerFormat": "fay_<prefix>_<secret>",
    "description": "An API key, sent as `Authorization: Bearer fay_...`. Scopes:\n\n"
    + "\n".join(f"- `{scope}`: {text}" for scope, text in DESCRIPTIONS.items()),
}


def needs(*scopes: Scope) -> dict[str, Any]:
    """Return the part of an operation that names its scopes, for ``openapi_extra``."""
    return {"security": [{SCHEME_NAME: [scope.value for scope in scopes]}]}


def scopes_of(operation: Mapping[str, Any]) -> tuple[Scope, ...]:
    """Read the scopes back out of an operation."""
    return tuple(
        Scope(name) for alternative in operation.get("security", ()) for name in alternative[SCHEME_NAME]
    )
