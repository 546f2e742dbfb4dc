"""Adding what may be there already, in one statement on either database."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Table
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from service.storage.tables import Row


def add_unless_there(session: Session, model: type[Row], rows: Sequence[Mapping[str, Any]]) -> int:
    """Insert rows, leaving those alone whose key is taken; return how many were new."""
    if not rows:
        return 0
    table = model.__table__
    assert isinstance(table, Table)  # noqa: S101 - declarative models map to plain tables
    is_postgresql = session.get_bind().dialect.name == "postgresql"
    insert = postgresql.insert if is_postgresql else sqlite.insert
    statement = insert(table).on_conflict_do_nothing().returning(*table.primary_key)
    return len(session.execute(statement, [dict(row) for row in rows]).all())
