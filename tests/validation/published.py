"""Couples with a published outcome, collected after the service had been built.

Outcome and band were written down, with their source, before any of them was judged. What the service
said then is kept in ``published_blind.csv`` and scored beside what it says now.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.judgement.severity import Severity
from tests.validation import scores
from tests.validation.agreed import UNSTATED
from tests.validation.cases import DATA, Case, documented_in, rows_of
from tests.validation.predictions import Prediction

FILE = DATA / "published_couples.csv"
BLIND = DATA / "published_blind.csv"

IN_THE_CATALOGUE = frozenset(
    f"PC-{number:03d}" for number in (*range(1, 7), *range(15, 23), 36, 37, 47, 48, *range(57, 64))
)
"""Couples whose source is one of the catalogue's: three of them before, the others since the blind result,
when their lesson became a rule. They are no test of it any more."""


def published_cases() -> list[Case]:
    """Return the couples as cases."""
    return [Case(row["id"], "read", row, documented_in(UNSTATED | row)) for row in rows_of(FILE)]


def untouched(pairs: scores.Pairs) -> scores.Pairs:
    """Return the couples whose source is not in the catalogue."""
    return [(case, word) for case, word in pairs if case.name not in IN_THE_CATALOGUE]


def said_blind(cases: Sequence[Case]) -> list[tuple[Case, Prediction]]:
    """Return what the service said before anything was mended."""
    words = {row["id"]: _word(row) for row in rows_of(BLIND)}
    return [(case, words[case.name]) for case in cases]


def headline(pairs: scores.Pairs) -> list[scores.Score]:
    """Score anode and severity, which is what the sources tell."""
    return [
        scores.right_anode(pairs),
        scores.severity_within(pairs, 1, "severity within one step"),
        scores.severity_within(pairs, 0, "severity exact"),
        scores.dangerous_misses(pairs),
    ]


def _word(row: dict[str, str]) -> Prediction:
    severity = row["severity"]
    return Prediction(
        anode=row["anode"],
        is_in_doubt=row["is_in_doubt"] == "yes",
        severity=None if severity == "unknown" else Severity(severity),
        is_suitable=row["verdict"] == "suitable",
        attack=None,
        note=f"{row['verdict']}, {row['deciding_witness']}",
    )
