"""What can be wrong with a bill of materials.

::

    AssemblyError
    └── MalformedTableError
"""

from __future__ import annotations


class AssemblyError(Exception):
    """An assembly cannot be judged."""


class MalformedTableError(AssemblyError):
    """A table of parts or joints cannot be read. ``line`` counts from 1 with the header."""

    def __init__(self, table: str, line: int, column: str, reason: str) -> None:
        super().__init__(f"{table}:{line}: {column}: {reason}" if column else f"{table}:{line}: {reason}")
        self.table = table
        self.line = line
        self.column = column
        self.reason = reason
