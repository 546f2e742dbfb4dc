from __future__ import annotations

import io
import tracemalloc
import zipfile

import pytest

from service.assemblies import workbook_guard
from service.assemblies.errors import FileTooLargeError, UnreadableFileError
from service.assemblies.tables import DEFAULT_LIMITS, Limits
from tests.factories.workbooks import archive, sheet_of, workbook

ENTITIES = '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;">]>'


def guard(data: bytes, limits: Limits = DEFAULT_LIMITS) -> None:
    workbook_guard.opened(data, "book.xlsx", limits).close()


def test_a_sound_workbook_passes() -> None:
    guard(workbook({"bom": [["part", "material"], ["A", "S355"]]}))
    guard(archive(sheet_of(""), **{"xl/media/image.png": b"<<<"}))


def gigabyte() -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("[Content_Types].xml", "<a/>")
        with packed.open("xl/sharedStrings.xml", "w", force_zip64=True) as entry:
            for _ in range(1024):
                entry.write(b"\0" * 1024 * 1024)
    return stream.getvalue()


def test_a_gigabyte_in_a_megabyte_is_refused_in_little_memory() -> None:
    data = gigabyte()
    assert len(data) < 2 * 1024 * 1024
    tracemalloc.start()
    with pytest.raises(FileTooLargeError, match="bytes when unpacked"):
        guard(data)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 1024 * 1024


@pytest.mark.parametrize(
    ("data", "limits", "quantity"),
    [
        (archive(sheet_of("")), Limits(file_bytes=10), "bytes"),
        (archive(sheet_of("")), Limits(archive_entries=2), "files inside"),
        (archive(sheet_of("<row>" + "<c/>" * 2000 + "</row>")), DEFAULT_LIMITS, "columns"),
        (archive(sheet_of("<row/>" * 20)), Limits(rows=10), "rows"),
        (archive(sheet_of("<row/>" * 20)), Limits(elements=15), "elements"),
        (archive(sheet_of("<a>" * 70 + "</a>" * 70)), DEFAULT_LIMITS, "levels of nesting"),
        (
            archive(sheet_of("<row><c><v>" + "x" * 70_000 + "</v></c></row>")),
            DEFAULT_LIMITS,
            "characters in one cell",
        ),
    ],
)
def test_what_is_too_large_is_named(data: bytes, limits: Limits, quantity: str) -> None:
    with pytest.raises(FileTooLargeError) as caught:
        guard(data, limits)
    assert caught.value.quantity == quantity


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"PK\x03\x04 and nothing more", "no workbook"),
        (archive(ENTITIES + sheet_of("<row><c><v>&b;</v></c></row>")), "document types of its own"),
        (archive(ENTITIES.encode("utf-16") + b"<x/>"), "damaged|document types"),
        (archive("<worksheet><open>"), "damaged or encrypted"),
    ],
)
def test_what_is_hostile_or_damaged_is_refused(data: bytes, reason: str) -> None:
    with pytest.raises(UnreadableFileError, match=reason):
        guard(data)


def test_another_zip_archive_is_no_workbook() -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as packed:
        packed.writestr("readme.txt", "hello")
    with pytest.raises(UnreadableFileError, match="zip archive and no workbook"):
        guard(stream.getvalue())


def test_a_broken_stream_is_damage() -> None:
    data = archive(sheet_of("<row/>" * 100))
    at = data.index(b"xl/worksheets/sheet1.xml") + len("xl/worksheets/sheet1.xml")
    broken = data[:at] + b"\x00\x01\x02\x03\x04" + data[at + 5 :]
    with pytest.raises(UnreadableFileError, match="damaged"):
        guard(broken)


def test_a_wrong_checksum_is_damage() -> None:
    data = archive(sheet_of("<row/>"))
    at = data.index(b"PK\x01\x02")
    broken = data[: at - 40] + bytes([data[at - 40] ^ 0xFF]) + data[at - 39 :]
    with pytest.raises(UnreadableFileError, match="damaged"):
        guard(broken)
