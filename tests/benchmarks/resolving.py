"""Texts a second of the resolver against rapidfuzz over the same names, and its cost by length of text."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from rapidfuzz import process

from service.callouts import LONGEST_TEXT, Resolver
from tests.benchmarks.rows import ROUNDS, Row, processor_s, row_of
from tests.seed_catalogue import seed_catalogue

TABLES = Path(__file__).parents[1] / "callouts" / "data"
SUBSAMPLE = 40
LENGTHS = tuple(LONGEST_TEXT // parts for parts in (16, 8, 4, 2, 1))
REPEATED = ("Fe//Zn8//A; ", "A2 ", 'Ni 5 µm over Au 30u" ', "ab ", "ni/au/", "1.4301, ", "M6x20 verzinkt ")


def texts() -> list[str]:
    """Callouts of both tables of the tests."""
    return [
        row["text"]
        for name in ("callouts_published.csv", "callouts_grammar.csv")
        for row in csv.DictReader((TABLES / name).open(encoding="utf-8", newline=""))
    ]


def measure() -> Iterator[Row]:
    """Resolve in turns with a plain fuzzy search, then texts of growing length."""
    resolver = Resolver.of(seed_catalogue())
    names, wanted = list(resolver.names), texts()
    resolver.resolve(wanted[0])
    some = wanted[:: len(wanted) // SUBSAMPLE]
    turns = []
    for _ in range(ROUNDS):
        own = processor_s(lambda: [resolver.resolve(text) for text in wanted], 1) / len(wanted)
        plain = processor_s(lambda: [process.extract(text.lower(), names, limit=5) for text in some], 1)
        turns.append((plain / len(some), own))
    best = min(own for _, own in turns)
    yield row_of(
        "resolve", "rapidfuzz.process.extract / resolver", [plain / own for plain, own in turns], goal=15.0,
        note=f"{best * 1e6:.0f} µs a text; {len(wanted)} texts, {len(names):,} names",
    )  # fmt: skip
    yield Row("resolve", "drawing texts", 1.0 / best, "texts/s")
    slopes = {piece: growth(resolver, piece) for piece in REPEATED}
    worst = max(slopes, key=lambda piece: slopes[piece])
    note = f"2 is linear; repeated {worst.strip()!r} up to {LONGEST_TEXT} characters"
    name = "growth for each doubling of a text, the worst"
    yield Row("resolve", name, slopes[worst], "times", is_more_better=False, note=note)


def growth(resolver: Resolver, piece: str) -> float:
    """Factor of time for each doubling of the length."""
    spent = []
    for length in LENGTHS:
        text = (piece * (length // len(piece) + 1))[:length]
        spent.append(processor_s(lambda text=text: resolver.resolve(text), 3))  # type: ignore[misc]
    return float(2 ** np.polyfit(np.log2(LENGTHS), np.log2(spent), 1)[0])
