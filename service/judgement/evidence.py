"""Evidence items: every figure and rule that a verdict rests on, with its citation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import Fitness, Kinetics, Limit, Measurement, Plausibility, Source
from service.judgement.findings import Finding, Witness

MOST_ALTERNATIVES = 12
"""Figures set aside that are shown with one that was used."""

_CSL_TYPES = {
    "standard": "standard",
    "specification": "standard",
    "paper": "article-journal",
    "handbook": "book",
    "report": "report",
    "thesis": "thesis",
    "web": "webpage",
    "dataset": "dataset",
}


@dataclass(frozen=True, slots=True)
class Alternative:
    """A figure that was set aside and why."""

    id: str
    value: str
    reason: str


@dataclass(frozen=True, slots=True)
class EvidenceItem:
    """One record that was used."""

    table: str
    id: str
    subject: str
    quantity: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    reference_electrode: str
    conditions: str
    grade: str | None
    obtained: str
    source_id: str
    locator: str
    citation: str
    used_by: tuple[str, ...]
    not_used: tuple[Alternative, ...]


def collect(findings: Mapping[Witness, Finding], catalogue: Catalogue) -> tuple[EvidenceItem, ...]:
    """Evidence of all findings, each record once, with the witnesses that used it.

    Parameters
    ----------
    findings : mapping of Witness to Finding
    catalogue : Catalogue

    Returns
    -------
    tuple of EvidenceItem
        In the order in which the findings name them.

    Raises
    ------
    UnknownRecordError
        If a finding names a record that the release does not hold.
    """
    return tuple(
        item(table, record_id, catalogue, names) for (table, record_id), names in used_by(findings).items()
    )


def used_by(findings: Mapping[Witness, Finding]) -> Mapping[tuple[str, str], list[str]]:
    """Records on which findings rest, each with the witnesses that used it.

    Parameters
    ----------
    findings : mapping of Witness to Finding

    Returns
    -------
    mapping of (table, record) to list of str
        In the order in which the findings name them.
    """
    used: dict[tuple[str, str], list[str]] = {}
    for witness, finding in findings.items():
        for key in finding.evidence:
            used.setdefault(key, []).append(witness.value)
    return used


def item(table: str, record_id: str, catalogue: Catalogue, used_by: Iterable[str]) -> EvidenceItem:
    """Describe one record as evidence.

    Parameters
    ----------
    table : str
    record_id : str
    catalogue : Catalogue
    used_by : iterable of str
        Witnesses that used it.

    Returns
    -------
    EvidenceItem
    """
    record = catalogue.record(table, record_id)
    locator = getattr(record, "locator", "")
    return EvidenceItem(
        table=table,
        id=record_id,
        grade=grade(
            record.obtained,
            getattr(record, "fitness", Fitness.EXACT),
            getattr(record, "plausibility", Plausibility.PASSED),
        ),
        obtained=record.obtained.value,
        source_id=record.source_id,
        locator=locator,
        citation=citation(catalogue.sources[record.source_id], locator),
        used_by=tuple(used_by),
        not_used=_set_aside(table, record, catalogue),
        **_described(table, record),
    )


def _described(table: str, record: Any) -> dict[str, Any]:
    """What a record says, in the fields of an evidence item."""
    if table == "measurements":
        return _measurement(record)
    if table == "kinetics":
        return _kinetics(record)
    if table == "limits":
        return _limit(record)
    return {
        **_NO_FIGURE,
        "subject": record.name,
        "quantity": getattr(record, "kind", "record"),
    }


_NO_FIGURE: Mapping[str, Any] = {
    "value": None,
    "low": None,
    "high": None,
    "unit": "",
    "reference_electrode": "",
    "conditions": "",
}


def _measurement(record: Measurement) -> dict[str, Any]:
    conditions = (record.state, record.electrolyte_id, record.conditions)
    return {
        "subject": record.subject_id,
        "quantity": record.quantity,
        "value": record.value,
        "low": record.low,
        "high": record.high,
        "unit": record.unit,
        "reference_electrode": record.reference_electrode,
        "conditions": "; ".join(part for part in conditions if part and part != "-"),
    }


def _kinetics(record: Kinetics) -> dict[str, Any]:
    return {
        "subject": record.electrode_id,
        "quantity": "polarization parameters",
        "value": record.corrosion_potential_V,
        "low": record.corrosion_potential_low_V,
        "high": record.corrosion_potential_high_V,
        "unit": "V",
        "reference_electrode": "SHE",
        "conditions": f"{record.state.value} in {record.electrolyte_class.value} electrolyte",
    }


def _limit(record: Limit) -> dict[str, Any]:
    return {
        **_NO_FIGURE,
        "subject": record.screening_class,
        "quantity": "permissible difference",
        "value": record.limit_V,
        "unit": "V",
        "conditions": record.rule,
    }


def citation(source: Source, locator: str) -> str:
    """One line that lets a reader find the page; says so when nothing was read.

    Parameters
    ----------
    source : Source
    locator : str
        Page, table or clause.

    Returns
    -------
    str
    """
    if source.kind == "memory":
        return "from memory, no page consulted"
    if source.kind == "practice":
        return "common practice, no source"
    parts = [source.authors, source.title, source.publisher, str(source.year or ""), source.edition]
    line = ", ".join(part for part in parts if part)
    if locator:
        line = f"{line}, {locator}"
    return f"{line}, doi {source.doi}" if source.doi else line


def csl(source: Source) -> dict[str, Any]:
    """The source as a CSL-JSON item.

    Parameters
    ----------
    source : Source

    Returns
    -------
    dict of str to Any
        Fields of the Citation Style Language; empty ones are left out.
    """
    entry: dict[str, Any] = {
        "id": source.id,
        "type": _CSL_TYPES.get(source.kind, "document"),
        "title": source.title,
    }
    if source.authors:
        entry["author"] = [{"literal": name.strip()} for name in source.authors.split(";")]
    if source.year:
        entry["issued"] = {"date-parts": [[source.year]]}
    optional = {
        "publisher": source.publisher,
        "edition": source.edition,
        "DOI": source.doi,
        "URL": source.url,
    }
    return entry | {field: value for field, value in optional.items() if value}


def _set_aside(table: str, record: Any, catalogue: Catalogue) -> tuple[Alternative, ...]:
    if table == "measurements":
        return _rivals(catalogue, record)
    if table == "kinetics":
        return _kinetic_rivals(catalogue, record)
    return ()


@lru_cache(maxsize=4096)
def _rivals(catalogue: Catalogue, used: Measurement) -> tuple[Alternative, ...]:
    rows = catalogue.measurements_of.get((used.subject_kind, used.subject_id), ())
    return tuple(
        Alternative(row.id, _figure(row), _why_not(row, used))
        for row in rows
        if row.quantity == used.quantity and row.id != used.id
    )[:MOST_ALTERNATIVES]


def _why_not(row: Measurement, used: Measurement) -> str:
    if row.quarantine_reason:
        return row.quarantine_reason
    if row.state != used.state:
        return "another state"
    if (row.scale_id, row.electrolyte_id) != (used.scale_id, used.electrolyte_id):
        return "another scale or electrolyte"
    return f"grade {_grade_of(row)} against {_grade_of(used)}"


@lru_cache(maxsize=4096)
def _kinetic_rivals(catalogue: Catalogue, used: Kinetics) -> tuple[Alternative, ...]:
    return tuple(
        Alternative(
            row.id,
            f"E {row.corrosion_potential_V:g} V, i {row.corrosion_current_A_per_m2:g} A/m2",
            row.quarantine_reason or f"another state or electrolyte class, grade {_grade_of(row)}",
        )
        for row in catalogue.kinetics_of.get(used.electrode_id, ())
        if row.id != used.id
    )[:MOST_ALTERNATIVES]


def _grade_of(row: Measurement | Kinetics) -> str | None:
    return grade(row.obtained, row.fitness, row.plausibility)


def _figure(row: Measurement) -> str:
    if row.low is not None and row.high is not None and row.low != row.high:
        return f"{row.low:g} to {row.high:g} {row.unit}".strip()
    if row.value is None and row.low is None and row.high is not None:
        return f"at most {row.high:g} {row.unit}".strip()
    value = row.value if row.value is not None else row.low
    return f"{value:g} {row.unit}".strip() if value is not None else ""
