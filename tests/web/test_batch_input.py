"""Batches are read line by line; what is wrong with a line is that line's own."""

from __future__ import annotations

import io

import pytest

from service.web.batch_input import JSON, MAX_COUPLES, MAX_LINE_BYTES, NDJSON, Head, couple_of, read_batch
from service.web.errors import InvalidRequestError, MalformedBodyError

HEAD = b'{"surfaces":["A4-80",{"text":"S235JR"}],"defaults":{"environment":"harbour"}}'


def read(body: bytes, content_type: str = NDJSON) -> tuple[Head, list[bytes]]:
    batch = read_batch(io.BytesIO(body), content_type)
    raws = list(batch.raws)
    assert batch.count == len(raws)
    return batch.head, raws


def test_lines_are_couples_and_the_first_may_be_the_head() -> None:
    head, raws = read(b"\n" + HEAD + b'\r\n\r\n[0,1]\n{"first":0}')
    assert head == Head(("A4-80", {"text": "S235JR"}), {"environment": "harbour"})
    assert raws == [b"[0,1]", b'{"first":0}']


def test_without_a_head_the_first_line_is_a_couple() -> None:
    for first in (b"[0,1]", b"nonsense", b'{"first":"surfaces","second":"x"}', b'{"first":1,"defaults":2}'):
        assert read(first + b"\n[1,0]") == (Head(), [first, b"[1,0]"])
    assert read(b"") == (Head(), [])


def test_a_document_holds_the_same() -> None:
    document = b'{"couples":[[0,1],{"first": 0}],' + HEAD[1:]
    head, raws = read(document, JSON)
    assert (len(head.surfaces), head.defaults) == (2, {"environment": "harbour"})
    assert raws == [b"[0,1]", b'{"first": 0}']


def test_a_table_of_surfaces_may_be_longer_than_a_couple() -> None:
    surfaces = ",".join(f'"surface {number}"' for number in range(10_000))
    head, raws = read(f'{{"surfaces":[{surfaces}]}}\n[0,1]\n'.encode())
    assert (len(head.surfaces), raws) == (10_000, [b"[0,1]"])


def test_a_line_that_is_too_long_spoils_itself_alone() -> None:
    _, raws = read(b"[0,1]\n" + b"x" * (3 * MAX_LINE_BYTES) + b"\n[1,0]\n" + b"y" * (MAX_LINE_BYTES + 1))
    assert (raws[0], raws[2]) == (b"[0,1]", b"[1,0]")
    for raw in (raws[1], raws[3]):
        with pytest.raises(InvalidRequestError) as raised:
            couple_of(raw)
        assert raised.value.faults[0].code == "too_long"


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"nonsense",
        b"[]",
        b'{"couples":1}',
        b'{"couples":[],"cuples":[]}',
        b'{"surfaces":["\xff"],"couples":[]}',
        b"[" * 5000,
    ],
)
def test_a_document_that_is_none_is_refused_whole(body: bytes) -> None:
    with pytest.raises(MalformedBodyError):
        read(body, JSON)


@pytest.mark.parametrize("head", [b'{"surfaces":1}', b'{"defaults":[]}', b'{"surfaces":[],"other":1}'])
def test_a_head_that_cannot_be_used_is_refused(head: bytes) -> None:
    with pytest.raises(MalformedBodyError):
        read(head + b"\n[0,1]")


def test_there_may_not_be_too_many_couples() -> None:
    most = b"[0,1]\n" * MAX_COUPLES
    assert len(read(HEAD + b"\n" + most)[1]) == MAX_COUPLES
    for body, content_type in (
        (HEAD + b"\n" + most + b"[0,1]", NDJSON),
        (b'{"couples":[' + b"0," * MAX_COUPLES + b"0]}", JSON),
    ):
        with pytest.raises(InvalidRequestError) as raised:
            read(body, content_type)
        assert raised.value.faults[0].code == "too_many"


def test_a_couple_comes_as_object_or_list_with_a_ref() -> None:
    assert couple_of(b'{"ref":"j-1","first":0,"second":"x"}').members == {"first": 0, "second": "x"}
    assert couple_of(b'{"ref":"j-1","first":0}').ref == "j-1"
    assert (couple_of(b"[3,4]").ref, couple_of(b"[3,4,17]").ref, couple_of(b'[3,4,"j"]').ref) == (
        None,
        17,
        "j",
    )
    assert couple_of(b"[3,4]").members == {"first": 3, "second": 4}


@pytest.mark.parametrize(
    ("raw", "pointer", "code"),
    [
        (b"{", "", "malformed"),
        (b"\xff", "", "malformed"),
        (b'{"first":NaN}', "", "malformed"),
        (b"[" * 30_000, "", "malformed"),
        (b"[0]", "", "type"),
        (b"[0,1,2,3]", "", "type"),
        (b"3", "", "type"),
        (b'{"ref":1.5}', "/ref", "type"),
        (b'{"ref":true}', "/ref", "type"),
        (b'[0,1,["x"]]', "/2", "type"),
        (b'{"ref":"' + b"x" * 201 + b'"}', "/ref", "type"),
    ],
)
def test_what_is_no_couple_says_where_and_why(raw: bytes, pointer: str, code: str) -> None:
    with pytest.raises(InvalidRequestError) as raised:
        couple_of(raw)
    [fault] = raised.value.faults
    assert (fault.pointer, fault.code) == (pointer, code)
