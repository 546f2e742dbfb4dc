"""From a row of a table to the frozen record that a repository returns."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING, Any, TypeVar

from service.storage.tables import Row

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Copied = TypeVar("Copied", bound="DataclassInstance")


def copied(record: type[Copied], row: Row) -> Copied:
    """Copy the columns that the record names; lists become tuples, so nothing in it can change."""
    values: dict[str, Any] = {field.name: getattr(row, field.name) for field in fields(record)}
    return record(
        **{name: tuple(value) if isinstance(value, list) else value for name, value in values.items()}
    )
