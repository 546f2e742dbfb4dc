"""Severity of attack and the verdict it leads to."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum


class Severity(StrEnum):
    """How badly a couple suffers over its design life; ordered from none to severe."""

    NONE = "none"
    SLIGHT = "slight"
    MODERATE = "moderate"
    SEVERE = "severe"

    @property
    def rank(self) -> int:
        """Place in the order, 0 for none."""
        return _RANKS[self]

    def capped(self, limit: Severity) -> Severity:
        """Return this severity or ``limit``, whichever is milder."""
        return min(self, limit, key=lambda severity: severity.rank)


_ORDER = tuple(Severity)
_RANKS = {severity: rank for rank, severity in enumerate(_ORDER)}


class Verdict(StrEnum):
    """The answer to "may they touch here?"."""

    SUITABLE = "suitable"
    CONDITIONAL = "conditional"
    UNSUITABLE = "unsuitable"
    UNDETERMINED = "undetermined"


def worst(severities: Iterable[Severity]) -> Severity:
    """Return the worst of several severities.

    Parameters
    ----------
    severities : iterable of Severity

    Returns
    -------
    Severity
        None for an empty collection.
    """
    return max(severities, key=lambda severity: severity.rank, default=Severity.NONE)


def by_rank(rank: int) -> Severity:
    """Return the severity at a place in the order.

    Parameters
    ----------
    rank : int
        0 for none to 3 for severe; figures beyond are held within the ends [-].

    Returns
    -------
    Severity
    """
    return _ORDER[max(0, min(rank, len(_ORDER) - 1))]


VERDICT_OF: dict[Severity, Verdict] = {
    Severity.NONE: Verdict.SUITABLE,
    Severity.SLIGHT: Verdict.SUITABLE,
    Severity.MODERATE: Verdict.CONDITIONAL,
    Severity.SEVERE: Verdict.UNSUITABLE,
}
"""Verdict that a severity leads to when nothing else speaks."""
