"""Records as pages show them: named, in words, with source, grade and what belongs to them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from enum import Enum
from types import MappingProxyType
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import Fitness, Measurement, Plausibility
from service.judgement.evidence import citation
from service.web.pages.wording import bounds, figure, words

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

_UNITS = {
    "um": "µm", "C": "°C", "MPa": "MPa", "V": "V", "pct": "%", "S_per_m": "S/m", "A_per_m2": "A/m²",
    "mg_per_L": "mg/L", "mg_per_m2_d": "mg/(m² d)", "g_per_m2": "g/m²", "h_per_year": "h/year",
    "per_year": "per year", "years_low": "years, low", "years_high": "years, high", "m_per_s": "m/s",
}  # fmt: skip
_LINKS = {
    "electrode_id": "electrodes",
    "outer_electrode_id": "electrodes",
    "source_id": "sources",
    "scale_id": "scales",
    "electrolyte_id": "electrolytes",
    "representative_material_id": "materials",
    "underplate_id": "finishes",
}
_PROVENANCE = {
    "id",
    "source_id",
    "locator",
    "obtained",
    "fitness",
    "plausibility",
    "note",
    "quarantine_reason",
}
_SUBJECTS = {
    "material": "materials",
    "electrode": "electrodes",
    "finish": "finishes",
    "compound": "compounds",
    "electrolyte": "electrolytes",
}


@dataclass(frozen=True, slots=True)
class Row:
    """A record in a list."""

    table: str
    id: str
    name: str
    detail: str


@dataclass(frozen=True, slots=True)
class Entry:
    """A field of a record; ``address`` is set where it names another record."""

    name: str
    value: str
    address: str = ""


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
        return f"{words(record.subject_id)}: {words(record.quantity)}"
    return str(getattr(record, "name", "") or getattr(record, "title", "") or record.id)


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


def shown(catalogue: Catalogue, table: str, record: Any) -> Shown:
    """Write a record out, its provenance apart."""
    entries = [
        _entry(field.name, getattr(record, field.name))
        for field in fields(record)
        if field.name not in _PROVENANCE and getattr(record, field.name) not in (None, "", ())
    ]
    return Shown(record.id, name_of(record), tuple(entries), tuple(_provenance(catalogue, table, record)))


def related(catalogue: Catalogue, table: str, record: Any) -> list[tuple[str, list[Datum]]]:
    """Figures that belong to a record, used ones first, by heading."""
    kinds = {name: kind for kind, name in _SUBJECTS.items()}
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
        name=words(row.quantity) if isinstance(row, Measurement) else words(row.id),
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
        name=row.substrate_family,
        value=row.suitability,
        conditions="; ".join(filter(None, (row.polarity, row.failure_mode))),
        grade=grade(row.obtained) or "–",
        obtained=row.obtained.value,
        citation=citation(catalogue.sources[row.source_id], row.locator),
        set_aside="",
    )


def _value_of(row: Any) -> str:
    if isinstance(row, Measurement):
        value = bounds(row.value, row.low, row.high, row.unit)
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
            "source", citation(source, getattr(record, "locator", "")), f"/knowledge/sources/{source.id}"
        )
        if hasattr(record, "obtained"):
            yield Entry("obtained", record.obtained.value)
            yield Entry("grade", _grade(record) or "none: not used")
    for name in ("fitness", "plausibility", "quarantine_reason", "note"):
        if value := getattr(record, name, ""):
            yield Entry("set aside because" if name == "quarantine_reason" else name, str(value))


def _detail(record: Any) -> str:
    parts = (
        getattr(record, name, "")
        for name in ("family", "process", "kind", "exposure", "statement", "publisher")
    )
    return str(next((part for part in map(_text, parts) if part), ""))


def _entry(name: str, value: Any) -> Entry:
    table = _LINKS.get(name, "")
    if name == "subject_id":
        return Entry("subject", str(value))
    suffix = next((unit for unit in sorted(_UNITS, key=len, reverse=True) if name.endswith(f"_{unit}")), "")
    plain = name.removesuffix(f"_{suffix}").removesuffix("_id").replace("_", " ")
    text = figure(value, _UNITS.get(suffix, "")) if isinstance(value, float) else _text(value)
    return Entry(plain, text, f"/knowledge/{table}/{value}" if table else "")


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Enum):
        return str(value.value)
    return ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)
