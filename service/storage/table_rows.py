"""Rows as they lie in the tables, taken out and put back, whatever they mean."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from types import MappingProxyType
from typing import Any

from sqlalchemy import (
    JSON,
    Boolean,
    Connection,
    Double,
    Integer,
    LargeBinary,
    Table,
    TableClause,
    Text,
    TypeDecorator,
    column,
    func,
    insert,
    inspect,
    select,
    table,
    text,
)
from sqlalchemy.types import TypeEngine

from service.storage.backup_file import TableHead, Values
from service.storage.tables import Row
from service.storage.tables.metadata import Moment

_KINDS: MappingProxyType[str, TypeEngine[Any]] = MappingProxyType(
    {
        "text": Text(),
        "integer": Integer(),
        "float": Double(),
        "boolean": Boolean(),
        "bytes": LargeBinary(),
        "moment": Moment(),
        "json": JSON(none_as_null=True),
    }
)
_TOGETHER = 500
QUEUE = "procrastinate_jobs"
"""Where procrastinate keeps its tasks; who restores jobs puts theirs in anew."""


def read(connection: Connection) -> Iterator[tuple[TableHead, Iterable[Values]]]:
    """Give every table of ours with its rows, each after those that its rows name."""
    for each in Row.metadata.sorted_tables:
        head = TableHead(each.name, {name.name: _kind(name.type) for name in each.columns})
        clause = _clause(head)
        key = [clause.columns[name.name] for name in each.primary_key]
        statement = select(*clause.columns).order_by(*key)
        rows = connection.execution_options(yield_per=_TOGETHER).execute(statement)
        yield head, (tuple(row) for row in rows)


def count(connection: Connection) -> int:
    """Count the rows of all tables of ours that are there."""
    found = _present(connection)
    return sum(connection.scalar(select(func.count()).select_from(each)) or 0 for each in found)


def clear(connection: Connection) -> None:
    """Delete every row of ours, those that may only be added included, and every task of the queue."""
    if connection.dialect.name == "postgresql":
        _clear_postgresql(connection)
    else:
        _clear_sqlite(connection)


def put_back(connection: Connection, lines: Iterable[TableHead | Values]) -> None:
    """Insert tables with their rows, as ``read`` has given them."""
    head, waiting = TableHead("", {}), list[dict[str, Any]]()
    for line in lines:
        if isinstance(line, TableHead):
            _insert(connection, head, waiting)
            head = line
        else:
            waiting.append(dict(zip(head.columns, line, strict=True)))
            if len(waiting) == _TOGETHER:
                _insert(connection, head, waiting)
    _insert(connection, head, waiting)
    if connection.dialect.name == "postgresql":
        _count_on(connection)


def _insert(connection: Connection, head: TableHead, waiting: list[dict[str, Any]]) -> None:
    if waiting:
        connection.execute(insert(_clause(head)), waiting)
        waiting.clear()


def _clause(head: TableHead) -> TableClause:
    """A table as its backup describes it: the one of this version may have other columns."""
    return table(head.table, *(column(name, _KINDS[kind]) for name, kind in head.columns.items()))


def _kind(of: TypeEngine[Any]) -> str:
    if isinstance(of, TypeDecorator) and not isinstance(of, Moment):
        return _kind(of.impl_instance)
    return next(kind for kind, known in _KINDS.items() if isinstance(of, type(known)))


def _present(connection: Connection) -> list[Table]:
    """The tables of ours that are there: older ones may lack some."""
    names = set(inspect(connection).get_table_names())
    return [each for each in Row.metadata.sorted_tables if each.name in names]


def _clear_postgresql(connection: Connection) -> None:
    """Lift the triggers of ours that forbid it, for this transaction."""
    tables = [each.name for each in _present(connection)]
    for name in tables:
        connection.execute(text(f'ALTER TABLE "{name}" DISABLE TRIGGER USER'))
    queue = [QUEUE] if inspect(connection).has_table(QUEUE) else []
    names = ", ".join(f'"{name}"' for name in [*tables, *queue])
    connection.execute(text(f"TRUNCATE {names} CASCADE"))
    for name in tables:
        connection.execute(text(f'ALTER TABLE "{name}" ENABLE TRIGGER USER'))


def _clear_sqlite(connection: Connection) -> None:
    triggers = connection.execute(text("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")).all()
    for name, _ in triggers:
        connection.execute(text(f'DROP TRIGGER "{name}"'))
    for each in reversed(_present(connection)):
        connection.execute(each.delete())
    for _, definition in triggers:
        connection.execute(text(definition))


def _count_on(connection: Connection) -> None:
    """Let serial numbers go on after the highest."""
    for each in _present(connection):
        for name in _serials(connection, each):
            highest = select(func.max(column(name))).select_from(table(each.name)).scalar_subquery()
            sequence = func.pg_get_serial_sequence(each.name, name)
            connection.execute(select(func.setval(sequence, func.coalesce(highest, 1), highest.is_not(None))))


def _serials(connection: Connection, of: Table) -> list[str]:
    keys = [name.name for name in of.primary_key if _kind(name.type) == "integer"]
    return [name for name in keys if connection.scalar(select(func.pg_get_serial_sequence(of.name, name)))]
