"""What an API key may be allowed to do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import StrEnum
from types import MappingProxyType

from service.access.errors import UnknownScopeError


class Scope(StrEnum):
    """One permission; routes name the one that they need."""

    READ = "catalogue:read"
    JUDGE = "couples:judge"
    ASSEMBLIES = "assemblies:write"
    PROPOSE = "knowledge:propose"
    REVIEW = "knowledge:review"
    PUBLISH = "releases:publish"
    TENANT = "tenant:manage"
    AUDIT = "audit:read"


DESCRIPTIONS: Mapping[Scope, str] = MappingProxyType(
    {
        Scope.READ: "Read the knowledge base and its releases.",
        Scope.JUDGE: "Resolve drawing texts, judge couples, ask for alternatives and mitigations.",
        Scope.ASSEMBLIES: "Check and store assemblies, start jobs, register webhooks.",
        Scope.PROPOSE: "Propose a new or changed figure and comment on proposals.",
        Scope.REVIEW: "Accept or refuse proposals made with another key.",
        Scope.PUBLISH: "Publish and withdraw releases.",
        Scope.TENANT: "Manage the overlay, policies and waivers of the own tenant.",
        Scope.AUDIT: "Read the audit trail, as far as it concerns all or the own tenant.",
    }
)

CALLER = frozenset({Scope.READ, Scope.JUDGE, Scope.ASSEMBLIES})
"""What a new key may do unless its maker says otherwise: everything that changes nothing for others."""

EVERYTHING = frozenset(Scope)


def parse_scopes(names: Iterable[str]) -> frozenset[Scope]:
    """Return the scopes of these names.

    Raises
    ------
    UnknownScopeError
        At the first name that is no scope.
    """
    scopes = set()
    for name in names:
        try:
            scopes.add(Scope(name))
        except ValueError:
            raise UnknownScopeError(name, tuple(sorted(Scope))) from None
    return frozenset(scopes)
