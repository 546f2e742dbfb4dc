"""The table of figures: printed beside the committed one, and written as JSON and as text."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path

from rich.console import Console
from rich.table import Table

from tests.benchmarks.rows import Row

FOLDER = Path(__file__).parent
FIGURES, READABLE = FOLDER / "figures.json", FOLDER / "README.md"
WORSE_BY = 0.2
"""Loss against the committed figure that is called a regression; runs differ by about half of it."""


@dataclass(frozen=True, slots=True)
class Committed:
    """The committed figures and what they were measured on."""

    machine: Mapping[str, object] = field(default_factory=dict)
    rows: Mapping[tuple[str, str], Row] = field(default_factory=dict)


def committed(file: Path = FIGURES) -> Committed:
    """Read the committed figures; nothing before the first."""
    if not file.exists():
        return Committed()
    document = json.loads(file.read_text(encoding="utf-8"))
    rows = [_row(each) for each in document["rows"]]
    return Committed(document["machine"], {(row.section, row.name): row for row in rows})


def _row(document: dict[str, object]) -> Row:
    spread = document["spread"]
    return Row(**{**document, "spread": tuple(spread) if isinstance(spread, list) else None})  # type: ignore[arg-type]


def gain(row: Row, before: Row) -> float:
    """How much better than before, as a share: negative is worse."""
    change = row.value / before.value if before.value else 1.0
    return change - 1.0 if row.is_more_better else 1.0 / max(change, 1e-9) - 1.0


def verdict(row: Row, before: Row | None, *, is_same_machine: bool) -> str:
    """Say what became of a figure. What is no ratio is compared on the same processor only."""
    words = [] if row.is_met is None else ["goal met" if row.is_met else "GOAL MISSED"]
    if before is None:
        words.append("new")
    elif row.is_ratio or is_same_machine:
        change = gain(row, before)
        words.append(f"REGRESSION {change:+.0%}" if change < -WORSE_BY else f"{change:+.0%}")
    return ", ".join(words)


def show(console: Console, rows: Iterable[Row], before: Committed, *, is_same_machine: bool) -> None:
    """Print the table."""
    table = Table("", "figure", "goal", "spread", "committed", "", "beside it", padding=(0, 1))
    for row in rows:
        old = before.rows.get((row.section, row.name))
        said = verdict(row, old, is_same_machine=is_same_machine)
        style = "red" if said.isupper() or "MISSED" in said or "REGRESSION" in said else None
        table.add_row(
            f"{row.section}: {row.name}", *_cells(row), _figure(old.value, old.unit) if old else "", said,
            row.note, style=style,
        )  # fmt: skip
    console.print(table)


def _cells(row: Row) -> tuple[str, str, str]:
    sign = "≥" if row.is_more_better else "≤"
    goal = f"{sign} {_figure(row.goal, row.unit)}" if row.goal is not None else ""
    spread = f"{_plain(row.spread[0])} to {_plain(row.spread[1])}" if row.spread else ""
    return _figure(row.value, row.unit), goal, spread


def _figure(value: float, unit: str) -> str:
    return f"{_plain(value)} {unit}"


def _plain(value: float) -> str:
    return f"{value:,.0f}" if abs(value) >= 100 else f"{value:.3g}"


def machine_line(machine: Mapping[str, object]) -> str:
    """Describe a machine in one line."""
    packages = machine["packages"]
    versions = (
        ", ".join(f"{name} {number}" for name, number in packages.items())
        if isinstance(packages, dict)
        else ""
    )
    load, cores = machine["load_before"], machine["cores"]
    is_busy = isinstance(load, list) and isinstance(cores, int) and load[0] > cores
    busy = (
        "; others were using the machine, so times by the clock are several times too long" if is_busy else ""
    )
    return (
        f"{machine['processor']}, {machine['cores']} cores, {machine['memory_GB']} GB, {machine['system']}, "
        f"Python {machine['python']}, {versions}; load before {load}{busy}"
    )


def write(machine: Mapping[str, object], rows: list[Row], before: Committed) -> None:
    """Make these figures the committed ones; sections that were not measured stay."""
    measured = {row.section for row in rows}
    kept = [row for (section, _), row in before.rows.items() if section not in measured]
    document = {"machine": machine, "rows": [asdict(row) for row in (*kept, *rows)]}
    FIGURES.write_text(json.dumps(document, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    READABLE.write_text(readable(machine, [*kept, *rows]), encoding="utf-8")


def readable(machine: Mapping[str, object], rows: Iterable[Row]) -> str:
    """Write the figures as a page."""
    lines = [
        "# Measured figures",
        "",
        "Written by `make bench WRITE=1`; `make bench` prints the same table beside these figures and points",
        "out what became worse. `x` is a ratio of two things that took turns in one run; the rest depends",
        "on the machine. The spread is that of the rounds.",
        "",
        machine_line(machine),
        "",
        "| | figure | goal | spread | beside it |",
        "|---|---|---|---|---|",
    ]
    for row in rows:
        figure, goal, spread = _cells(row)
        lines.append(f"| {row.section}: {row.name} | {figure} | {goal} | {spread} | {row.note} |")
    return "\n".join(lines) + "\n"
