"""Which scope a route needs: written into the document, from which the route class enforces it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.access.scopes import DESCRIPTIONS, Scope

KEY, TOKEN = "ApiKey", "AccessToken"
EXAMPLE_ENDPOINT = "https://issuer.example/oauth2/token"
"""Stands in the committed document, which belongs to no installation."""

KEY_SCHEME: Mapping[str, Any] = {
    "type": "http",
    "scheme": "bearer",
    "bearerFormat": "fay_<prefix>_<secret>",
    "description": "An API key, sent as `Authorization: Bearer fay_...`. Scopes:\n\n"
    + "\n".join(f"- `{scope}`: {text}" for scope, text in DESCRIPTIONS.items()),
}


def token_scheme(endpoint: str = EXAMPLE_ENDPOINT) -> dict[str, Any]:
    """Describe access tokens that clients get at an endpoint."""
    flow = {
        "tokenUrl": endpoint,
        "scopes": {scope.value: text for scope, text in DESCRIPTIONS.items()},
    }
    return {
        "type": "oauth2",
        "description": "An access token (RFC 9068) of the issuer that the installation trusts, if any: "
        "the document that it serves names its token endpoint, and `/.well-known/oauth-protected-resource` "
        "the issuer.",
        "flows": {"clientCredentials": flow},
    }


def needs(*scopes: Scope) -> dict[str, Any]:
    """Return the part of an operation that names its scopes, for ``openapi_extra``."""
    names = [scope.value for scope in scopes]
    return {"security": [{KEY: names}, {TOKEN: names}]}


def scopes_of(operation: Mapping[str, Any]) -> tuple[Scope, ...]:
    """Read the scopes back out of an operation."""
    alternatives = operation.get("security", ())
    return tuple(Scope(name) for name in alternatives[0][KEY]) if alternatives else ()
