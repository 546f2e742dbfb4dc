"""What can go wrong while a way out is sought.

::

    RemedyError
    ├── InvalidConstraintError       a constraint that names what does not exist
    └── UnreadableSurfaceError       a surface is not known, so there is nothing to change
"""

from __future__ import annotations


class RemedyError(Exception):
    """No remedy can be sought as asked."""


class InvalidConstraintError(RemedyError):
    """A constraint cannot be used. ``pointer`` is a JSON pointer to it."""

    def __init__(self, pointer: str, detail: str, suggestions: tuple[str, ...] = ()) -> None:
        super().__init__(f"{pointer}: {detail}")
        self.pointer = pointer
        self.detail = detail
        self.suggestions = suggestions


class UnreadableSurfaceError(RemedyError):
    """A surface is not known. ``sides`` says which, ``question`` is what would settle it, if one would."""

    def __init__(self, sides: tuple[str, ...], missing: tuple[str, ...], question: str) -> None:
        super().__init__(question or "; ".join(missing))
        self.sides = sides
        self.missing = missing
        self.question = question
