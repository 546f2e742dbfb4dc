"""Rows of the committed seed files, as text, for the checks in this folder."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

SEED_DATA = Path(__file__).parents[2] / "seed_data"


@cache
def rows(table: str) -> list[dict[str, str]]:
    """All rows of one table."""
    with (SEED_DATA / f"{table}.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def ids(table: str) -> set[str]:
    """Identifiers of one table."""
    return {row["id"] for row in rows(table)}


def cells(row: dict[str, str], column: str) -> set[str]:
    """Members of a list-valued cell."""
    return {member for member in row[column].split(";") if member}


def number(row: dict[str, str], column: str) -> float | None:
    """A numeric cell, ``None`` where it is empty."""
    return float(row[column]) if row[column] else None
