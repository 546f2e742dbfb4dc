"""Answers are kept in bounded memory and written behind the caller's back."""

from __future__ import annotations

import threading
import time
from collections.abc import Sequence
from contextlib import closing
from dataclasses import replace

import pytest
from sqlalchemy.exc import OperationalError

from service.web.answers import AnswerBook, KeptAnswer, Scribe

KEPT = KeptAnswer("d1", "r", "1", None, "", "p", b"{}", b"body", b"decision")


class Database:
    """The database as the book sees it."""

    def __init__(self) -> None:
        self.rows: dict[str, KeptAnswer] = {}
        self.batches: list[int] = []
        self.readings = 0
        self.may_write = threading.Event()
        self.may_write.set()

    def write(self, answers: Sequence[KeptAnswer]) -> None:
        self.may_write.wait()
        self.batches.append(len(answers))
        if any(answer.digest == "poison" for answer in answers):
            message = "disk full"
            raise OSError(message)
        self.rows.update({answer.digest: answer for answer in answers})

    def read(self, digest: str) -> KeptAnswer | None:
        self.readings += 1
        return self.rows.get(digest)


@pytest.fixture
def database() -> Database:
    return Database()


def test_a_kept_answer_is_recalled_without_reading_and_written_at_the_latest_on_closing(
    database: Database,
) -> None:
    with closing(AnswerBook(10_000, database.write, database.read)) as book:
        book.keep(KEPT)
        assert book.recall("d1") is KEPT
        assert book.find("d1") is KEPT
    assert database.readings == 0
    assert database.rows == {"d1": KEPT}


def test_what_memory_has_lost_comes_from_the_database_and_is_remembered(database: Database) -> None:
    database.rows["d1"] = KEPT
    with closing(AnswerBook(10_000, database.write, database.read)) as book:
        assert book.recall("d1") is None
        assert book.find("d1") is KEPT
        assert book.recall("d1") is KEPT
        assert book.find("d2") is None


def test_memory_is_bounded_and_keeps_what_is_asked_for(database: Database) -> None:
    answers = [replace(KEPT, digest=f"d{number}") for number in range(5)]
    with closing(AnswerBook(3 * KEPT.size_bytes, database.write, database.read)) as book:
        for answer in answers[:3]:
            book.keep(answer)
        book.recall("d0")
        for answer in answers[3:]:
            book.keep(answer)
        assert [bool(book.recall(answer.digest)) for answer in answers] == [True, False, False, True, True]


def test_keeping_an_answer_again_takes_no_more_memory(database: Database) -> None:
    with closing(AnswerBook(2 * KEPT.size_bytes, database.write, database.read)) as book:
        for _ in range(10):
            book.keep(KEPT)
        book.keep(replace(KEPT, digest="d2"))
        assert book.recall("d1")


def test_many_answers_are_written_and_push_nothing_out(database: Database) -> None:
    with closing(AnswerBook(2 * KEPT.size_bytes, database.write, database.read)) as book:
        book.keep(KEPT)
        book.keep_many([replace(KEPT, digest=f"m{number}") for number in range(5)])
        book.settle()
        assert book.unwritten == 0
        assert sum(digest.startswith("m") for digest in database.rows) == 5
        assert book.recall("d1")
        assert book.recall("m1") is None
        book.keep_many([])


def test_an_answer_that_waits_to_be_written_can_be_found(database: Database) -> None:
    database.may_write.clear()
    with closing(AnswerBook(2 * KEPT.size_bytes, database.write, database.read)) as book:
        book.keep_many([KEPT])
        assert book.find("d1") is KEPT
        assert database.readings == 0
        database.may_write.set()
    assert database.rows == {"d1": KEPT}


def test_whoever_makes_many_answers_waits_for_those_before(database: Database) -> None:
    database.may_write.clear()
    with closing(AnswerBook(10_000, database.write, database.read)) as book:
        book.keep_many([replace(KEPT, digest=f"d{number}") for number in range(1000)])
        maker = threading.Thread(target=book.keep_many, args=([replace(KEPT, digest="late")],))
        maker.start()
        maker.join(0.05)
        assert maker.is_alive()
        assert book.find("late") is None
        database.may_write.set()
        maker.join()
    assert "late" in database.rows


def test_an_answer_larger_than_the_memory_is_written_all_the_same(database: Database) -> None:
    with closing(AnswerBook(10, database.write, database.read)) as book:
        book.keep(KEPT)
        assert book.recall("d1") is None
    assert "d1" in database.rows


def test_answers_that_come_together_are_written_together(database: Database) -> None:
    database.may_write.clear()
    scribe = Scribe(database.write)
    for number in range(100):
        scribe.write(replace(KEPT, digest=f"d{number}"))
    database.may_write.set()
    scribe.close()
    assert len(database.rows) == 100
    assert len(database.batches) <= 3


def test_a_failure_to_write_is_logged_and_does_not_end_the_writing(
    database: Database, caplog: pytest.LogCaptureFixture
) -> None:
    database.may_write.clear()
    scribe = Scribe(database.write)
    scribe.write(replace(KEPT, digest="poison"))
    database.may_write.set()
    while not database.batches:
        time.sleep(0.001)
    scribe.write(KEPT)
    scribe.close()
    assert list(database.rows) == ["d1"]
    assert "answers not stored" in caplog.messages


def test_a_view_has_its_own_bytes_and_digest() -> None:
    assert (KEPT.body_of("full"), KEPT.body_of("decision")) == (b"body", b"decision")
    assert KEPT.repr_digest_of("full") != KEPT.repr_digest_of("decision")


def test_answers_wait_for_a_database_in_trouble(database: Database, caplog: pytest.LogCaptureFixture) -> None:
    troubled = threading.Event()

    def write(answers: Sequence[KeptAnswer]) -> None:
        if troubled.is_set():
            raise OperationalError("INSERT", {}, Exception("the server closed the connection"))
        database.write(answers)

    troubled.set()
    scribe = Scribe(write)
    scribe.write(KEPT)
    while caplog.messages.count("answers not stored") < 2:
        time.sleep(0.001)
    scribe.wait(0)  # returns although nothing is written
    assert database.rows == {}
    troubled.clear()
    scribe.close()
    assert database.rows == {"d1": KEPT}


def test_closing_does_not_wait_for_a_database_that_stays_away(caplog: pytest.LogCaptureFixture) -> None:
    def write(_answers: Sequence[KeptAnswer]) -> None:
        raise OperationalError("INSERT", {}, Exception("the server closed the connection"))

    scribe = Scribe(write)
    scribe.write(KEPT)
    scribe.close()
    assert "answers not stored" in caplog.messages
