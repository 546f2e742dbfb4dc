"""What the knowledge base rests on: read figures, gaps and conflicts.

The share of deciding figures is counted over a fixed set of couples, so that it can be compared
from one release to the next.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import ElectrolyteClass, Measurement, Obtained
from service.catalogue.surfaces import Surface
from service.judgement.couples import Couple
from service.judgement.judge import Judgement, judge

COUPLES = 2000
ENVIRONMENTS = (
    "marine-atmosphere-0-100-m",
    "urban-atmosphere",
    "rural-atmosphere",
    "seawater-quiescent",
    "tap-water-hard",
    "splash-and-tidal-zone",
    "gasketed-enclosure",
    "heated-indoor",
)
"""Environments of the fixed set; a release without one of them leaves it out."""

CONFLICT_V = 0.045
"""Potentials of one subject, state and scale that differ by more than this are a conflict."""


@dataclass(frozen=True, slots=True)
class DecidingFigures:
    """How the figures were obtained that decided the verdicts of the fixed set."""

    couples: int
    figures: Counter[Obtained]
    witnesses: Counter[str]

    @property
    def read_share(self) -> float:
        """Share that was read or computed rather than remembered or customary."""
        total = sum(self.figures.values())
        known = sum(
            self.figures[how] for how in (Obtained.READ, Obtained.READ_IN_REPRODUCTION, Obtained.COMPUTED)
        )
        return known / total if total else 0.0


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two usable figures that disagree, and which one the catalogue picks."""

    subject: str
    state: str
    scale: str
    used: Measurement
    other: Measurement
    reason: str


def fixed_couples(catalogue: Catalogue) -> Iterator[tuple[str, Couple]]:
    """The fixed set: environment and couple, by a stride through all pairs of materials."""
    materials = sorted(catalogue.materials)
    environments = [name for name in ENVIRONMENTS if name in catalogue.environments]
    if not materials or not environments:
        return
    for index in range(COUPLES):
        first = materials[(index * 37) % len(materials)]
        second = materials[(index * 101 + 53 * (index // len(materials)) + 7) % len(materials)]
        yield environments[index % len(environments)], Couple(Surface(first), Surface(second))


def deciding_figures(catalogue: Catalogue) -> DecidingFigures:
    """Judge the fixed set and count how its deciding figures were obtained."""
    by_environment: dict[str, list[Couple]] = defaultdict(list)
    for environment, couple in fixed_couples(catalogue):
        by_environment[environment].append(couple)
    figures: Counter[Obtained] = Counter()
    witnesses: Counter[str] = Counter()
    for name, couples in by_environment.items():
        for judgement in judge(couples, catalogue.environments[name], catalogue):
            deciding = judgement.outcome.deciding
            witnesses[deciding.value if deciding else "none"] += 1
            figures.update(_obtained(judgement, catalogue))
    return DecidingFigures(sum(map(len, by_environment.values())), figures, witnesses)


def _obtained(judgement: Judgement, catalogue: Catalogue) -> Iterator[Obtained]:
    deciding = judgement.outcome.deciding
    if deciding is None:
        return
    for table, record_id in judgement.findings[deciding].evidence:
        yield catalogue.record(table, record_id).obtained


def gaps(catalogue: Catalogue) -> dict[str, list[str]]:
    """Electrodes that lack a figure, by what is lacking."""
    lacking: dict[str, list[str]] = defaultdict(list)
    measured = {
        row.subject_id
        for row in catalogue.measurements.values()
        if row.quantity in {"corrosion_potential", "anodic_index"} and not row.quarantine_reason
    }
    representatives = {
        electrode.id
        for electrode in catalogue.electrodes.values()
        if electrode.representative_material_id in measured
    }
    for electrode_id in sorted(catalogue.electrodes):
        if electrode_id not in measured and electrode_id not in representatives:
            lacking["no potential or index"].append(electrode_id)
        classes = {
            row.electrolyte_class
            for row in catalogue.kinetics_of.get(electrode_id, ())
            if not row.quarantine_reason
        }
        for electrolyte in (ElectrolyteClass.CHLORIDE, ElectrolyteClass.FRESH):
            if electrolyte not in classes:
                lacking[f"no kinetics in {electrolyte.value} electrolyte"].append(electrode_id)
    return dict(lacking)


def conflicts(catalogue: Catalogue) -> list[Conflict]:
    """Potentials and indices that disagree, with the figure that is used and why."""
    groups: dict[tuple[str, str, str], list[Measurement]] = defaultdict(list)
    for row in catalogue.measurements.values():
        if (
            row.quantity in {"corrosion_potential", "anodic_index"}
            and not row.quarantine_reason
            and row.scale_id
        ):
            groups[row.subject_id, row.state, row.scale_id].append(row)
    found: list[Conflict] = []
    for (subject, state, scale), rows in sorted(groups.items()):
        ordered = sorted(rows, key=lambda row: (_letter(row), row.id))
        used = ordered[0]
        found.extend(
            Conflict(subject, state, scale, used, other, _reason(used, other))
            for other in ordered[1:]
            if abs(_middle(used) - _middle(other)) > CONFLICT_V
        )
    return found


def _reason(used: Measurement, other: Measurement) -> str:
    if _letter(used) != _letter(other):
        return f"grade {_letter(used)} before {_letter(other)}"
    return "same grade: the row that sorts first is used, both are shown"


def _letter(row: Measurement) -> str:
    return grade(row.obtained, row.fitness, row.plausibility) or "Z"


def _middle(row: Measurement) -> float:
    ends = [end for end in (row.low, row.high) if end is not None] or [row.value or 0.0]
    return sum(ends) / len(ends)
