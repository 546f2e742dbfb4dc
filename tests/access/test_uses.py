"""Uses are noted in memory and written together; nothing is lost that can be kept."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime

from sqlalchemy.exc import OperationalError

from service.access.uses import UseLog


class Database:
    """The database as the log sees it."""

    def __init__(self) -> None:
        self.written: list[dict[str, datetime]] = []
        self.is_reachable = True

    def write(self, uses: Mapping[str, datetime]) -> None:
        if not self.is_reachable:
            statement = "update"
            raise OperationalError(statement, {}, ConnectionError())
        self.written.append(dict(uses))


def at(second: int) -> datetime:
    return datetime.fromtimestamp(second, UTC)


def test_the_latest_use_of_each_key_is_written_once() -> None:
    database, seconds = Database(), iter([1.0, 2.0, 3.0])
    log = UseLog(database.write, clock=lambda: next(seconds))
    for key_id in ("key_1", "key_2", "key_1"):
        log.note(key_id)
    assert database.written == []
    log.flush()
    log.flush()
    assert database.written == [{"key_1": at(3), "key_2": at(2)}]


def test_what_could_not_be_written_is_written_later() -> None:
    database, seconds = Database(), iter([1.0, 2.0, 3.0])
    log = UseLog(database.write, clock=lambda: next(seconds))
    log.note("key_1")
    log.note("key_2")
    database.is_reachable = False
    log.flush()
    log.note("key_1")
    database.is_reachable = True
    log.flush()
    assert database.written == [{"key_1": at(3), "key_2": at(2)}]
