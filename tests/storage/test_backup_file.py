"""The file itself: whole, or refused with the reason."""

from __future__ import annotations

import gzip
import stat
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from service.storage.backup_file import BackupHead, BackupInfo, TableHead, Values, tables_of, verified, write
from service.storage.errors import DamagedBackupError, MalformedBackupError

HEAD = BackupHead("some_revision", "1.0", "2026-11-25T12:00:00+00:00")
TABLE = TableHead(
    "things",
    {"a": "text", "b": "integer", "c": "float", "d": "boolean", "e": "bytes", "f": "moment", "g": "json"},
)
ROWS: list[Values] = [
    ("µ\n\u2028", 2**40, 0.1, True, bytes(range(256)), datetime(2026, 1, 2, 3, 4, 5, 6, UTC), {"b": [1]}),
    (None, None, None, None, None, None, None),
]
EMPTY = TableHead("none", {"a": "text"})


@pytest.fixture
def file(tmp_path: Path) -> Path:
    written = write(tmp_path / "backup.gz", HEAD, [(TABLE, ROWS), (EMPTY, [])])
    assert written.rows == {"things": 2, "none": 0}
    return tmp_path / "backup.gz"


def test_what_was_written_is_read(file: Path) -> None:
    assert list(tables_of(file)) == [TABLE, *ROWS, EMPTY]
    info = verified(file)
    assert isinstance(info, BackupInfo)
    assert (info.head, info.rows) == (HEAD, {"things": 2, "none": 0})


def test_only_its_owner_may_read_it(file: Path) -> None:
    assert stat.S_IMODE(file.stat().st_mode) == stat.S_IRUSR | stat.S_IWUSR


def test_a_backup_that_fails_leaves_nothing(tmp_path: Path) -> None:
    def rows() -> Iterator[Values]:
        yield ROWS[0]
        raise ConnectionError

    with pytest.raises(ConnectionError):
        write(tmp_path / "backup.gz", HEAD, [(TABLE, rows())])
    assert list(tmp_path.iterdir()) == []


def test_every_single_line_is_under_the_hash(file: Path) -> None:
    lines = gzip.decompress(file.read_bytes()).splitlines(keepends=True)
    for number in range(1, len(lines)):
        file.write_bytes(gzip.compress(b"".join(lines[:number] + lines[number + 1 :])))
        with pytest.raises(DamagedBackupError, match=r"hash|breaks off"):
            verified(file)
    file.write_bytes(gzip.compress(b"".join(lines).replace(b"some_revision", b"other_revision")))
    with pytest.raises(DamagedBackupError, match="hash"):
        verified(file)


@pytest.mark.parametrize("kept", [0.99, 0.5])
def test_a_file_that_was_cut_short_is_refused(file: Path, kept: float) -> None:
    data = file.read_bytes()
    file.write_bytes(data[: int(len(data) * kept)])
    with pytest.raises(DamagedBackupError, match="breaks off"):
        verified(file)


def test_no_single_flipped_bit_goes_unnoticed(file: Path) -> None:
    data = file.read_bytes()
    for place in range(10, len(data), 7):  # the first ten bytes are the archive's own head
        file.write_bytes(data[:place] + bytes([data[place] ^ 4]) + data[place + 1 :])
        with pytest.raises((DamagedBackupError, MalformedBackupError)):
            verified(file)


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"text", "gzipped"),
        (b"", "first line"),
        (gzip.compress(b"", mtime=0), "first line"),
        (gzip.compress(b"[1]\n", mtime=0), "first line"),
        (gzip.compress(b'{"revision":"a","engine":"1","taken_at":"","format":"2"}\n{}', mtime=0), "format"),
    ],
)
def test_what_is_no_backup_is_refused(tmp_path: Path, content: bytes, reason: str) -> None:
    file = tmp_path / "some.gz"
    file.write_bytes(content)
    with pytest.raises(MalformedBackupError, match=reason):
        verified(file)
