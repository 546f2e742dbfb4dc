from __future__ import annotations

import codecs

import pytest

from service.assemblies.errors import FileTooLargeError, UnreadableFileError
from service.assemblies.headed import score
from service.assemblies.tables import DEFAULT_LIMITS, Limits, RawTable
from service.assemblies.tabular import decoded, read_text

TEXT = "Pos;Benennung;Werkstoff\n1;Lasche 5×40 µ;S355\n"


def read(data: bytes, limits: Limits = DEFAULT_LIMITS) -> RawTable:
    return read_text(data, "list.csv", score, limits)


@pytest.mark.parametrize(
    "data",
    [
        TEXT.encode(),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"),
        TEXT.encode("utf-16-le"),
        TEXT.encode("utf-16-be"),
        TEXT.encode("cp1252"),
    ],
    ids=["utf-8", "utf-8-sig", "utf-16", "utf-16-be", "bare utf-16-le", "bare utf-16-be", "cp1252"],
)
def test_every_usual_encoding_is_read(data: bytes) -> None:
    assert list(read(data).rows) == [
        (1, ["Pos", "Benennung", "Werkstoff"]),
        (2, ["1", "Lasche 5×40 µ", "S355"]),
    ]


def test_a_guessed_encoding_is_told() -> None:
    assert "Windows-1252" in read(TEXT.encode("cp1252")).assumptions[0]
    assert read(TEXT.encode()).assumptions == ()


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "old binary workbook"),
        (b"%PDF-1.7", "PDF"),
        (b"\x1f\x8b\x08", "gzip"),
        (b"PKxx", "zip archive"),
        (b"<html>", "XML or HTML"),
        (codecs.BOM_UTF32_LE + "a".encode("utf-32-le"), "no text"),
        (bytes(range(256)) * 4, "no text"),
        (b"part,material\n\x00\x00,a\n" * 3, "no text"),
        (b"\x81\x8d\x8f", "no text"),
    ],
)
def test_what_is_no_text_is_told_for_what_it_is(data: bytes, reason: str) -> None:
    with pytest.raises(UnreadableFileError, match=reason):
        decoded(data, "list")


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_the_delimiter_is_that_under_which_headings_are_known(delimiter: str) -> None:
    lines = [["Part number", "Description", "Material"], ["1", "a, b; c", "d"]]
    text = "\n".join(delimiter.join(f'"{cell}"' for cell in line) for line in lines)
    assert next(iter(read(text.encode()).rows))[1] == lines[0]


def test_headings_are_looked_for_near_the_top_only() -> None:
    data = b"a;b\n" * 80 + b"Part number;Material\n"
    assert next(iter(read(data).rows)) == (1, ["a;b"])


def test_a_file_may_name_its_delimiter() -> None:
    assert list(read(b"sep=;\na;b,c\n").rows)[1] == (2, ["a", "b,c"])
    assert list(read(b"sep=x\na,b\n").rows)[1] == (2, ["a", "b"])


def test_rows_are_counted_as_the_file_counts_them() -> None:
    assert [line for line, _ in read(b'part,material\n"a\nb",c\nd,e\n').rows] == [1, 2, 4]


def test_an_open_quotation_mark_is_named_with_its_row() -> None:
    data = b'part,material\nA,"' + b"x" * 200_000
    with pytest.raises(UnreadableFileError, match="row 2"):
        list(read(data).rows)


def test_a_file_is_not_read_beyond_its_limit() -> None:
    with pytest.raises(FileTooLargeError, match="more than 10 bytes"):
        read(b"part,material\n", Limits(file_bytes=10))


def test_a_million_columns_are_refused_in_their_row() -> None:
    data = b"part,material\nA" + b",b" * 1_000_000
    with pytest.raises(FileTooLargeError, match="more than 1000 columns in row 2"):
        list(read(data).rows)


def test_a_first_row_too_wide_is_refused_as_well() -> None:
    with pytest.raises(FileTooLargeError, match="columns in row 1"):
        list(read(b"part" + b",x" * 5000).rows)
