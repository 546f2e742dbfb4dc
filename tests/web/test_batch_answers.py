"""Answers of a batch are those of single questions, line by line."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from contextlib import closing

import orjson
import pytest

from service.judgement import DEFAULT_POLICY, Inquiry, Side
from service.web.answers import AnswerBook, KeptAnswer
from service.web.batch_answers import Answering, Tally, chunks
from service.web.batch_questions import Question
from service.web.errors import Fault, InvalidRequestError
from service.web.identity import identify
from service.web.schemas.couples import View
from service.web.together import Company
from tests.seed_catalogue import seed_catalogue

CATALOGUE = seed_catalogue()
RELEASE = (CATALOGUE.label, CATALOGUE.content_hash)
PLACE = "marine-atmosphere-0-100-m"


class Store:
    def __init__(self) -> None:
        self.rows: dict[str, KeptAnswer] = {}

    def write(self, answers: Sequence[KeptAnswer]) -> None:
        self.rows.update({answer.digest: answer for answer in answers})


@pytest.fixture
def store() -> Store:
    return Store()


@pytest.fixture
def book(store: Store) -> Iterator[AnswerBook]:
    with closing(AnswerBook(10_000_000, store.write, store.rows.get)) as opened:
        yield opened


def inquiry(first: str, second: str, place: str = PLACE) -> Inquiry:
    return Inquiry(Side(text=first), Side(text=second), place)


GOOD = (
    inquiry("EN AW-6082-T6", "A4-80"),
    inquiry("CW024A", "S235JR"),
    inquiry("A4-80", "brass of some sort"),
)
BAD = inquiry("A4-80", "S235JR", "atlantis")


def questions(*asked: Inquiry | InvalidRequestError) -> list[Question]:
    return [Question(index, f"ref {index}", each) for index, each in enumerate(asked)]


def single(asked: Inquiry) -> KeptAnswer:
    identity = identify(asked, CATALOGUE, DEFAULT_POLICY)
    kept = Company(CATALOGUE, DEFAULT_POLICY, "harbour").judge([(asked, identity)])[identity.digest]
    assert isinstance(kept, KeptAnswer)
    return kept


@pytest.mark.parametrize("view", list(View))
def test_a_line_holds_the_bytes_of_the_single_answer(view: View, book: AnswerBook, store: Store) -> None:
    lines = Answering(CATALOGUE, view, "harbour", book).lines(questions(*GOOD)).content.splitlines()
    book.settle()
    for index, (line, asked) in enumerate(zip(lines, GOOD, strict=True)):
        kept = single(asked)
        assert line == b'{"index":%d,"ref":"ref %d","answer":%s}' % (index, index, kept.body_of(view))
        assert store.rows[kept.digest].body == kept.body


def test_one_bad_couple_spoils_only_itself(book: AnswerBook) -> None:
    refused = InvalidRequestError(Fault("body", "/first", "missing", "Field required"))
    lines = Answering(CATALOGUE, View.DECISION, "harbour", book).lines(
        questions(GOOD[0], BAD, GOOD[1], refused, BAD, GOOD[2])
    )
    documents = [orjson.loads(line) for line in lines.content.splitlines()]
    assert (lines.count, lines.failed) == (6, 3)
    assert [document["index"] for document in documents] == list(range(6))
    assert ["answer" in document for document in documents] == [True, False, True, False, False, True]
    unknown = documents[1]["error"]
    assert (unknown["type"], unknown["errors"][0]["pointer"]) == (
        "/problems/unknown-reference",
        "/environment",
    )
    assert "instance" not in unknown
    assert documents[3]["error"]["errors"][0]["code"] == "missing"


def test_the_same_question_is_judged_once(book: AnswerBook, store: Store) -> None:
    lines = Answering(CATALOGUE, View.DECISION, "harbour", book).lines(questions(*[GOOD[0]] * 50))
    book.settle()
    assert (lines.count, len(store.rows)) == (50, 1)


def test_what_is_in_memory_is_not_judged_again(book: AnswerBook, store: Store) -> None:
    book.keep(single(GOOD[0]))
    Answering(CATALOGUE, View.FULL, "harbour", book).lines(questions(*GOOD[:2]))
    book.settle()
    digests = {identify(asked, CATALOGUE, DEFAULT_POLICY).digest for asked in GOOD[:2]}
    assert digests <= store.rows.keys() | {single(GOOD[0]).digest}


def test_a_couple_without_a_ref_gets_none(book: AnswerBook) -> None:
    lines = Answering(CATALOGUE, View.DECISION, "harbour", book).lines([Question(0, None, BAD)])
    assert lines.content.startswith(b'{"index":0,"error":')


def test_the_closing_line_counts_and_hashes(book: AnswerBook) -> None:
    tally, answering = Tally(), Answering(CATALOGUE, View.DECISION, "harbour", book)
    portions = [answering.lines(questions(GOOD[0], BAD)), answering.lines(questions(GOOD[1]))]
    for portion in portions:
        tally.add(portion)
    sent = b"".join(portion.content for portion in portions)
    closing_line = orjson.loads(tally.closing(*RELEASE))
    assert closing_line == {
        "complete": True,
        "count": 3,
        "failed": 1,
        "digest": hashlib.sha256(sent).hexdigest(),
        "release": {"label": CATALOGUE.label, "content_hash": CATALOGUE.content_hash},
    }
    assert orjson.loads(tally.closing(*RELEASE, is_complete=False))["complete"] is False


def test_portions_keep_the_order() -> None:
    assert list(chunks([b"a", b"b", b"c"], 2)) == [[b"a", b"b"], [b"c"]]
