"""Couples with a published outcome, collected after the service had been built.

Outcome and band were written down, with their source, before any of them was judged; what the service
said then is kept in ``published_blind.csv``.
"""

from __future__ import annotations

from tests.validation.agreed import UNSTATED
from tests.validation.cases import DATA, Case, documented_in, rows_of

FILE = DATA / "published_couples.csv"


def published_cases() -> list[Case]:
    """Return the couples as cases."""
    return [Case(row["id"], "read", row, documented_in(UNSTATED | row)) for row in rows_of(FILE)]
