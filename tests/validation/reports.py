"""The scores as a table, as files and as a picture."""

from __future__ import annotations

import csv
import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

from rich.table import Table

from tests.validation.cases import Case
from tests.validation.predictions import Prediction
from tests.validation.scores import Score

Judged = Sequence[tuple[Case, Prediction, Prediction]]


def score_table(service: Sequence[Score], baseline: Sequence[Score]) -> Table:
    """Lay the two methods side by side."""
    table = Table("", "Faying", "difference alone", "n", box=None)
    for ours, theirs in zip(service, baseline, strict=True):
        table.add_row(ours.name, ours.text, theirs.text, str(ours.n))
    return table


def write_all(folder: Path, judged: Judged, service: Sequence[Score], baseline: Sequence[Score]) -> None:
    """Write cases.csv, scores.json, scores.md and scores.png."""
    folder.mkdir(parents=True, exist_ok=True)
    _write_cases(folder / "cases.csv", judged)
    scores = {
        "service": [asdict(score) for score in service],
        "baseline": [asdict(score) for score in baseline],
    }
    (folder / "scores.json").write_text(json.dumps(scores, indent=2) + "\n", encoding="utf-8")
    (folder / "scores.md").write_text(_markdown(service, baseline), encoding="utf-8")
    _draw(folder / "scores.png", judged, service, baseline)


def _write_cases(path: Path, judged: Judged) -> None:
    rows = [_case_row(case, ours, theirs) for case, ours, theirs in judged]
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def _case_row(case: Case, ours: Prediction, theirs: Prediction) -> dict[str, object]:
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
        "baseline severity": theirs.severity,
        "verdict and witness": ours.note,
        "attack um/y": ours.attack,
        "baseline": theirs.note,
    }


def _name(row: dict[str, str], side: str) -> str:
    finish = row[f"{side}_finish"]
    return row[f"{side}_material"] + (f" + {finish}" if finish else "")


def _markdown(service: Sequence[Score], baseline: Sequence[Score]) -> str:
    lines = ["| | Faying | difference alone | n | not right |", "|---|---|---|---|---|"]
    for ours, theirs in zip(service, baseline, strict=True):
        lines.append(f"| {ours.name} | {ours.text} | {theirs.text} | {ours.n} | {', '.join(ours.wrong)} |")
    return "\n".join(lines) + "\n"


def _draw(path: Path, judged: Judged, service: Sequence[Score], baseline: Sequence[Score]) -> None:
    import matplotlib as mpl

    mpl.use("agg")
    from matplotlib import pyplot as plt

    figure, (left, right) = plt.subplots(1, 2, figsize=(12, 5), layout="constrained")
    shown = [(a, b) for a, b in zip(service, baseline, strict=True) if a.value is not None and a.is_share]
    places = range(len(shown))
    left.barh([place + 0.2 for place in places], [a.value for a, _ in shown], 0.38, label="Faying")
    left.barh(
        [place - 0.2 for place in places], [b.value or 0 for _, b in shown], 0.38, label="difference alone"
    )
    left.set_yticks(list(places), [f"{a.name} (n = {a.n})" for a, _ in shown])
    left.set_xlim(0, 1)
    left.legend(loc="lower right")
    points = [
        (getattr(case.documented, name), getattr(ours, name), name)
        for case, ours, _ in judged
        for name in ("rate_um_per_year", "acceleration", "cathode_current_A_per_m2")
        if getattr(case.documented, name) and getattr(ours, name)
    ]
    for name in sorted({name for _, _, name in points}):
        right.loglog(
            [w for w, _, n in points if n == name], [f for _, f, n in points if n == name], "o", label=name
        )
    ends = (
        [min(min(w, f) for w, f, _ in points) / 2, max(max(w, f) for w, f, _ in points) * 2]
        if points
        else [1, 10]
    )
    for factor, style in ((1, "-"), (3, ":"), (1 / 3, ":")):
        right.loglog(ends, [end * factor for end in ends], "k" + style, linewidth=0.8)
    right.set_xlabel("documented")
    right.set_ylabel("computed")
    right.legend()
    figure.savefig(path, dpi=120)
    plt.close(figure)
