"""Texts a second of the resolver against rapidfuzz over the same names, and its cost by length of text."""

from __future__ import annotations

import csv
import gc
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
from rapidfuzz import process

from service.callouts import LONGEST_TEXT, Resolver
from tests.seed_catalogue import seed_catalogue

TABLES = Path(__file__).parents[1] / "callouts" / "data"
SUBSAMPLE = 60
GOAL = 15.0
LENGTHS = tuple(LONGEST_TEXT // parts for parts in (64, 32, 16, 8, 4, 2, 1))
REPEATED = ("Fe//Zn8//A; ", "A2 ", 'Ni 5 µm over Au 30u" ', "ab ", "ni/au/", "1.4301, ", "M6x20 verzinkt ")


def texts() -> list[str]:
    """Callouts of both tables of the tests."""
    return [
        row["text"]
        for name in ("callouts_published.csv", "callouts_grammar.csv")
        for row in csv.DictReader((TABLES / name).open(encoding="utf-8", newline=""))
    ]


def seconds(work: Callable[[], object], repetitions: int = 5) -> float:
    """Best processor time of some repetitions [s]; other processes share the machine."""
    best = np.inf
    gc.disable()
    for _ in range(repetitions):
        start = time.process_time()
        work()
        best = min(best, time.process_time() - start)
    gc.enable()
    return float(best)


def main() -> None:
    """Print both measurements."""
    start = time.process_time()
    resolver = Resolver.of(seed_catalogue())
    built = time.process_time() - start
    names = list(resolver.names)
    wanted = texts()
    resolver.resolve(wanted[0])

    resolved = seconds(lambda: [resolver.resolve(text) for text in wanted]) / len(wanted)
    some = wanted[:: len(wanted) // SUBSAMPLE]
    extracted = seconds(lambda: [process.extract(text.lower(), names, limit=5) for text in some], 3) / len(
        some
    )
    print(f"{len(names)} names of {len(resolver.catalogue.materials)} materials and their finishes, ", end="")
    print(f"catalogue read and names indexed in {built:.2f} s")
    print(f"{len(wanted)} texts: resolver {1 / resolved:.0f} texts/s ({resolved * 1e6:.0f} µs each)")
    print(f"rapidfuzz.process.extract on {len(some)} of them: {1 / extracted:.0f} texts/s")
    print(f"{extracted / resolved:.1f}x (goal {GOAL:.0f}x)")
    print()
    print("milliseconds by length of text; the last column is the growth for each doubling, 2 is linear")
    print(f"{'repeated':>24}" + "".join(f"{length:>8}" for length in LENGTHS) + "  growth")
    for piece in REPEATED:
        spent = []
        for length in LENGTHS:
            text = (piece * (length // len(piece) + 1))[:length]
            spent.append(seconds(lambda text=text: resolver.resolve(text), 3))  # type: ignore[misc]
        slope = np.polyfit(np.log2(LENGTHS[2:]), np.log2(spent[2:]), 1)[0]
        figures = "".join(f"{second * 1e3:8.2f}" for second in spent)
        print(f"{piece.strip():>24}{figures}{2**slope:8.2f}")


if __name__ == "__main__":
    main()
