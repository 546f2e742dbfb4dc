"""Columns that several tables of the knowledge base need."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import MappedColumn, mapped_column

from service.storage.tables.metadata import Reference


def optional_reference(target: str, *, is_deferred: bool = False) -> MappedColumn[str]:
    """Return a column that names a row of ``target`` or is empty.

    ``is_deferred`` moves the check to the commit: for references that form a ring, so that no
    order of insertion could satisfy them one by one.
    """
    key = ForeignKey(target)
    if is_deferred:
        key = ForeignKey(target, deferrable=True, initially="DEFERRED", use_alter=True)
    return mapped_column(Reference(), key, nullable=True)
