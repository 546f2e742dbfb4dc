"""Writing rows as a seed package: the counterpart of ``reading``."""

from __future__ import annotations

import csv
import dataclasses
import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from sqlalchemy.orm import Session

from service.catalogue.tables import LIST_SEPARATOR, TABLES
from service.storage.package import DESCRIPTOR, datapackage_descriptor
from service.storage.releases import load_export
from service.storage.rows import Values


def export_package(session: Session, label: str, folder: Path) -> Path:
    """Write a release as a data package into ``folder`` and return its descriptor.

    The descriptor names the release and the hash of its content; ``read_package`` and ``seed``
    bring the rows into another database.

    Raises
    ------
    UnknownReleaseError
        If there is no such release.
    DamagedReleaseError
        If its content is not what was published.
    """
    info, export = load_export(session, label)
    facts = {
        "name": f"faying-release-{label.lower()}",
        "version": label,
        "created": info.published_at.isoformat(),
        "content_hash": info.content_hash,
        "published_by": info.published_by,
        "note": info.note,
        "engine": info.engine,
    }
    return write_package(json.loads(export)["tables"], folder, facts)


def write_package(
    rows: Mapping[str, Sequence[Values]], folder: Path, facts: Mapping[str, str] | None = None
) -> Path:
    """Write one CSV file per table and the descriptor, in which ``facts`` take precedence."""
    folder.mkdir(parents=True, exist_ok=True)
    for table, record in TABLES.items():
        names = [field.name for field in dataclasses.fields(record)]
        with (folder / f"{table}.csv").open("w", encoding="utf-8", newline="") as stream:
            writer = csv.writer(stream, lineterminator="\n")
            writer.writerow(names)
            writer.writerows([_cell(row[name]) for name in names] for row in rows.get(table, ()))
    path = folder / DESCRIPTOR
    descriptor = datapackage_descriptor() | dict(facts or {})
    path.write_text(json.dumps(descriptor, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    return path


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return LIST_SEPARATOR.join(value)
    return str(value)
