"""Records as pages show them: named, in words, with source, grade and what belongs to them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import Fitness, Kinetics, Limit, Measurement, Plausibility
from service.judgement.evidence import citation
from service.judgement.surface_names import capitalised
from service.web.pages.record_fields import SUBJECTS, Entry, entries_of, text_of
from service.web.pages.wording import figure, measured, words

TABLES: Mapping[str, str] = MappingProxyType(
    {
        "materials": "Materials",
        "finishes": "Finishes",
        "compounds": "Compounds",
        "environments": "Environments",
        "electrodes": "Electrodes",
        "measurements": "Measurements",
        "kinetics": "Kinetics",
        "rules": "Rules",
        "mitigations": "Measures",
        "scales": "Scales",
        "limits": "Permissible differences",
        "electrolytes": "Electrolytes",
        "sources": "Sources",
    }
)
"""Tables in the order of a reader's interest, with their headings."""


@dataclass(frozen=True, slots=True)
class Row:
    """A record in a list."""

    table: str
    id: str
    name: str
    detail: str


@dataclass(frozen=True, slots=True)
class Datum:
    """A figure that belongs to a record, with its provenance. ``set_aside`` says why it is not used."""

    id: str
    table: str
    name: str
    value: str
    conditions: str
    grade: str
    obtained: str
    citation: str
    set_aside: str


@dataclass(frozen=True, slots=True)
class Shown:
    """A record as its page shows it."""

    id: str
    name: str
    entries: tuple[Entry, ...]
    provenance: tuple[Entry, ...]


def name_of(record: Any) -> str:
    """Name of a record in words."""
    if isinstance(record, Measurement):
        return f"{capitalised(words(record.subject_id))}: {words(record.quantity)}"
    if isinstance(record, Kinetics):
        electrolyte = f"{record.electrolyte_class.value} electrolyte"
        return f"{capitalised(words(record.electrode_id))}, {record.state.value}, {electrolyte}"
    if isinstance(record, Limit):
        return f"{capitalised(record.screening_class)} service, {words(record.scale_id)}"
    return str(getattr(record, "name", "") or getattr(record, "title", "") or words(record.id))


def matching(catalogue: Catalogue, table: str, text: str) -> list[Row]:
    """Records whose id, name or designations hold every word of a text; all of them without."""
    wanted = text.lower().split()
    aliases: dict[str, str] = {}
    if table == "materials":
        for designation in catalogue.designations:
            known = aliases.get(designation.material_id, "")
            aliases[designation.material_id] = f"{known} {designation.text}"
    rows = []
    for key, record in getattr(catalogue, table).items():
        name, detail = name_of(record), _detail(record)
        haystack = f"{key} {name} {detail} {aliases.get(key, '')}".lower()
        if all(word in haystack for word in wanted):
            rows.append(Row(table, key, name, detail))
    return sorted(rows, key=lambda row: row.name.lower())


def known_as(catalogue: Catalogue, material_id: str) -> list[str]:
    """Texts under which drawings call a material."""
    return [each.text for each in catalogue.designations if each.material_id == material_id]


def shown(catalogue: Catalogue, table: str, record: Any) -> Shown:
    """Write a record out, its provenance apart."""
    provenance = tuple(_provenance(catalogue, table, record))
    return Shown(record.id, name_of(record), entries_of(catalogue, record), provenance)


def related(catalogue: Catalogue, table: str, record: Any) -> list[tuple[str, list[Datum]]]:
    """Figures that belong to a record, used ones first, by heading."""
    kinds = {name: kind for kind, name in SUBJECTS.items()}
    sections: list[tuple[str, list[Datum]]] = []
    if table in kinds:
        rows = catalogue.measurements_of.get((kinds[table], record.id), ())
        sections.append(("Measurements", _data(catalogue, "measurements", rows)))
    if table == "electrodes":
        sections.append(("Kinetics", _data(catalogue, "kinetics", catalogue.kinetics_of.get(record.id, ()))))
    if table == "finishes":
        substrates = catalogue.finish_substrates.get(record.id, ())
        sections.append(("On which substrates", [_substrate(catalogue, row) for row in substrates]))
    if table == "sources":
        for name in ("measurements", "kinetics", "rules", "limits"):
            held = [row for row in getattr(catalogue, name).values() if row.source_id == record.id]
            sections.append((f"{TABLES[name]} from this source", _data(catalogue, name, held)))
    return [(heading, data) for heading, data in sections if data]


def _data(catalogue: Catalogue, table: str, rows: Iterable[Any]) -> list[Datum]:
    data = [_datum(catalogue, table, row) for row in rows]
    return sorted(data, key=lambda datum: (bool(datum.set_aside), datum.name, datum.grade))


def _datum(catalogue: Catalogue, table: str, row: Any) -> Datum:
    conditions = [words(getattr(row, "state", "")), getattr(row, "conditions", "")]
    return Datum(
        id=row.id,
        table=table,
        name=capitalised(words(row.quantity)) if isinstance(row, Measurement) else name_of(row),
        value=_value_of(row),
        conditions="; ".join(filter(None, conditions)),
        grade=_grade(row) or "–",
        obtained=row.obtained.value,
        citation=citation(catalogue.sources[row.source_id], row.locator),
        set_aside=_set_aside(row),
    )


def _substrate(catalogue: Catalogue, row: Any) -> Datum:
    return Datum(
        id="",
        table="",
        name=capitalised(row.substrate_family),
        value=row.suitability,
        conditions="; ".join(filter(None, (row.polarity, row.failure_mode))),
        grade=grade(row.obtained) or "–",
        obtained=row.obtained.value,
        citation=citation(catalogue.sources[row.source_id], row.locator),
        set_aside="",
    )


def _value_of(row: Any) -> str:
    if isinstance(row, Measurement):
        value = measured(row.value, row.low, row.high, row.unit)
        return f"{value} {row.reference_electrode}".strip()
    if hasattr(row, "corrosion_potential_V"):
        return (
            f"{figure(row.corrosion_potential_V, 'V SHE')}, {figure(row.corrosion_current_A_per_m2, 'A/m²')}"
        )
    if hasattr(row, "limit_V"):
        return figure(row.limit_V, "V")
    return str(getattr(row, "severity", ""))


def _set_aside(row: Any) -> str:
    reason = getattr(row, "quarantine_reason", "")
    if reason:
        return str(reason)
    return "" if _grade(row) else "unfit for use, by its conditions or its plausibility"


def _grade(record: Any) -> str | None:
    if not hasattr(record, "obtained"):
        return None
    fitness = getattr(record, "fitness", Fitness.EXACT)
    return grade(record.obtained, fitness, getattr(record, "plausibility", Plausibility.PASSED))


def _provenance(catalogue: Catalogue, table: str, record: Any) -> Iterable[Entry]:
    if table != "sources" and (source := catalogue.sources.get(getattr(record, "source_id", ""))):
        yield Entry(
            "Source", citation(source, getattr(record, "locator", "")), f"/knowledge/sources/{source.id}"
        )
        if hasattr(record, "obtained"):
            yield Entry("Obtained", record.obtained.value)
            yield Entry("Grade", _grade(record) or "none: not used")
    for name in ("fitness", "plausibility", "quarantine_reason", "note"):
        if value := getattr(record, name, ""):
            label = "Set aside because" if name == "quarantine_reason" else capitalised(name)
            yield Entry(label, str(value))


def _detail(record: Any) -> str:
    names = ("family", "process", "kind", "exposure", "statement", "publisher")
    parts = (text_of(getattr(record, name, "")) for name in names)
    return next((part for part in parts if part), "")
