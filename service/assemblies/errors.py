"""What can be wrong with a bill of materials.

::

    AssemblyError
    ├── InvalidAssemblyError         a record that cannot be used, with a pointer to it
    ├── ReleaseMismatchError         the programme is pinned to another release
    └── UnreadableFileError          a file that is no table this room reads
        ├── FileTooLargeError        more bytes, rows, columns or characters than are read
        └── MalformedTableError      a cell that cannot be used, with its row and column
"""

from __future__ import annotations


class AssemblyError(Exception):
    """An assembly cannot be judged."""


class InvalidAssemblyError(AssemblyError):
    """A part of an assembly, a policy or a waiver cannot be used. ``pointer`` is a JSON pointer to it."""

    def __init__(self, pointer: str, detail: str, suggestions: tuple[str, ...] = ()) -> None:
        super().__init__(f"{pointer or '/'}: {detail}")
        self.pointer = pointer
        self.detail = detail
        self.suggestions = suggestions


class ReleaseMismatchError(AssemblyError):
    """A programme is judged by the release that it is pinned to and by no other."""

    def __init__(self, programme: str, pinned: str, found: str) -> None:
        super().__init__(f"programme {programme!r} is pinned to release {pinned!r}, not {found!r}")
        self.programme = programme
        self.pinned = pinned
        self.found = found


class UnreadableFileError(AssemblyError):
    """A file cannot be read as a table. ``table`` is its name, ``reason`` says why."""

    def __init__(self, table: str, reason: str) -> None:
        super().__init__(f"{table}: {reason}")
        self.table = table
        self.reason = reason


class FileTooLargeError(UnreadableFileError):
    """A file holds more than is read. ``quantity`` names what there is too much of."""

    def __init__(self, table: str, quantity: str, limit: int, line: int | None = None) -> None:
        where = f" in row {line}" if line else ""
        super().__init__(table, f"more than {limit} {quantity}{where}")
        self.quantity = quantity
        self.limit = limit
        self.line = line


class MalformedTableError(UnreadableFileError):
    """A table of parts or joints cannot be read. ``line`` counts from 1 with the header."""

    def __init__(
        self, table: str, line: int, column: str, reason: str, suggestions: tuple[str, ...] = ()
    ) -> None:
        super().__init__(table, reason)
        place = f"{table}:{line}: {column}: " if column else f"{table}:{line}: "
        self.args = (f"{place}{reason}",)
        self.line = line
        self.column = column
        self.suggestions = suggestions
