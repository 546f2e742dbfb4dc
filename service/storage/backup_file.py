"""A backup as one file: every row of every table, with a hash over all of it.

``*.jsonl.gz``: a line on where it comes from; for each table a line with its columns, then a line for each
row; at the end the number of rows and the SHA-256 of all lines before. Tables stand in the order in which
their rows can be put back. The file says itself what its columns hold, so that later versions can read it,
and nothing in it depends on which database it was taken from.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import os
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from service.storage.errors import DamagedBackupError, MalformedBackupError

FORMAT = "faying-backup-1"
_FASTER_THAN_BEST = 6
_OWNER_ONLY = 0o600
"""A backup holds hashes of keys and secrets of webhooks."""

Values = tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class BackupHead:
    """Where a backup comes from. ``revision`` is that of the tables, ``engine`` that of the judgement."""

    revision: str
    engine: str
    taken_at: str
    format: str = FORMAT


@dataclass(frozen=True, slots=True)
class TableHead:
    """A table and what its columns hold: text, integer, float, boolean, bytes, moment or json."""

    table: str
    columns: dict[str, str]


@dataclass(frozen=True, slots=True)
class BackupInfo:
    """What a backup holds, once it has been read to its end and found whole."""

    head: BackupHead
    rows: dict[str, int]
    sha256: str


def write(path: Path, head: BackupHead, tables: Iterable[tuple[TableHead, Iterable[Values]]]) -> BackupInfo:
    """Write a backup beside its place and move it there when it is complete and on the disk."""
    part = path.with_name(path.name + ".part")
    digest, counts = hashlib.sha256(), dict[str, int]()
    descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, _OWNER_ONLY)
    try:
        with os.fdopen(descriptor, "wb") as raw:
            with gzip.GzipFile("", "wb", _FASTER_THAN_BEST, raw, mtime=0) as stream:
                for line in _lines(head, tables, counts):
                    digest.update(line)
                    stream.write(line)
                stream.write(_line({"rows": counts, "sha256": digest.hexdigest()}))
            raw.flush()
            os.fsync(raw.fileno())
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    return BackupInfo(head, counts, digest.hexdigest())


def verified(path: Path) -> BackupInfo:
    """Read a backup to its end and check it against its hash.

    Raises
    ------
    MalformedBackupError
        If the file is no backup, or of a format that this version does not read.
    DamagedBackupError
        If it is not what was written.
    """
    lines = _read(path)
    last = next(lines, b"")
    head, digest = _head(path, last), hashlib.sha256()
    for line in lines:
        digest.update(last)
        last = line
    try:
        closing = json.loads(last)
        rows, expected = closing["rows"], closing["sha256"]
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        raise DamagedBackupError(path, "it breaks off") from error
    if digest.hexdigest() != expected:
        raise DamagedBackupError(path, "its content does not match its hash")
    return BackupInfo(head, rows, expected)


def tables_of(path: Path) -> Iterator[TableHead | Values]:
    """Give each table, followed by its rows, of a backup that was verified."""
    lines = _read(path)
    next(lines)
    table = TableHead("", {})
    for line in lines:
        content = json.loads(line)
        if isinstance(content, list):
            yield tuple(
                _from_json(kind, value) for kind, value in zip(table.columns.values(), content, strict=True)
            )
        elif "table" in content:
            table = TableHead(**content)
            yield table


def _lines(
    head: BackupHead, tables: Iterable[tuple[TableHead, Iterable[Values]]], counts: dict[str, int]
) -> Iterator[bytes]:
    yield _line(asdict(head))
    for table, rows in tables:
        yield _line(asdict(table))
        counts[table.table] = 0
        kinds = tuple(table.columns.values())
        for values in rows:
            counts[table.table] += 1
            yield _line([_to_json(kind, value) for kind, value in zip(kinds, values, strict=True)])


def _line(content: object) -> bytes:
    return json.dumps(content, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _read(path: Path) -> Iterator[bytes]:
    try:
        with gzip.open(path, "rb") as stream:
            yield from stream
    except (EOFError, zlib.error) as error:
        raise DamagedBackupError(path, "it breaks off") from error
    except OSError as error:
        raise MalformedBackupError(path, str(error)) from error


def _head(path: Path, line: bytes) -> BackupHead:
    try:
        head = BackupHead(**json.loads(line))
    except (ValueError, TypeError, RecursionError) as error:
        raise MalformedBackupError(path, "its first line cannot be read") from error
    if head.format != FORMAT:
        raise MalformedBackupError(path, f"its format is not {FORMAT}")
    return head


def _to_json(kind: str, value: Any) -> Any:
    if value is None:
        return None
    if kind == "bytes":
        return base64.b64encode(value).decode("ascii")
    return value.isoformat() if kind == "moment" else value


def _from_json(kind: str, value: Any) -> Any:
    if value is None:
        return None
    if kind == "bytes":
        return base64.b64decode(value)
    return datetime.fromisoformat(value) if kind == "moment" else value
