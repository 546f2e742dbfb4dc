"""The same question again is answered from notes, for the same tenant and release only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import closing

import pytest
from starlette.types import Scope as AsgiScope

from service.access import Principal, Scope
from service.web.answers import AnswerBook, KeptAnswer
from service.web.shortcut import Note, Shortcut, is_repeatable

HOLDER = Principal("key_1", "harbour", frozenset({Scope.JUDGE}))
QUERY = b"first=zinc&second=S235JR&environment=harbour"
SCOPE: AsgiScope = {"path": "/v1/couples", "method": "GET", "query_string": QUERY}
KEPT = KeptAnswer("d1", "r", "1", None, "", "p", b"{}", b'{"long": 1}', b"{}")
NOTE = Note.of("d1", "full", '"d1"', {"Cache-Control": "public, no-cache"})


@pytest.fixture
def book() -> Iterator[AnswerBook]:
    def store(_answers: Sequence[KeptAnswer]) -> None:
        pass

    def fetch(_digest: str) -> None:
        return None

    with closing(AnswerBook(10_000, store, fetch)) as opened:
        yield opened


@pytest.fixture
def shortcut(book: AnswerBook) -> Shortcut:
    book.keep(KEPT)
    noted = Shortcut(book)
    noted.note("harbour", "hash", QUERY, NOTE)
    return noted


def test_an_answer_that_was_noted_is_sent(shortcut: Shortcut) -> None:
    messages = shortcut.answer(SCOPE, {}, HOLDER, "hash")
    assert messages is not None
    start, body = messages
    headers = dict(start["headers"])
    assert (start["status"], body["body"]) == (200, b'{"long": 1}')
    assert headers[b"etag"] == b'"d1"'
    assert headers[b"content-length"] == b"11"
    assert headers[b"repr-digest"].startswith(b"sha-256=:")


def test_what_the_caller_holds_is_not_sent(shortcut: Shortcut) -> None:
    messages = shortcut.answer(SCOPE, {b"if-none-match": b'"d1"'}, HOLDER, "hash")
    assert messages is not None
    assert (messages[0]["status"], messages[1]["body"]) == (304, b"")


def test_nobody_else_gets_it(shortcut: Shortcut) -> None:
    stranger = Principal("key_2", "quay", HOLDER.scopes)
    reader = Principal("key_3", "harbour", frozenset({Scope.READ}))
    assert shortcut.answer(SCOPE, {}, stranger, "hash") is None
    assert shortcut.answer(SCOPE, {}, reader, "hash") is None


def test_another_release_question_or_wish_takes_the_usual_way(shortcut: Shortcut) -> None:
    assert shortcut.answer(SCOPE, {}, HOLDER, "other") is None
    assert shortcut.answer({**SCOPE, "query_string": b"first=x"}, {}, HOLDER, "hash") is None
    assert shortcut.answer(SCOPE, {b"accept": b"text/html"}, HOLDER, "hash") is None
    assert shortcut.answer(SCOPE, {b"accept": b"application/json"}, HOLDER, "hash") is not None


def test_an_answer_that_the_book_dropped_takes_the_usual_way(book: AnswerBook) -> None:
    shortcut = Shortcut(book)
    shortcut.note("harbour", "hash", QUERY, NOTE)
    assert shortcut.answer(SCOPE, {}, HOLDER, "hash") is None


def test_notes_are_bounded(book: AnswerBook) -> None:
    book.keep(KEPT)
    shortcut = Shortcut(book, limit_bytes=5_000)
    for number in range(100):
        shortcut.note("harbour", "hash", b"%d" % number, NOTE)
    held = [
        shortcut.answer({**SCOPE, "query_string": b"%d" % number}, {}, HOLDER, "hash") is not None
        for number in range(100)
    ]
    assert held == [False] * 95 + [True] * 5


def test_only_couples_by_text_are_repeatable() -> None:
    assert is_repeatable(SCOPE)
    assert is_repeatable({**SCOPE, "method": "HEAD"})
    assert not is_repeatable({**SCOPE, "method": "POST"})
    assert not is_repeatable({**SCOPE, "path": "/v1/materials"})
