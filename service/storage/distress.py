"""Telling a database in trouble from a mistake of ours, whatever its driver calls it."""

from __future__ import annotations

import sqlite3

from sqlalchemy.exc import DatabaseError, InternalError, OperationalError
from sqlalchemy.exc import TimeoutError as NoConnectionError

from service.storage.errors import DatabaseUnavailableError, Distress

_TELLTALES = (
    ("malformed", Distress.DAMAGED),
    ("not a database", Distress.DAMAGED),
    ("invalid page", Distress.DAMAGED),
    ("readonly", Distress.READ_ONLY),
    ("read-only", Distress.READ_ONLY),
    ("is full", Distress.FULL),
    ("no space left", Distress.FULL),
    ("disk i/o error", Distress.FULL),
    ("unable to open", Distress.AWAY),
    ("locked", Distress.BUSY),
    ("lock timeout", Distress.BUSY),
    ("statement timeout", Distress.BUSY),
)
"""What SQLite and PostgreSQL say; what is none of these is a server that is away."""


def distress(error: BaseException) -> DatabaseUnavailableError | None:
    """Return what is wrong with the database, ``None`` if the error is not its fault."""
    if isinstance(error, NoConnectionError):
        return DatabaseUnavailableError(Distress.BUSY)
    if not isinstance(error, DatabaseError):
        return None
    said = str(error.orig).lower()
    found = next((kind for words, kind in _TELLTALES if words in said), None)
    # SQLite calls mistakes in a statement operational as well.
    if found is None and isinstance(error, OperationalError) and not isinstance(error.orig, sqlite3.Error):
        found = Distress.AWAY
    is_its_fault = type(error) in {DatabaseError, InternalError, OperationalError}
    return DatabaseUnavailableError(found) if found and is_its_fault else None
