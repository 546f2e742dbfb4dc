"""Why a caller is turned away.

::

    AccessError
    ├── MissingCredentialsError
    ├── InvalidCredentialsError
    ├── InsufficientScopeError
    ├── IssuerUnreachableError
    ├── TooManyRequestsError
    ├── EndedKeyError
    ├── UnknownKeyError
    ├── UnknownScopeError
    └── UnknownTenantError
"""

from __future__ import annotations

import math


class AccessError(Exception):
    """The caller may not do this."""


class MissingCredentialsError(AccessError):
    """The request carries no API key and no access token."""

    def __init__(self) -> None:
        super().__init__("Send an API key or an access token: Authorization: Bearer fay_...")


class InvalidCredentialsError(AccessError):
    """The API key or access token is not valid.

    Unknown, wrong, revoked and expired ones get the same words, so that nobody learns which keys exist.
    """

    def __init__(self) -> None:
        super().__init__("The API key or access token is unknown, expired or revoked.")


class InsufficientScopeError(AccessError):
    """The API key or access token does not hold the scope that the route needs."""

    def __init__(self, scope: str) -> None:
        super().__init__(f"This needs an API key or access token with the scope {scope}.")
        self.scope = scope


class IssuerUnreachableError(AccessError):
    """Access tokens cannot be checked, because the keys of their issuer are not to be had."""

    def __init__(self, retry_after_s: float) -> None:
        super().__init__("Access tokens cannot be checked at present; API keys can.")
        self.retry_after_s = math.ceil(retry_after_s)


class TooManyRequestsError(AccessError):
    """The caller has used up its allowance. ``policy`` is the name that the header fields give it."""

    def __init__(self, retry_after_s: int, policy: str = "requests") -> None:
        super().__init__(f"The allowance is used up; try again in {retry_after_s} s.")
        self.retry_after_s = retry_after_s
        self.policy = policy


class EndedKeyError(AccessError):
    """An API key that has ended cannot be replaced by a new one."""

    def __init__(self, name: str) -> None:
        super().__init__(f"The API key {name!r} has been revoked or has expired; create a new one.")
        self.name = name


class UnknownKeyError(AccessError):
    """No API key has this identifier or prefix."""

    def __init__(self, name: str) -> None:
        super().__init__(f"No API key has the identifier or prefix {name!r}.")
        self.name = name


class UnknownScopeError(AccessError):
    """A scope that does not exist was asked for."""

    def __init__(self, name: str, known: tuple[str, ...]) -> None:
        super().__init__(f"{name!r} is no scope; known are {', '.join(known)}.")
        self.name = name
        self.known = known


class UnknownTenantError(AccessError):
    """No tenant has this identifier."""

    def __init__(self, tenant_id: str) -> None:
        super().__init__(f"No tenant has the identifier {tenant_id!r}.")
        self.tenant_id = tenant_id
