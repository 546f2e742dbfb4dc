from __future__ import annotations

import json

import pytest

from service.assemblies.errors import FileTooLargeError, MalformedTableError, UnreadableFileError
from service.assemblies.records import read_json
from service.assemblies.tables import DEFAULT_LIMITS, Limits, Row

PART = {"part_number": "A", "material": "S355", "quantity": 2, "is_isolated": False, "note": None}
JOINT = {"first": "A", "second": "B", "functions": ["seal", "rf"]}


def read(document: object) -> tuple[dict[str, list[Row]], dict[str, object]]:
    tables, rest = read_json(json.dumps(document).encode(), "bom", DEFAULT_LIMITS)
    return {table.name: list(table.rows) for table in tables}, rest


def test_a_document_holds_parts_and_joints_and_more() -> None:
    tables, rest = read({"name": "Mast", "zones": {"top": "x"}, "parts": [PART], "joints": [JOINT]})
    assert tables["bom, parts"] == [(0, list(PART)), (1, ["A", "S355", "2", "no", ""])]
    assert tables["bom, joints"][1] == (1, ["A", "B", "seal; rf"])
    assert rest == {"name": "Mast", "zones": {"top": "x"}}


def test_a_list_of_objects_is_sorted_into_parts_and_joints() -> None:
    tables, _ = read([PART, JOINT])
    assert set(tables) == {"bom, parts", "bom, joints"}


def test_one_object_in_each_line() -> None:
    lines = [json.dumps({"programme": {"name": "P"}}), "", json.dumps(PART), json.dumps(JOINT)]
    tables, rest = read_json("\n".join(lines).encode(), "bom", DEFAULT_LIMITS)
    assert [table.name for table in tables] == ["bom, parts", "bom, joints"]
    assert [line for line, _ in tables[0].rows] == [0, 3]
    assert rest == {"programme": {"name": "P"}}


def test_a_single_part_is_one_line() -> None:
    tables, _ = read(PART)
    assert list(tables) == ["bom, parts"]


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b'{"a": 1}\n[1]', "is no JSON object"),
        (b'{"a": 1}\nnonsense', "is no JSON object"),
        (b"[1]", "is no JSON object"),
        (b'{"parts": 5}', "no list of objects"),
        (b"[]", "neither parts nor joints"),
        (b"7", "is no JSON object"),
        (b"[" * 100_000, "is no JSON object"),
    ],
)
def test_what_is_no_such_document_is_refused(data: bytes, reason: str) -> None:
    with pytest.raises(UnreadableFileError, match=reason):
        read_json(data, "bom", DEFAULT_LIMITS)


def test_an_object_in_place_of_text_is_named() -> None:
    with pytest.raises(MalformedTableError) as caught:
        read([{"part_number": "A", "material": {"id": "x"}}])
    assert (caught.value.line, caught.value.column) == (1, "material")


def test_large_documents_are_refused() -> None:
    with pytest.raises(FileTooLargeError):
        read_json(b"[]" * 10, "bom", Limits(file_bytes=5))
