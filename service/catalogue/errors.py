"""What can go wrong with a catalogue."""

from __future__ import annotations


class CatalogueError(Exception):
    """The catalogue cannot be used."""


class MalformedRowError(CatalogueError):
    """A row does not fit its record."""

    def __init__(self, table: str, field: str, value: object, reason: str) -> None:
        super().__init__(f"{table}.{field}: {value!r} {reason}")
        self.table = table
        self.field = field
        self.value = value
        self.reason = reason


class DamagedReleaseError(CatalogueError):
    """The content of a release does not match its hash."""

    def __init__(self, expected: str, found: str) -> None:
        super().__init__(f"release content hash is {found}, expected {expected}")
        self.expected = expected
        self.found = found


class UnknownRecordError(CatalogueError):
    """No record with this id in the release."""

    def __init__(self, table: str, record_id: str) -> None:
        super().__init__(f"no {table} with id {record_id!r}")
        self.table = table
        self.record_id = record_id


class NotForOverlaysError(CatalogueError):
    """A private overlay may not hold rows of this table."""

    def __init__(self, table: str) -> None:
        super().__init__(f"an overlay cannot hold rows of {table!r}")
        self.table = table


class DanglingOverlayError(CatalogueError):
    """A row of an overlay names something that is not there."""

    def __init__(self, table: str, key: tuple[str, ...], field: str, value: str) -> None:
        super().__init__(f"{table} {'/'.join(key)!r}: {field} names {value!r}, which is not there")
        self.table = table
        self.key = key
        self.field = field
        self.value = value
