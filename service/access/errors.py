"""Why a caller is turned away.

::

    AccessError
    ├── MissingCredentialsError
    ├── InvalidCredentialsError
    ├── InsufficientScopeError
    ├── TooManyRequestsError
    ├── UnknownKeyError
    ├── UnknownScopeError
    └── UnknownTenantError
"""

from __future__ import annotations


class AccessError(Exception):
    """The caller may not do this."""


class MissingCredentialsError(AccessError):
    """The request carries no API key."""

    def __init__(self) -> None:
        super().__init__("Send an API key: Authorization: Bearer fay_...")


class InvalidCredentialsError(AccessError):
    """The API key is not valid.

    Unknown, wrong, revoked and expired keys get the same words, so that nobody learns which keys exist.
    """

    def __init__(self) -> None:
        super().__init__("The API key is unknown, expired or revoked.")


class InsufficientScopeError(AccessError):
    """The API key does not hold the scope that the route needs."""

    def __init__(self, scope: str) -> None:
        super().__init__(f"This needs an API key with the scope {scope}.")
        self.scope = scope


class TooManyRequestsError(AccessError):
    """The caller has used up its allowance."""

    def __init__(self, retry_after_s: int) -> None:
        super().__init__(f"The allowance is used up; try again in {retry_after_s} s.")
        self.retry_after_s = retry_after_s


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
