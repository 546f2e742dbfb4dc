"""Reading the seed package: CSV in, checked rows out, every fault with its place."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import fields
from pathlib import Path
from typing import NamedTuple, TextIO

from service.catalogue.errors import MalformedRowError
from service.catalogue.tables import KEYS, TABLES, record_from_row, row_from_record
from service.storage.errors import PackageError, PackageProblem
from service.storage.rows import REQUIRED, Values, key_text, referred


class Line(NamedTuple):
    """A row with the place where it stands."""

    number: int
    row: Values


def read_package(path: Path) -> dict[str, list[Values]]:
    """Read and check ``<table>.csv`` for every table of the knowledge base.

    The rows hold plain JSON values, ready for the database and for ``catalogue.freeze``.

    Raises
    ------
    PackageError
        With every fault found: missing files and columns, cells that cannot be read, keys given
        twice, references to nothing.
    """
    problems: list[PackageProblem] = []
    package = {table: _read_table(path / f"{table}.csv", table, problems) for table in TABLES}
    problems += _repeated_keys(package)
    problems += _dangling_references(package)
    if problems:
        raise PackageError(problems)
    return {table: [line.row for line in lines] for table, lines in package.items()}


def _read_table(path: Path, table: str, problems: list[PackageProblem]) -> list[Line]:
    try:
        with path.open(encoding="utf-8-sig", newline="") as stream:
            return list(_parse(_numbered(stream), path.name, table, problems))
    except FileNotFoundError:
        problems.append(PackageProblem(path.name, 0, "", "the file is missing"))
    except (UnicodeDecodeError, csv.Error) as error:
        problems.append(PackageProblem(path.name, 0, "", f"is not CSV in UTF-8: {error}"))
    return []


def _numbered(stream: TextIO) -> Iterator[tuple[int, list[str]]]:
    """Give each row with the line on which it begins; a quoted cell may span several."""
    reader = csv.reader(stream, strict=True)
    number = 1
    for cells in reader:
        yield number, cells
        number = reader.line_num + 1


def _parse(
    lines: Iterator[tuple[int, list[str]]], file: str, table: str, problems: list[PackageProblem]
) -> Iterator[Line]:
    _, header = next(lines, (1, []))
    faults = [PackageProblem(file, 1, name, reason) for name, reason in _header_faults(table, header)]
    problems += faults
    if faults:
        return
    for number, cells in lines:
        if not cells:
            continue
        if len(cells) != len(header):
            reason = f"has {len(cells)} cells, the header has {len(header)}"
            problems.append(PackageProblem(file, number, "", reason))
            continue
        try:
            record = record_from_row(table, dict(zip(header, cells, strict=True)))
        except MalformedRowError as error:
            problems.append(PackageProblem(file, number, error.field, f"{error.value!r} {error.reason}"))
        else:
            yield Line(number, row_from_record(record))


def _header_faults(table: str, header: list[str]) -> Iterator[tuple[str, str]]:
    expected = [field.name for field in fields(TABLES[table])]
    for name in expected:
        if header.count(name) != 1:
            yield name, "the column is missing" if name not in header else "the column stands twice"
    for name in header:
        if name not in expected:
            yield name, "is not a column of this table"


def _repeated_keys(package: Mapping[str, list[Line]]) -> Iterator[PackageProblem]:
    for table, lines in package.items():
        first: dict[str, int] = {}
        for number, row in lines:
            key = key_text(table, row)
            if not all(row[name] for name in KEYS[table]):
                yield PackageProblem(f"{table}.csv", number, KEYS[table][0], "the key is empty")
            elif key in first:
                reason = f"{key!r} stands already on line {first[key]}"
                yield PackageProblem(f"{table}.csv", number, KEYS[table][0], reason)
            first.setdefault(key, number)


def _dangling_references(package: Mapping[str, list[Line]]) -> Iterator[PackageProblem]:
    known = {
        table: {line.row["id"] for line in lines}
        for table, lines in package.items()
        if KEYS[table] == ("id",)
    }
    for table, lines in package.items():
        for number, row in lines:
            for column, target, name in referred(table, row):
                if name not in known.get(target, ()):
                    reason = f"no {target or 'such kind of subject'} with id {name!r}"
                    yield PackageProblem(f"{table}.csv", number, column, reason)
            for column in REQUIRED[table]:
                if not row[column]:
                    yield PackageProblem(f"{table}.csv", number, column, "is empty")
