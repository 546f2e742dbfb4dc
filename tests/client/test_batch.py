from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import Any

import httpx
import msgspec
import pytest

from service.client import BatchItem, BrokenStreamError, ItemError
from service.client.batch import PIECE_BYTES, LineReader, batch_lines, decide_all, judge_couples
from service.client.document.results import Decision, Health, ItemProblem

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


def test_a_batch_is_written_in_pieces() -> None:
    couples = [{"first": "A4-80", "second": "CW024A", "ref": number} for number in range(5000)]
    pieces = list(batch_lines(couples, defaults={"environment": "heated-indoor"}))
    assert len(pieces) > 1
    assert all(len(piece) < PIECE_BYTES + 1000 for piece in pieces)
    head, *lines = b"".join(pieces).splitlines()
    assert msgspec.json.decode(head) == {"surfaces": [], "defaults": {"environment": "heated-indoor"}}
    assert [msgspec.json.decode(line) for line in lines] == couples
    assert list(batch_lines([(0, 1, "r")])) == [b'[0,1,"r"]\n']


def test_couples_that_are_used_up_are_not_sent_again() -> None:
    assert judge_couples([(0, 1)]).request.may_repeat
    assert not judge_couples(couple for couple in [(0, 1)]).request.may_repeat


def test_all_decisions_at_once_are_checked_like_a_stream() -> None:
    flow = decide_all([(0, 1)])
    next(flow)
    with pytest.raises(BrokenStreamError):
        flow.send(httpx.Response(200, content=b""))
    flow = decide_all([])
    next(flow)
    with pytest.raises(StopIteration) as end:
        flow.send(httpx.Response(200, content=stream([])))
    decisions: list[BatchItem[Decision]] = end.value.value
    assert decisions == []
