"""How alembic reaches the database; all its configuration is ``[tool.alembic]`` in pyproject.toml.

The address comes from the caller (``storage.migrate``), from ``-x url=...`` or from the settings.
"""

from __future__ import annotations

from contextlib import closing
from typing import Literal

from alembic import context
from sqlalchemy import Connection, TypeDecorator, text

from service.settings import Settings
from service.storage.engine import Database
from service.storage.tables import Row

STATEMENT_TIMEOUT_S = 60
LOCK_TIMEOUT_S = 10
ADVISORY_LOCK = 7_246_301
"""Any number, as long as nothing else in the database locks it."""


class DanglingReferencesError(Exception):
    """The migration leaves rows that name nothing."""


def run(connection: Connection) -> None:
    """Migrate over an open connection."""
    if connection.dialect.name == "postgresql":
        _run_on_postgresql(connection)
    else:
        _run_on_sqlite(connection)


def _run_on_postgresql(connection: Connection) -> None:
    """One transaction per migration, one process at a time, and none may block the service long.

    The advisory lock is taken before the time-outs are set: whoever comes second waits.
    """
    connection.execute(text("SELECT pg_advisory_lock(:lock)"), {"lock": ADVISORY_LOCK})
    connection.execute(text(f"SET lock_timeout = '{LOCK_TIMEOUT_S}s'"))
    connection.execute(text(f"SET statement_timeout = '{STATEMENT_TIMEOUT_S}s'"))
    connection.commit()
    _configure(connection, is_postgresql=True)
    with context.begin_transaction():
        context.run_migrations()
    connection.execute(text("SELECT pg_advisory_unlock(:lock)"), {"lock": ADVISORY_LOCK})
    connection.commit()


def _run_on_sqlite(connection: Connection) -> None:
    """One transaction for all, begun with the write lock so that a second process waits.

    Foreign keys rest meanwhile, because changing a table there means dropping it; they are checked
    before the commit.
    """
    connection.connection.cursor().execute("PRAGMA foreign_keys = OFF")
    with connection.begin():
        _configure(connection, is_postgresql=False)
        context.run_migrations()
        broken = connection.execute(text("PRAGMA foreign_key_check")).all()
        if broken:
            raise DanglingReferencesError(broken[:3])
    connection.connection.cursor().execute("PRAGMA foreign_keys = ON")


def _configure(connection: Connection, *, is_postgresql: bool) -> None:
    context.configure(
        connection=connection,
        target_metadata=Row.metadata,
        compare_type=True,
        include_name=_is_ours,
        render_item=_plain_type,
        transaction_per_migration=is_postgresql,
        render_as_batch=not is_postgresql,
    )


def _is_ours(name: str | None, kind: str, _parents: object) -> bool:
    """Leave the tables of the job queue alone: it brings its own schema."""
    return not (kind == "table" and name is not None and name.startswith("procrastinate_"))


def _plain_type(kind: str, item: object, _context: object) -> str | Literal[False]:
    """Write our column types into a migration as what the database sees.

    Code may move, a migration may not.
    """
    if kind == "type" and isinstance(item, TypeDecorator):
        return f"sa.{item.impl!r}"
    return False


def _url() -> str:
    return context.get_x_argument(as_dictionary=True).get("url") or Settings().database_url


given = context.config.attributes.get("connection")
if given is not None:
    run(given)
else:
    with closing(Database.open(_url())) as database, database.writer.connect() as opened:
        run(opened)
