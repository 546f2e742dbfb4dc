"""Lines of batches are read from pieces and checked against the closing line, in one part or several."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest

from service.client import BatchItem, BrokenStreamError, ItemError
from service.client.document.results import Health, ItemProblem, ReleaseIdentity
from service.client.lines import LineReader


class Stamped(msgspec.Struct):
    """Says its release as a decision does."""

    release: str


class Told(msgspec.Struct):
    """Says its release as an answer does."""

    release: ReleaseIdentity


RELEASE = {"label": "2026.01.01-1", "content_hash": "5b" * 32}
FAULT = {"location": "body", "pointer": "/first", "code": "x", "detail": "No such surface."}
PROBLEM = {"type": "/problems/p", "title": "Unusable", "status": 422, "detail": "Bad.", "errors": [FAULT]}
LINES = [
    {"index": 0, "ref": "j1", "answer": {"status": "alive"}},
    {"index": 1, "error": PROBLEM},
]


def stream(lines: list[dict[str, Any]] = LINES, **closing: Any) -> bytes:
    content = b"".join(msgspec.json.encode(line) + b"\n" for line in lines)
    last = {
        "complete": True,
        "count": len(lines),
        "failed": 1,
        "digest": hashlib.sha256(content).hexdigest(),
        "release": RELEASE,
        **closing,
    }
    return content + msgspec.json.encode(last) + b"\n"


def received(content: bytes, size: int = 7) -> tuple[list[BatchItem[Health]], LineReader[Health]]:
    reader = LineReader(Health)
    items = []
    for start in range(0, len(content), size):
        items += list(reader.feed(content[start : start + size]))
    return items, reader


@pytest.mark.parametrize("size", [1, 7, 100_000])
def test_lines_are_read_from_pieces_of_any_size(size: int) -> None:
    items, reader = received(stream(), size)
    assert items[0] == BatchItem(index=0, ref="j1", answer=Health(status="alive"))
    assert items[0].value().status == "alive"
    with pytest.raises(ItemError, match=r"couple 1: 422 Unusable; Bad.; /first: No such surface.") as caught:
        items[1].value()
    assert isinstance(caught.value.problem, ItemProblem)
    closing = reader.close()
    assert (closing.count, closing.failed, closing.release.label) == (2, 1, "2026.01.01-1")


def cut_off() -> Iterator[tuple[str, bytes]]:
    whole = stream()
    yield "without its closing line", whole[: whole.index(b'{"complete"')]
    yield "without its closing line", whole[:-5]
    yield "without its closing line", b""
    yield "the service broke off", stream(complete=False)
    yield "counts 3", stream(count=3)
    yield "digest", stream().replace(b"alive", b"alife")
    yield "follows the closing line", whole + stream()
    yield "cannot be read", whole.replace(b'"status":"alive"', b'"state":"alive"')
    yield "cannot be read", whole.replace(b"alive", b"\xff")


@pytest.mark.parametrize(("reason", "content"), list(cut_off()))
def test_a_stream_that_is_not_whole_raises(reason: str, content: bytes) -> None:
    with pytest.raises(BrokenStreamError, match=reason):
        received(content)[1].close()


def test_the_number_of_lines_that_came_is_told() -> None:
    _, reader = received(msgspec.json.encode(LINES[0]) + b"\n" + b'{"ind')
    with pytest.raises(BrokenStreamError) as caught:
        reader.close()
    assert caught.value.received == 1


def test_an_item_with_neither_answer_nor_error_raises() -> None:
    with pytest.raises(BrokenStreamError, match="neither"):
        BatchItem[Health](index=4).value()


def test_a_stream_in_two_parts_is_read_as_if_it_had_come_in_one() -> None:
    whole, reader = stream(), LineReader[Health](Health)
    second = stream([{**LINES[1], "index": 0}])
    items = list(reader.feed(whole[: whole.index(b"\n") + 20]))
    assert not reader.has_ended
    reader.resume()
    items += list(reader.feed(second))
    assert reader.has_ended
    assert items == received(whole)[0]
    assert reader.close() == received(whole)[1].close()


def test_a_further_part_must_agree_with_its_own_closing_line() -> None:
    for spoilt in (
        stream([{**LINES[1], "index": 0}], count=2),
        stream([{**LINES[1], "index": 0}], digest=""),
    ):
        reader = LineReader[Health](Health)
        list(reader.feed(msgspec.json.encode(LINES[0]) + b"\n"))
        reader.resume()
        list(reader.feed(spoilt))
        with pytest.raises(BrokenStreamError):
            reader.close()


def test_a_line_out_of_order_raises() -> None:
    with pytest.raises(BrokenStreamError, match="line 1 is out of order"):
        received(stream([LINES[1]]))


def test_the_release_is_known_from_the_first_answer_that_says_it() -> None:
    decisions: LineReader[Stamped] = LineReader(Stamped)
    list(decisions.feed(stream([LINES[1]]).replace(b'"index":1', b'"index":0')))
    assert decisions.release is None
    decisions = LineReader(Stamped)
    list(decisions.feed(b'{"index":0,"answer":{"release":"2026.01.01-1"}}\n'))
    assert decisions.release == "2026.01.01-1"
    answers: LineReader[Told] = LineReader(Told)
    list(answers.feed(b'{"index":0,"answer":{"release":%s}}\n' % msgspec.json.encode(RELEASE)))
    assert answers.release == "2026.01.01-1"
