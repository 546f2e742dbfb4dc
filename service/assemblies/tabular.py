"""Text files as rows: encodings, delimiters and quotes as they come."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Callable, Iterator

from service.assemblies.errors import FileTooLargeError, UnreadableFileError
from service.assemblies.tables import Limits, RawTable, Row, checked

DELIMITERS = (",", ";", "\t", "|")
_LOOK_AHEAD = 60
"""Rows in which the headings are looked for."""

_SAMPLE_CHARACTERS = 65_536

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, ""),
    (codecs.BOM_UTF32_BE, ""),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_FOREIGN = (
    (b"\xd0\xcf\x11\xe0", "an old binary workbook; save it as .xlsx or CSV"),
    (b"%PDF", "a PDF; export the list as .xlsx or CSV"),
    (b"\x1f\x8b", "a gzip archive; send what is inside"),
    (b"PK", "a zip archive and no workbook"),
    (b"<", "XML or HTML; export the list as .xlsx or CSV"),
)


def decoded(data: bytes, table: str) -> tuple[str, str]:
    """Return the text of a file and the encoding that it was read in.

    UTF-8 and UTF-16 with or without their mark; what is neither is read as Windows-1252, the usual
    encoding of older spreadsheets.

    Raises
    ------
    UnreadableFileError
        If the file is no text, or in none of these encodings.
    """
    for start, reason in _FOREIGN:
        if data.startswith(start):
            raise UnreadableFileError(table, f"this is {reason}")
    for name in _encodings(data):
        try:
            text = data.decode(name)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text, name
    raise UnreadableFileError(table, "this is no text in UTF-8, UTF-16 or Windows-1252")


def _encodings(data: bytes) -> tuple[str, ...]:
    for mark, name in _MARKS:
        if data.startswith(mark):
            return (name,) if name else ()
    head = data[:4096]
    if head.count(0) > len(head) // 4:
        return ("utf-16-le",) if head[1::2].count(0) >= head[::2].count(0) else ("utf-16-be",)
    return ("utf-8", "cp1252")


def read_text(data: bytes, table: str, score: Callable[[list[str]], int], limits: Limits) -> RawTable:
    """Read a delimited text file.

    Parameters
    ----------
    data : bytes
        The file.
    table : str
        Its name, for messages.
    score : callable
        How many known headings a row holds; it decides between delimiters.
    limits : Limits
        How much is read.

    Raises
    ------
    UnreadableFileError
        If the file is no text.
    FileTooLargeError
        If it is larger than the limits, now or while the rows are read.
    """
    if len(data) > limits.file_bytes:
        raise FileTooLargeError(table, "bytes", limits.file_bytes)
    text, encoding = decoded(data, table)
    delimiter = _delimiter(text, table, score, limits)
    assumptions = ("read as Windows-1252, because it is no UTF-8",) if encoding == "cp1252" else ()
    return RawTable(table, checked(table, _rows(text, delimiter, table), limits), assumptions)


def _rows(text: str, delimiter: str, table: str) -> Iterator[Row]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    line = 0
    try:
        for cells in reader:
            yield line + 1, cells
            line = reader.line_num
    except csv.Error as error:
        reason = f"row {line + 1} cannot be read ({error}); is a quotation mark open?"
        raise UnreadableFileError(table, reason) from error


def _delimiter(text: str, table: str, score: Callable[[list[str]], int], limits: Limits) -> str:
    """The delimiter under which most headings are known; the first of equals."""
    named = next((line for line in text[:200].splitlines() if line.lower().startswith("sep=")), "")
    if len(named) == len("sep=") + 1 and named[-1] in DELIMITERS:
        return named[-1]
    sample = text[:_SAMPLE_CHARACTERS]
    best, most = DELIMITERS[0], -1
    for delimiter in DELIMITERS:
        found = max((score(cells) for cells in _sampled(sample, delimiter, table, limits)), default=0)
        if found > most:
            best, most = delimiter, found
    return best


def _sampled(sample: str, delimiter: str, table: str, limits: Limits) -> Iterator[list[str]]:
    rows = _rows(sample, delimiter, table)
    for _ in range(_LOOK_AHEAD):
        try:
            _, cells = next(rows)
        except (StopIteration, UnreadableFileError):
            return
        if len(cells) <= limits.columns:
            yield cells
