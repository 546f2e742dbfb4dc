"""The scores as a table, as files and as a picture."""

from __future__ import annotations

import csv
import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from rich.table import Table

from tests.validation.cases import Case
from tests.validation.predictions import Prediction
from tests.validation.scores import FACTOR, FIGURES, Score, all_scores

METHODS = {"service": "Faying", "kinetics": "kinetics alone", "baseline": "difference alone"}
"""The word of each method, and what it is called."""

Scores = Mapping[str, Sequence[Score]]


@dataclass(frozen=True, slots=True)
class Judged:
    """A case with the word of each method."""

    case: Case
    service: Prediction
    kinetics: Prediction
    baseline: Prediction


def score_all(judged: Sequence[Judged]) -> Scores:
    """Score every method on all cases."""
    return {name: all_scores([(item.case, getattr(item, name)) for item in judged]) for name in METHODS}


def score_table(scores: Scores) -> Table:
    """Lay the methods side by side."""
    table = Table("", *METHODS.values(), "n", box=None)
    for row in zip(*scores.values(), strict=True):
        table.add_row(row[0].name, *(score.text for score in row), str(row[0].n))
    return table


def write_all(folder: Path, judged: Sequence[Judged], scores: Scores) -> None:
    """Write cases.csv, scores.json, scores.md and scores.png."""
    folder.mkdir(parents=True, exist_ok=True)
    _write_cases(folder / "cases.csv", judged)
    plain = {name: [asdict(score) for score in found] for name, found in scores.items()}
    (folder / "scores.json").write_text(json.dumps(plain, indent=2) + "\n", encoding="utf-8")
    (folder / "scores.md").write_text(_markdown(scores), encoding="utf-8")
    _draw(folder / "scores.png", judged, scores)


def _write_cases(path: Path, judged: Sequence[Judged]) -> None:
    rows = [_case_row(item) for item in judged]
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def _case_row(item: Judged) -> dict[str, object]:
    case, ours, theirs = item.case, item.service, item.baseline
    row, documented = case.row, case.documented
    return {
        "case": case.name,
        "evidence": case.evidence,
        "first": _name(row, "first"),
        "second": _name(row, "second"),
        "environment": row["environment"],
        "documented anode": row["anode"],
        "anode": ours.anode + ("?" if ours.is_in_doubt else ""),
        "baseline anode": theirs.anode + ("?" if theirs.is_in_doubt else ""),
        "documented severity": "-".join(dict.fromkeys(documented.severity or ())),
        "severity": ours.severity,
        "kinetics severity": item.kinetics.severity,
        "baseline severity": theirs.severity,
        "verdict and witness": ours.note,
        "attack um/y": ours.attack,
        "baseline": theirs.note,
    }


def _name(row: dict[str, str], side: str) -> str:
    finish = row[f"{side}_finish"]
    return row[f"{side}_material"] + (f" + {finish}" if finish else "")


def _markdown(scores: Scores) -> str:
    heads = ["", *METHODS.values(), "n", "not right"]
    lines = ["| " + " | ".join(heads) + " |", "|---" * len(heads) + "|"]
    for row in zip(*scores.values(), strict=True):
        cells = [row[0].name, *(score.text for score in row), str(row[0].n), ", ".join(row[0].wrong)]
        lines.append("| " + " | ".join(cells) + " |")
    return "\n".join(lines) + "\n"


def _draw(path: Path, judged: Sequence[Judged], scores: Scores) -> None:
    import matplotlib as mpl

    mpl.use("agg")
    from matplotlib import pyplot as plt

    figure, (left, right) = plt.subplots(1, 2, figsize=(12, 5), layout="constrained")
    _draw_scores(left, scores)
    _draw_figures(right, judged)
    figure.savefig(path, dpi=120)
    plt.close(figure)


def _draw_scores(axes: Any, scores: Scores) -> None:
    shown = [
        row for row in zip(*scores.values(), strict=True) if row[0].value is not None and row[0].is_share
    ]
    for index, label in enumerate(METHODS.values()):
        places = [place + 0.27 * (1 - index) for place in range(len(shown))]
        axes.barh(places, [row[index].value or 0.0 for row in shown], 0.25, label=label)
    axes.set_yticks(range(len(shown)), [f"{row[0].name} (n = {row[0].n})" for row in shown])
    axes.set_xlim(0, 1)
    axes.invert_yaxis()
    axes.legend(loc="lower right")


def _draw_figures(axes: Any, judged: Sequence[Judged]) -> None:
    everything = list[float]()
    for name in FIGURES:
        pairs = [(getattr(item.case.documented, name), getattr(item.service, name)) for item in judged]
        points = [(wanted, found) for wanted, found in pairs if wanted and found]
        everything += [value for point in points for value in point]
        axes.loglog([wanted for wanted, _ in points], [found for _, found in points], "o", label=name)
    ends = [min(everything, default=1.0) / 2, max(everything, default=1.0) * 2]
    for factor, style in ((1.0, "-"), (FACTOR, ":"), (1 / FACTOR, ":")):
        axes.loglog(ends, [end * factor for end in ends], "k" + style, linewidth=0.8)
    axes.set_xlabel("documented")
    axes.set_ylabel("computed")
    axes.legend()
