"""What every table shares: names of constraints, portable column types, identifiers and time."""

from __future__ import annotations

import secrets
import threading
import time
from datetime import UTC, datetime
from typing import Any, ClassVar

from sqlalchemy import JSON, BigInteger, Boolean, DateTime, Double, Integer, LargeBinary, MetaData, Text
from sqlalchemy.engine import Dialect
from sqlalchemy.orm import DeclarativeBase
from sqlalchemy.types import TypeDecorator

NAMING_CONVENTION = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
"""A migration can only drop what it can name, on both databases."""


class Moment(TypeDecorator[datetime]):
    """A point in time, always UTC; SQLite itself would forget the zone."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002 - SQLAlchemy passes the dialect
        """Refuse a time without zone and store the rest as UTC."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(value)
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002 - SQLAlchemy passes the dialect
        """Give back UTC whatever the driver says."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Reference(TypeDecorator[str]):
    """An optional reference: the records say ``""`` where a foreign key needs NULL."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:  # noqa: ARG002 - SQLAlchemy passes the dialect
        """Store an empty reference as NULL."""
        return value or None

    def process_result_value(self, value: str | None, dialect: Dialect) -> str:  # noqa: ARG002 - SQLAlchemy passes the dialect
        """Read NULL as an empty reference."""
        return value or ""


class Row(DeclarativeBase):
    """The root of all tables."""

    metadata = MetaData(naming_convention=NAMING_CONVENTION)
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        str: Text(),
        float: Double(),
        int: Integer(),
        bool: Boolean(),
        bytes: LargeBinary(),
        datetime: Moment(),
        dict[str, Any]: JSON(),
        list[str]: JSON(),
    }


SERIAL = BigInteger().with_variant(Integer(), "sqlite")
"""A counting primary key: SQLite counts only in a column that it calls INTEGER."""


def utc_now() -> datetime:
    """Return the present moment."""
    return datetime.now(UTC)


class _Ticks:
    """Microseconds that never stand still within a process, even if its clock does."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._last = 0

    def next(self) -> int:
        with self._lock:
            self._last = max(self._last + 1, time.time_ns() // 1000)
            return self._last


_TICKS = _Ticks()


def new_id(prefix: str) -> str:
    """Return a new identifier that sorts by the moment at which it was made.

    Sorting by age makes it the cursor of keyset pages; its random part keeps it from being guessed.
    """
    return f"{prefix}_{_TICKS.next():014x}{secrets.token_hex(8)}"
