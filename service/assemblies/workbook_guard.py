"""Looking at a workbook before a parser is let loose on it: a hostile one is refused while it is small."""

from __future__ import annotations

import io
import zipfile
import zlib
from pyexpat import ExpatError, ParserCreate
from typing import IO

from service.assemblies.errors import FileTooLargeError, UnreadableFileError
from service.assemblies.tables import Limits

_DAMAGE = (
    EOFError, ExpatError, NotImplementedError, OSError, RuntimeError, ValueError,
    zipfile.BadZipFile, zlib.error,
)  # fmt: skip
"""What the archive and its parts raise when they are not as they say."""

_CHUNK_BYTES = 65_536
_DEEPEST = 64
_LONGEST_TEXT = 65_536
"""Twice what a spreadsheet program lets into one cell."""


def opened(data: bytes, table: str, limits: Limits) -> zipfile.ZipFile:
    """Open the archive of a workbook whose sizes, and whose XML, are harmless.

    Raises
    ------
    FileTooLargeError
        If the file, what it unpacks to, a row or a cell is larger than is read.
    UnreadableFileError
        If it is no workbook, is damaged or encrypted, or brings document types of its own.
    """
    if len(data) > limits.file_bytes:
        raise FileTooLargeError(table, "bytes", limits.file_bytes)
    try:
        archive = zipfile.ZipFile(io.BytesIO(data))
    except zipfile.BadZipFile as error:
        raise UnreadableFileError(table, "this is no workbook (.xlsx)") from error
    entries = archive.infolist()
    if len(entries) > limits.archive_entries:
        raise FileTooLargeError(table, "files inside", limits.archive_entries)
    if sum(entry.file_size for entry in entries) > limits.uncompressed_bytes:
        raise FileTooLargeError(table, "bytes when unpacked", limits.uncompressed_bytes)
    if "[Content_Types].xml" not in archive.namelist():
        raise UnreadableFileError(table, "this is a zip archive and no workbook (.xlsx)")
    scan = _Scan(table, limits)
    for entry in entries:
        if entry.filename.endswith((".xml", ".rels")):
            _scan(archive, entry, table, scan)
    return archive


def _scan(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, table: str, scan: _Scan) -> None:
    try:
        with archive.open(entry) as stream:
            scan.read(stream)
    except _DAMAGE as error:
        raise UnreadableFileError(table, f"{entry.filename} inside is damaged or encrypted") from error


class _Scan:
    """Counts what the parts of a workbook hold, without keeping any of it."""

    def __init__(self, table: str, limits: Limits) -> None:
        self.table = table
        self.limits = limits
        self.elements = 0

    def read(self, stream: IO[bytes]) -> None:
        """Go through one part."""
        self.depth = self.row = self.cells = self.text = 0
        parser = ParserCreate()
        parser.buffer_text = True
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._characters
        parser.StartDoctypeDeclHandler = self._doctype
        while chunk := stream.read(_CHUNK_BYTES):
            parser.Parse(chunk, False)  # noqa: FBT003 - expat takes it by place only
        parser.Parse(b"", True)  # noqa: FBT003 - the same

    def _start(self, tag: str, _attributes: dict[str, str]) -> None:
        self.elements += 1
        self.depth += 1
        self.text = 0
        if self.elements > self.limits.elements:
            raise FileTooLargeError(self.table, "elements", self.limits.elements)
        if self.depth > _DEEPEST:
            raise FileTooLargeError(self.table, "levels of nesting", _DEEPEST)
        name = tag.rpartition(":")[2]
        if name == "row":
            self.row += 1
            self.cells = 0
            if self.row > self.limits.rows:
                raise FileTooLargeError(self.table, "rows", self.limits.rows)
        elif name == "c":
            self.cells += 1
            if self.cells > self.limits.columns:
                raise FileTooLargeError(self.table, "columns", self.limits.columns, self.row or None)

    def _end(self, _tag: str) -> None:
        self.depth -= 1
        self.text = 0

    def _characters(self, text: str) -> None:
        self.text += len(text)
        if self.text > _LONGEST_TEXT:
            raise FileTooLargeError(self.table, "characters in one cell", _LONGEST_TEXT, self.row or None)

    def _doctype(self, *_declaration: object) -> None:
        raise UnreadableFileError(self.table, "a workbook must not bring document types of its own")
