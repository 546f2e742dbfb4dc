"""Files made to do harm, sent to a real server: a clear refusal each, and little memory for all of them."""

from __future__ import annotations

import csv
import io
import os
import zipfile
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import httpx
import openpyxl
import pytest

from tests.acceptance.processes import Server, environment, serving
from tests.factories.workbooks import BOOK, BOOK_RELATIONS, ROOT, SHEET, TYPES, archive, sheet_of

CHECK = "/v1/assemblies/check?environment=heated-indoor"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
MOST_MB = 256
"""What the peak of the server's memory may grow by while one file is read; each is 4 MB at most."""
MILLION = 1_000_000
HEAD = b"Part number,Material\n"
ENTITIES = '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa">' + "".join(
    f'<!ENTITY {name} "{f"&{before};" * 10}">' for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)


def swollen() -> bytes:
    """A workbook with a sheet of 300 MB of blanks in 300 kB; one of 1 GB is tried in tests/assemblies."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in (
            ("[Content_Types].xml", TYPES), ("_rels/.rels", ROOT), ("xl/workbook.xml", BOOK),
            ("xl/_rels/workbook.xml.rels", BOOK_RELATIONS),
        ):  # fmt: skip
            packed.writestr(name, content)
        with packed.open(SHEET, "w", force_zip64=True) as entry:
            for _ in range(300):
                entry.write(b" " * 2**20)
    return stream.getvalue()


def lying() -> bytes:
    """An archive whose directory says that a large sheet is small."""
    data = archive(sheet_of("<row/>" * 500_000))
    size = len(sheet_of("<row/>" * 500_000)).to_bytes(4, "little")
    return data.replace(size, (100).to_bytes(4, "little"))


FILES: dict[str, tuple[Callable[[], bytes], str]] = {
    "CSV of a million columns": (lambda: HEAD + b"A" + b",b" * MILLION, "text/csv"),
    "CSV of a million headings": (lambda: b"Part number" + b",x" * MILLION, "text/csv"),
    "CSV of a million rows": (lambda: HEAD + b"A,b\n" * (MILLION - 100), "text/csv"),
    "CSV of a million empty rows": (lambda: HEAD + b"\n" * MILLION, "text/csv"),
    "CSV of one endless cell": (lambda: HEAD + b"A," + b"b" * 4 * MILLION, "text/csv"),
    "CSV with an open quotation mark": (lambda: HEAD + b'A,"' + b"b\n" * 2 * MILLION, "text/csv"),
    "CSV of quotation marks": (lambda: HEAD + b'"' * 4 * MILLION, "text/csv"),
    "UTF-32": (lambda: "Part number,Material\nA,b\n".encode("utf-32"), "text/csv"),
    "UTF-16 cut in half": (lambda: "Part number,Material\nA,b\n".encode("utf-16")[:-1], "text/csv"),
    "EBCDIC": (lambda: "Part number,Material\nA,b\n".encode("cp037"), "text/csv"),
    "every byte there is": (lambda: bytes(range(256)) * 4000, "text/csv"),
    "JSON nested a million times": (lambda: b'{"parts":' + b"[" * MILLION, "application/x-ndjson"),
    "XLSX with a sheet of 300 MB": (swollen, XLSX),
    "XLSX that lies about its size": (lying, XLSX),
    "XLSX of a million columns": (lambda: archive(sheet_of("<row>" + "<c/>" * MILLION + "</row>")), XLSX),
    "XLSX of two million rows": (lambda: archive(sheet_of("<row/>" * 2 * MILLION)), XLSX),
    "XLSX with entities in entities": (lambda: archive(ENTITIES + "]>" + sheet_of("&i;")), XLSX),
    "XLSX of a million files": (lambda: archive(sheet_of(""), **{f"x{n}": b"" for n in range(20_000)}), XLSX),
    "XLSX cut in half": (lambda: archive(sheet_of("<row/>" * 1000))[:-200], XLSX),
}


def peak_mb(server: Server) -> float:
    status = Path(f"/proc/{server.process.pid}/status").read_text(encoding="ascii")
    (line,) = [line for line in status.splitlines() if line.startswith("VmHWM:")]
    return int(line.split()[1]) / 1024


@pytest.fixture(scope="module")
def attacked(first_setup: tuple[Path, object]) -> Iterator[Server]:
    """A server that has already read a sound file, so that only the hostile ones can raise its peak."""
    with serving(environment(first_setup[0]), log=Path(os.devnull)) as server:
        with server.client() as client:
            sound = HEAD + b"".join(b"%d,S235JR\n" % number for number in range(300))
            client.post(CHECK, content=sound, headers={"Content-Type": "text/csv"}).raise_for_status()
        yield server


def told(response: httpx.Response) -> str:
    """Check that a refusal is a problem that says in words what is wrong."""
    assert 400 <= response.status_code < 500, (response.status_code, response.text[:300])
    assert response.headers["content-type"] == "application/problem+json"
    problem = response.json()
    assert problem["detail"].strip()
    assert "Traceback" not in response.text
    assert len(response.content) < 20_000
    return str(problem["detail"])


@pytest.mark.parametrize("name", list(FILES))
def test_a_hostile_file_is_refused_in_words_and_little_memory(attacked: Server, name: str) -> None:
    made, media_type = FILES[name]
    before_mb = peak_mb(attacked)
    with attacked.client() as client:
        told(client.post(CHECK, content=made(), headers={"Content-Type": media_type}))
        assert client.get("/readyz").status_code == 200
    assert peak_mb(attacked) - before_mb < MOST_MB


def test_a_body_without_an_end_is_cut_off_at_the_limit(attacked: Server) -> None:
    sent = 0

    def endless() -> Iterator[bytes]:
        nonlocal sent
        while sent < 1024:
            sent += 1
            yield b"A,b\n" * 2**18

    before_mb = peak_mb(attacked)
    # The server hangs up on what it does not want to read.
    with attacked.client() as client, suppress(httpx.WriteError):
        told(client.post(CHECK, content=endless(), headers={"Content-Type": "text/csv"}))
    assert sent < 64
    assert peak_mb(attacked) - before_mb < MOST_MB


FORMULAS = (
    "=1+1", "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", '=HYPERLINK("http://x")',
    "\uff1d1+1",
)  # fmt: skip


def test_no_text_of_a_caller_becomes_a_formula_of_a_reader(attacked: Server) -> None:
    parts = [
        {"part_number": f"{text} {number}", "description": text, "surface": text}
        for number, text in enumerate(FORMULAS)
    ]
    names = [str(part["part_number"]) for part in parts]
    joints = [
        {"id": f"{text}J{n}", "name": text, "first": names[0], "second": names[n]}
        for n, text in enumerate(FORMULAS)
        if n
    ]
    body = {"name": "=1+1", "parts": parts, "joints": joints}
    with attacked.client() as client:
        table = client.post(f"{CHECK}&format=csv", json=body).raise_for_status()
        book = client.post(f"{CHECK}&format=xlsx", json=body).raise_for_status()
    cells = [cell for row in csv.reader(io.StringIO(table.text)) for cell in row]
    assert sum("SUM(A1)" in cell for cell in cells) > 0
    assert [cell for cell in cells if cell.lstrip()[:1] in set("=+@") or cell[:1] in set("\t\r")] == []
    read = openpyxl.load_workbook(io.BytesIO(book.content))
    shown = [cell for sheet in read.worksheets for row in sheet.iter_rows() for cell in row]
    assert any("SUM(A1)" in str(cell.value) for cell in shown)
    assert [cell.value for cell in shown if cell.data_type == "f"] == []
