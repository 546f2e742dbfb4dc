"""The frozen in-memory knowledge base of one release."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Self, TypeVar

from service.catalogue.errors import UnknownRecordError
from service.catalogue.records import (
    Compound,
    Designation,
    Electrode,
    Electrolyte,
    Environment,
    Finish,
    FinishSubstrate,
    Kinetics,
    Limit,
    Material,
    Measurement,
    Mitigation,
    Rule,
    RuleKind,
    Scale,
    Source,
)
from service.catalogue.tables import TABLES

Record = TypeVar("Record")
NO_WORDS: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True, eq=False)
class Catalogue:
    """All records of one release with the indexes that lookups need; compared by identity.

    ``label`` names the release, ``content_hash`` is the SHA-256 of its export. Where a tenant's
    overlay lies on top, ``overlay_hash`` identifies it, ``content_hash`` both together, and
    ``bans`` and ``preferences`` hold the finishes that the house forbids or prefers, with the reason.
    """

    label: str
    content_hash: str
    sources: Mapping[str, Source]
    electrodes: Mapping[str, Electrode]
    materials: Mapping[str, Material]
    designations: tuple[Designation, ...]
    finishes: Mapping[str, Finish]
    finish_substrates: Mapping[str, tuple[FinishSubstrate, ...]]
    compounds: Mapping[str, Compound]
    electrolytes: Mapping[str, Electrolyte]
    environments: Mapping[str, Environment]
    scales: Mapping[str, Scale]
    limits: Mapping[str, Limit]
    measurements: Mapping[str, Measurement]
    measurements_of: Mapping[tuple[str, str], tuple[Measurement, ...]]
    kinetics: Mapping[str, Kinetics]
    kinetics_of: Mapping[str, tuple[Kinetics, ...]]
    rules: Mapping[str, Rule]
    rules_of: Mapping[RuleKind, tuple[Rule, ...]]
    mitigations: Mapping[str, Mitigation]
    overlay_hash: str = ""
    bans: Mapping[str, str] = field(default_factory=lambda: NO_WORDS)
    preferences: Mapping[str, str] = field(default_factory=lambda: NO_WORDS)

    @classmethod
    def from_records(
        cls,
        label: str,
        content_hash: str,
        records: Mapping[str, tuple[Any, ...]],
        *,
        overlay_hash: str = "",
        bans: Mapping[str, str] = NO_WORDS,
        preferences: Mapping[str, str] = NO_WORDS,
    ) -> Self:
        """Index the records of each table."""
        by_id = {
            table: MappingProxyType({record.id: record for record in rows})
            for table, rows in records.items()
            if table not in {"designations", "finish_substrates"}
        }
        return cls(
            label=label,
            content_hash=content_hash,
            designations=records["designations"],
            finish_substrates=_grouped(records["finish_substrates"], lambda row: row.finish_id),
            measurements_of=_grouped(records["measurements"], lambda row: (row.subject_kind, row.subject_id)),
            kinetics_of=_grouped(records["kinetics"], lambda row: row.electrode_id),
            rules_of=_grouped(records["rules"], lambda row: row.kind),
            overlay_hash=overlay_hash,
            bans=bans,
            preferences=preferences,
            **by_id,
        )

    def records(self) -> dict[str, tuple[Any, ...]]:
        """Return the records of every table, as ``from_records`` takes them."""
        tables: dict[str, tuple[Any, ...]] = {}
        for table in TABLES:
            held = getattr(self, table)
            if table == "finish_substrates":
                tables[table] = tuple(row for rows in held.values() for row in rows)
            else:
                tables[table] = tuple(held.values()) if isinstance(held, Mapping) else held
        return tables

    def record(self, table: str, record_id: str) -> Any:
        """Return one record of a table.

        Raises
        ------
        UnknownRecordError
            If the release has none with this id.
        """
        try:
            return getattr(self, table)[record_id]
        except KeyError:
            raise UnknownRecordError(table, record_id) from None


def _grouped(rows: Iterable[Any], key: Any) -> Mapping[Any, tuple[Any, ...]]:
    groups: dict[Any, list[Any]] = defaultdict(list)
    for row in rows:
        groups[key(row)].append(row)
    return MappingProxyType({name: tuple(group) for name, group in groups.items()})
