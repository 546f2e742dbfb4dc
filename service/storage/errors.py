"""What can go wrong with the database, the seed package and releases.

StorageError
├── NotStoredError
├── ReadOnlySessionError
├── MigrationsMissingError
├── NewerSchemaError
├── PackageError
├── BadReleaseLabelError
├── ReleaseLabelTakenError
├── UnknownReleaseError
├── NothingPublishedError
├── MalformedReleaseFileError
├── DatabaseUnavailableError
├── MalformedBackupError
├── DamagedBackupError
├── ForeignBackupError
├── DatabaseNotEmptyError
├── DamagedDatabaseError
├── BadCursorError
├── StaleVersionError
└── IdempotencyConflictError
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path


class StorageError(Exception):
    """The database cannot do what was asked."""


class NotStoredError(StorageError):
    """No stored thing has this identifier."""

    def __init__(self, kind: str, identifier: str) -> None:
        super().__init__(f"no {kind} with id {identifier!r}")
        self.kind = kind
        self.identifier = identifier


class ReadOnlySessionError(StorageError):
    """A read session was asked to change something."""

    def __init__(self) -> None:
        super().__init__("a read session cannot change or commit anything")


class MigrationsMissingError(StorageError):
    """The migrations lie in the source tree, and this installation has none."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"no migrations at {path}: install from a clone of the source")
        self.path = path


class NewerSchemaError(StorageError):
    """The tables were made by a newer version, which alone may change them."""

    def __init__(self, revision: str) -> None:
        super().__init__(f"the database is at revision {revision!r}, which a newer version has made")
        self.revision = revision


@dataclass(frozen=True, slots=True)
class PackageProblem:
    """One thing wrong with the seed package.

    ``line`` counts from 1 and includes the header; it is 0 where a whole file is meant.
    """

    file: str
    line: int
    column: str
    reason: str

    def __str__(self) -> str:
        """Name the place first, so that an editor can jump to it."""
        place = f"{self.file}:{self.line}" if self.line else self.file
        return f"{place}: {self.column}: {self.reason}" if self.column else f"{place}: {self.reason}"


class PackageError(StorageError):
    """The seed package cannot be loaded; ``problems`` lists every reason found."""

    def __init__(self, problems: Sequence[PackageProblem]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = tuple(problems)


class BadReleaseLabelError(StorageError):
    """A label may be part of a file name and of an address."""

    def __init__(self, label: str) -> None:
        super().__init__(f"{label!r} is no release label: letters, digits, dots, dashes, 64 at most")
        self.label = label


class ReleaseLabelTakenError(StorageError):
    """A release with this label exists and holds other content."""

    def __init__(self, label: str) -> None:
        super().__init__(f"release {label!r} exists already with other content")
        self.label = label


class UnknownReleaseError(StorageError):
    """No release has this label."""

    def __init__(self, label: str) -> None:
        super().__init__(f"no release {label!r}")
        self.label = label


class NothingPublishedError(StorageError):
    """No release has been published yet."""

    def __init__(self) -> None:
        super().__init__("no release has been published yet")


class MalformedReleaseFileError(StorageError):
    """The file is not an exported release."""

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(f"{path} is not an exported release: {reason}")
        self.path = path
        self.reason = reason


class Distress(StrEnum):
    """What keeps a database from doing its work, in words for whoever has to wait."""

    AWAY = "does not answer"
    BUSY = "is too busy"
    DAMAGED = "is damaged"
    FULL = "cannot write: its disk is full or fails"
    READ_ONLY = "takes no changes at present"


class DatabaseUnavailableError(StorageError):
    """The database is away, full, read-only, busy or damaged: nothing that the caller can put right."""

    def __init__(self, distress: Distress) -> None:
        super().__init__(f"The database {distress.value}; nothing of this request was kept.")
        self.distress = distress


class MalformedBackupError(StorageError):
    """The file is not a backup."""

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(f"{path} is not a backup: {reason}")
        self.path = path
        self.reason = reason


class DamagedBackupError(StorageError):
    """The backup is not what was written."""

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(f"{path} is damaged: {reason}; nothing was restored")
        self.path = path
        self.reason = reason


class ForeignBackupError(StorageError):
    """The backup comes from a version whose tables this one does not know."""

    def __init__(self, path: Path, revision: str, wanted: str = "") -> None:
        wish = (
            f"this database is at {wanted}: restore into an empty one"
            if wanted
            else "a newer version made it"
        )
        super().__init__(f"{path} holds tables of revision {revision!r}; {wish}")
        self.path = path
        self.revision = revision


class DatabaseNotEmptyError(StorageError):
    """A backup is restored over rows only where that was asked for."""

    def __init__(self, rows: int) -> None:
        super().__init__(f"the database holds {rows} rows already; they are replaced only with --replace")
        self.rows = rows


class DamagedDatabaseError(StorageError):
    """The database itself has found a page of its file that is not as it was written."""

    def __init__(self, findings: Sequence[str]) -> None:
        super().__init__(f"the database file is damaged: {'; '.join(findings)}")
        self.findings = tuple(findings)


class BadCursorError(StorageError):
    """A cursor did not come from this list."""

    def __init__(self, cursor: str) -> None:
        super().__init__(f"{cursor!r} is not a cursor of this list")
        self.cursor = cursor


class StaleVersionError(StorageError):
    """Somebody else has changed the thing since the caller looked."""

    def __init__(self, kind: str, identifier: str, version: int) -> None:
        super().__init__(f"{kind} {identifier!r} is no longer in version {version}")
        self.kind = kind
        self.identifier = identifier
        self.version = version


class IdempotencyConflictError(StorageError):
    """The key was used for another request, or its first request is still at work."""

    def __init__(self, key: str, *, is_running: bool) -> None:
        reason = "its first request is still at work" if is_running else "it was used for another request"
        super().__init__(f"idempotency key {key!r}: {reason}")
        self.key = key
        self.is_running = is_running
