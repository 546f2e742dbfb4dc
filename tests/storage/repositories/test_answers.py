"""An issued answer is kept as its bytes and never changes."""

from __future__ import annotations

from dataclasses import replace

from service.storage import Database, publish, seed
from service.storage.repositories.answers import AnswersRepository, StoredAnswer
from tests.factories.knowledge import small_package


def published(database: Database) -> str:
    with database.writing() as session:
        seed(session, small_package())
        return publish(session, by="test").label


def test_answers_read_back_byte_for_byte(database: Database) -> None:
    answer = StoredAnswer("d1", published(database), "1.0.0", None, "", "p", b'{"q":1}', b'{"verdict":"x"}')
    with database.writing() as session:
        AnswersRepository(session).add([])
        AnswersRepository(session).add([answer, replace(answer, digest="d2")])
    with database.reading() as session:
        answers = AnswersRepository(session)
        assert answers.find("d1") == answer
        assert answers.find("d3") is None


def test_the_first_issue_counts(database: Database) -> None:
    answer = StoredAnswer("d1", published(database), "1.0.0", None, "", "p", b"{}", b"first")
    for body in (b"first", b"second"):
        with database.writing() as session:
            AnswersRepository(session).add([replace(answer, body=body)])
    with database.reading() as session:
        found = AnswersRepository(session).find("d1")
    assert found is not None
    assert found.body == b"first"


def test_the_answers_of_a_release_come_in_pages(database: Database) -> None:
    label = published(database)
    answers = [StoredAnswer(f"d{n}", label, "1", None, "", "p", b"{}", b"{}") for n in range(3)]
    with database.writing() as session:
        AnswersRepository(session).add(answers)
    with database.reading() as session:
        repository = AnswersRepository(session)
        first = repository.page(label, limit=2)
        rest = repository.page(label, limit=2, cursor=first.next_cursor)
        assert repository.page("another").items == ()
    assert [*first.items, *rest.items] == answers
    assert rest.next_cursor == ""
