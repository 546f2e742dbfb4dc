"""The working state of the knowledge base, from which releases are published."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import ColumnElement, Table, and_, bindparam, delete, insert, or_, select, update
from sqlalchemy.orm import Session

from service.catalogue.tables import KEYS, TABLES, record_from_row
from service.storage.rows import SUBJECT_TABLES, Values, columns_naming, key_text, key_values
from service.storage.tables import KNOWLEDGE


class KnowledgeRepository:
    """Rows of the fifteen tables as plain values; references are checked by the database."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def rows(self, table: str) -> list[Values]:
        """Return all rows of one table."""
        found = self._session.execute(select(_core(table)))
        return [dict(row) for row in found.mappings()]

    def all_rows(self) -> dict[str, list[Values]]:
        """Return everything, as ``catalogue.freeze`` wants it."""
        return {table: self.rows(table) for table in TABLES}

    def find(self, table: str, key: str) -> Values | None:
        """Return one row by its key text, ``None`` if there is none."""
        statement = select(_core(table)).where(_matches(table, key_values(table, key)))
        row = self._session.execute(statement).mappings().one_or_none()
        return None if row is None else dict(row)

    def record(self, table: str, key: str) -> Any:
        """Return one record by its key text, ``None`` if there is none."""
        row = self.find(table, key)
        return None if row is None else record_from_row(table, row)

    def users(self, table: str, key: str) -> list[tuple[str, str]]:
        """Return (table, key text) of the rows that name this one."""
        found = []
        for other, core in ((other, _core(other)) for other in TABLES):
            names = [core.c[column] == key for column in columns_naming(other, table)]
            if other == "measurements":
                kinds = [kind for kind, target in SUBJECT_TABLES.items() if target == table]
                names.append(core.c.subject_kind.in_(kinds) & (core.c.subject_id == key))
            rows = self._session.execute(select(core).where(or_(*names))).mappings() if names else ()
            found += [(other, key_text(other, dict(row))) for row in rows]
        return [name for name in found if name != (table, key)]

    def insert(self, table: str, rows: Sequence[Values]) -> None:
        """Add rows."""
        if rows:
            self._session.execute(insert(_core(table)), list(rows))

    def update(self, table: str, rows: Iterable[Values]) -> None:
        """Replace the rows that have the same keys."""
        core = _core(table)
        keys = KEYS[table]
        values = {
            column.name: bindparam(f"new_{column.name}", type_=column.type)
            for column in core.columns
            if column.name not in keys
        }
        statement = update(core).where(_where_key(core, keys)).values(values)
        parameters = [
            {f"key_{name}" if name in keys else f"new_{name}": value for name, value in row.items()}
            for row in rows
        ]
        if parameters:
            self._session.connection().execute(statement, parameters)

    def delete(self, table: str, keys: Iterable[str]) -> None:
        """Remove the rows with these key texts."""
        core = _core(table)
        statement = delete(core).where(_where_key(core, KEYS[table]))
        parameters = [
            {f"key_{name}": value for name, value in key_values(table, key).items()} for key in keys
        ]
        if parameters:
            self._session.connection().execute(statement, parameters)


def _core(table: str) -> Table:
    core = KNOWLEDGE[table].__table__
    assert isinstance(core, Table)  # noqa: S101 - declarative models map to plain tables
    return core


def _where_key(core: Table, keys: Iterable[str]) -> ColumnElement[bool]:
    return and_(*(core.c[name] == bindparam(f"key_{name}") for name in keys))


def _matches(table: str, values: Values) -> ColumnElement[bool]:
    core = _core(table)
    return and_(*(core.c[name] == value for name, value in values.items()))
