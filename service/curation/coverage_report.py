"""The coverage of the knowledge base as Markdown, for people and for the generated page."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from pathlib import Path

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import GRADES, grade
from service.catalogue.records import Kinetics, Measurement, Obtained
from service.curation.coverage import Conflict, DecidingFigures, conflicts, deciding_figures, gaps


def coverage_page(catalogue: Catalogue) -> str:
    """Coverage of a catalogue: rows, access, deciding figures, gaps and conflicts."""
    sections = (
        _rows(catalogue),
        _potentials(catalogue),
        _deciding(deciding_figures(catalogue)),
        _gaps(gaps(catalogue)),
        _conflicts(conflicts(catalogue)),
    )
    return "\n\n".join(sections) + "\n"


BEGIN = "<!-- coverage: written by `faying check-data --write` -->"
END = "<!-- end of coverage -->"


def write_coverage_page(file: Path, page: str) -> None:
    """Put a coverage page between its marks in a Markdown file."""
    text = file.read_text(encoding="utf-8")
    before, rest = text.split(BEGIN, 1)
    after = rest.split(END, 1)[1]
    file.write_text(f"{before}{BEGIN}\n\n{page}\n{END}{after}", encoding="utf-8")


def _table(head: Iterable[str], rows: Iterable[Iterable[object]]) -> str:
    lines = [f"| {' | '.join(head)} |"]
    lines.append("|" + " --- |" * lines[0].count(" | ") + " --- |")
    lines += [f"| {' | '.join(str(cell) for cell in row)} |" for row in rows]
    return "\n".join(lines)


def _rows(catalogue: Catalogue) -> str:
    tables = (
        ("materials", catalogue.materials),
        ("designations", catalogue.designations),
        ("electrodes", catalogue.electrodes),
        ("finishes", catalogue.finishes),
        ("compounds", catalogue.compounds),
        ("environments", catalogue.environments),
        ("measurements", catalogue.measurements),
        ("kinetics", catalogue.kinetics),
        ("rules", catalogue.rules),
        ("mitigations", catalogue.mitigations),
        ("sources", catalogue.sources),
    )
    return "### Rows\n\n" + _table(("table", "rows"), ((name, len(rows)) for name, rows in tables))


def _potentials(catalogue: Catalogue) -> str:
    counts: dict[str, Counter[str]] = {}
    set_aside: Counter[str] = Counter()
    figures: list[Measurement | Kinetics] = [*catalogue.measurements.values(), *catalogue.kinetics.values()]
    for row in figures:
        quantity = getattr(row, "quantity", "kinetics")
        letter = grade(row.obtained, row.fitness, row.plausibility)
        if row.quarantine_reason or letter is None:
            set_aside[quantity] += 1
        else:
            counts.setdefault(quantity, Counter())[letter] += 1
    rows = (
        (quantity, *(counts.get(quantity, Counter())[letter] for letter in GRADES), set_aside[quantity])
        for quantity in sorted(counts | set_aside)
    )
    return "### Figures by grade\n\n" + _table(("quantity", *GRADES, "quarantined"), rows)


def _deciding(found: DecidingFigures) -> str:
    rows = ((how.value, found.figures[how]) for how in Obtained)
    witnesses = ", ".join(f"{name} {count}" for name, count in found.witnesses.most_common())
    return (
        "### Deciding figures\n\n"
        f"{found.couples} fixed couples; of the figures that decided them {found.read_share:.0%} were read "
        f"or computed rather than remembered. Decided by: {witnesses}.\n\n"
        + _table(("how obtained", "figures"), rows)
    )


def _gaps(lacking: dict[str, list[str]]) -> str:
    rows = ((what, len(ids), ", ".join(ids)) for what, ids in sorted(lacking.items()))
    return "### Gaps\n\n" + _table(("lacking", "electrodes", "which"), rows)


def _conflicts(found: list[Conflict]) -> str:
    rows = (
        (
            conflict.subject,
            conflict.state or "-",
            conflict.scale,
            conflict.used.id,
            conflict.other.id,
            conflict.reason,
        )
        for conflict in found
    )
    head = ("subject", "state", "scale", "used", "set aside", "why")
    return "### Conflicts and how they were settled\n\n" + _table(head, rows)
