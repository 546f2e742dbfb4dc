"""Fields of a record as people read them: labels in words, ranges in one line, links by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from enum import Enum
from types import MappingProxyType
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.judgement.surface_names import capitalised
from service.web.pages.rule_triggers import trigger_entries
from service.web.pages.wording import bounds, figure

UNITS = MappingProxyType(
    {
        "um": "µm", "C": "°C", "MPa": "MPa", "V": "V", "pct": "%", "S_per_m": "S/m", "A_per_m2": "A/m²",
        "mg_per_L": "mg/L", "mg_per_m2_d": "mg/(m² d)", "g_per_m2": "g/m²", "h_per_year": "h/year",
        "per_year": "per year", "years": "years", "m_per_s": "m/s",
    }
)  # fmt: skip
"""Units by the end of a field's name."""

_LABELS = {
    "doi": "DOI", "iso11844_category": "ISO 11844 category", "iso9223_category": "ISO 9223 category",
    "iso9223_factor": "Factor on the ISO 9223 rate", "iso9223_metal": "ISO 9223 metal",
    "isa7104_level": "ISA 71.04 level", "is_looked_through": "Judged by the metal beneath", "reach": "REACH",
    "refuses": "Rules a couple out", "rohs": "RoHS", "so2_mg_per_m2_d": "SO₂ deposition",
    "chloride_mg_per_m2_d": "Chloride deposition", "url": "Address", "pH": "pH",
    "affects": "Concerns the functions", "hours_deliquesced_per_year": "Hours of damp salt per year",
    "hours_drying_per_year": "Hours of drying per year", "hours_rain_per_year": "Hours of rain per year",
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
SUBJECTS = MappingProxyType(
    {
        "material": "materials",
        "electrode": "electrodes",
        "finish": "finishes",
        "compound": "compounds",
        "electrolyte": "electrolytes",
    }
)
"""Tables by the kind of subject that a measurement names."""

_ELSEWHERE = frozenset(
    {
        "fitness", "id", "locator", "name", "note", "obtained", "plausibility", "quarantine_reason",
        "source_id", "subject_kind", "title",
    }
)  # fmt: skip
"""Fields that stand in the heading or among the provenance."""

_ENDS = ("min", "low", "high", "max")


@dataclass(frozen=True, slots=True)
class Entry:
    """A field of a record; ``address`` is set where it names another record or a page elsewhere."""

    name: str
    value: str
    address: str = ""


def entries_of(catalogue: Catalogue, record: Any) -> tuple[Entry, ...]:
    """Write the fields of a record out, but for its name and its provenance."""
    values = {field.name: getattr(record, field.name) for field in fields(record)}
    found: list[Entry] = []
    for name, value in values.items():
        if name == "trigger":
            found.extend(Entry(*pair) for pair in trigger_entries(record.id, value))
        elif name == "subject_id":
            found.append(_subject(catalogue, record))
        elif name not in _ELSEWHERE and not _is_end(name, values):
            found.extend(_entry(catalogue, name, value, values))
    return tuple(found)


def text_of(value: Any) -> str:
    """Write a value of a field."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, float):
        return figure(value)
    return ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)


def _is_end(name: str, values: dict[str, Any]) -> bool:
    """Whether a field is the end of a range that another field stands for: its middle, else its low end."""
    stem, unit = _stem_and_unit(name)
    base, _, end = stem.rpartition("_")
    if end not in _ENDS:
        return False
    low_end = {"high": "low", "max": "min"}.get(end, "")
    others = (*_middles(base, unit), f"{base}_{low_end}" + (f"_{unit}" if unit else ""))
    return any(other in values for other in others)


def _middles(base: str, unit: str) -> tuple[str, ...]:
    suffix = f"_{unit}" if unit else ""
    return (f"{base}{suffix}", f"{base}_typical{suffix}")


def _stem_and_unit(name: str) -> tuple[str, str]:
    """Split the name of a field from the unit at its end."""
    unit = next((unit for unit in sorted(UNITS, key=len, reverse=True) if name.endswith(f"_{unit}")), "")
    return name.removesuffix(f"_{unit}") if unit else name, unit


def _entry(catalogue: Catalogue, name: str, value: Any, values: dict[str, Any]) -> Iterator[Entry]:
    stem, unit = _stem_and_unit(name)
    base = stem.removesuffix("_typical")
    if base.endswith(("_low", "_min")):  # a range without a middle
        base, value = base.rpartition("_")[0], None
    low, high = (_end(base, unit, ends, values) for ends in (("low", "min"), ("high", "max")))
    label = _LABELS.get(name) or capitalised(base.removesuffix("_id").removeprefix("is_").replace("_", " "))
    if value in (None, "", ()) and low is None and high is None:
        return
    if table := _LINKS.get(name):
        target = getattr(catalogue, table)[value]
        yield Entry(label, str(getattr(target, "name", "") or target.id), f"/knowledge/{table}/{value}")
    elif name == "url" and value.startswith(("https://", "http://")):
        yield Entry(label, value, value)
    elif isinstance(value, float | None):
        yield Entry(label, _measured(value, low, high, UNITS.get(unit, "")))
    else:
        yield Entry(label, text_of(value).replace("_", " ").replace(";", "; "))


def _end(base: str, unit: str, ends: tuple[str, str], values: dict[str, Any]) -> float | None:
    suffix = f"_{unit}" if unit else ""
    found = (values.get(f"{base}_{end}{suffix}") for end in ends)
    return next((value for value in found if value is not None), None)


def _measured(value: float | None, low: float | None, high: float | None, unit: str) -> str:
    """Write a figure with whichever ends of its range are known."""
    if low is not None and high is None:
        return f"{figure(value, unit)}, at least {figure(low)}" if value else f"from {figure(low, unit)}"
    if high is not None and low is None:
        return f"{figure(value, unit)}, at most {figure(high)}" if value else f"up to {figure(high, unit)}"
    return bounds(value, low, high, unit)


def _subject(catalogue: Catalogue, record: Any) -> Entry:
    table = SUBJECTS[record.subject_kind]
    target = getattr(catalogue, table)[record.subject_id]
    return Entry("Subject", str(target.name), f"/knowledge/{table}/{record.subject_id}")
