"""Measure everything and print one table: ``make bench``, or ``make bench ONLY=lookup``.

The last committed figures stand beside the new ones; ``WRITE=1`` commits new ones to the files.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable, Iterator, Mapping

from rich.console import Console

from service.app import suit_the_interpreter
from tests.benchmarks import (
    assemblies,
    batches,
    chain,
    judging,
    lookup,
    resolving,
    rising_load,
    searching,
    solvers,
    starting,
)
from tests.benchmarks.machine import describe
from tests.benchmarks.rows import Row
from tests.benchmarks.table import committed, machine_line, show, write

SECTIONS: Mapping[str, Callable[[], Iterator[Row]]] = {
    "lookup": lookup.measure,
    "chain": chain.measure,
    "batch": batches.measure,
    "load": rising_load.measure,
    "start": starting.measure,
    "judging": judging.measure,
    "solver": solvers.measure,
    "alternatives": searching.measure,
    "resolve": resolving.measure,
    "assemblies": assemblies.measure,
}


def main() -> None:
    """Read the options, measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", choices=sorted(SECTIONS), help="one section")
    parser.add_argument("--write", action="store_true", help="make the figures the committed ones")
    given = parser.parse_args()
    suit_the_interpreter()  # what is measured in this process runs as it does in a server
    console, machine, rows = Console(width=230), describe(), list[Row]()
    for name, measure in SECTIONS.items():
        if given.only in {None, name}:
            start = time.perf_counter()
            with console.status(f"measuring {name}"):
                rows.extend(measure())
            console.print(f"{name} measured in {time.perf_counter() - start:.0f} s", style="dim")
    before = committed()
    console.print(machine_line(machine))
    show(console, rows, before, is_same_machine=before.machine.get("processor") == machine["processor"])
    if given.write:
        write(machine, rows, before)


if __name__ == "__main__":
    main()
