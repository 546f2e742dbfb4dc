"""Batches as they are sent."""

from __future__ import annotations

import hashlib

import httpx
import msgspec
import pytest

from service.client import BatchItem, BrokenStreamError
from service.client.batch import PIECE_BYTES, batch_lines, decide_all, judge_couples
from service.client.document.results import Decision

EMPTY = (
    msgspec.json.encode(
        {
            "complete": True,
            "count": 0,
            "failed": 0,
            "digest": hashlib.sha256().hexdigest(),
            "release": {"label": "2026.01.01-1", "content_hash": "5b" * 32},
        }
    )
    + b"\n"
)


def test_a_batch_is_written_in_pieces() -> None:
    couples = [{"first": "A4-80", "second": "CW024A", "ref": number} for number in range(5000)]
    pieces = list(batch_lines(couples, defaults={"environment": "heated-indoor"}))
    assert len(pieces) > 1
    assert all(len(piece) < PIECE_BYTES + 1000 for piece in pieces)
    head, *lines = b"".join(pieces).splitlines()
    assert msgspec.json.decode(head) == {"surfaces": [], "defaults": {"environment": "heated-indoor"}}
    assert [msgspec.json.decode(line) for line in lines] == couples
    assert list(batch_lines([(0, 1, "r")])) == [b'[0,1,"r"]\n']


def test_what_follows_some_couples_is_asked_for_in_the_release_of_their_answers() -> None:
    batch = judge_couples([(0, 1), (1, 0)], surfaces=["A4-80", "CW024A"])
    request = batch.after(1, "2026.01.01-1")
    assert request.query == {"view": "full", "as_of": "2026.01.01-1"}
    assert callable(request.body)
    assert b"".join(request.body()).endswith(b"}\n[1,0]\n")
    assert judge_couples([], as_of="2025.01.01-1").after(0, "2026.01.01-1").query["as_of"] == "2025.01.01-1"


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
        flow.send(httpx.Response(200, content=EMPTY))
    decisions: list[BatchItem[Decision]] = end.value.value
    assert decisions == []
