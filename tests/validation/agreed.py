"""Couples on which corrosion engineers agree, each with the question that puts it to the service.

Anode and band of severity were written down before the service had judged any of them.
"""

from __future__ import annotations

from tests.validation.cases import DATA, Case, documented_in, rows_of

FILE = DATA / "agreed_couples.csv"
UNSTATED = dict.fromkeys(
    (
        "function_severity",
        "study",
        "rank",
        "ratio_group",
        "ratio",
        "rate_um_per_year",
        "rate_is",
        "acceleration",
        "cathode_current_A_per_m2",
    ),
    "",
)


def agreed_cases() -> list[Case]:
    """Return the couples as cases."""
    return [Case(row["id"], row["basis"], row, documented_in(row | UNSTATED)) for row in rows_of(FILE)]
