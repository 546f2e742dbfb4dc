"""An answer given under one release stays what it was, however much is published afterwards."""

from __future__ import annotations

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from service.storage import Database, Shelf, publish, seed
from service.storage.repositories.answers import AnswersRepository, StoredAnswer
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.factories.knowledge import small_package

LIMIT = small_package()["limits"][0]


def answered(database: Database, label: str) -> bytes:
    """Answer from a catalogue alone, as the service does."""
    return f"limit {Shelf(database).as_of(label).limits['normal'].limit_V} V under {label}".encode()


@pytest.fixture
def issued(database: Database) -> StoredAnswer:
    with database.writing() as session:
        seed(session, small_package())
        label = publish(session, by="test").label
    body = answered(database, label)
    answer = StoredAnswer("digest", label, "1", None, "", "", b"the question", body)
    with database.writing() as session:
        AnswersRepository(session).add([answer])
    return answer


def publish_ten_more(database: Database) -> None:
    for step in range(10):
        with database.writing() as session:
            KnowledgeRepository(session).update("limits", [LIMIT | {"limit_V": step / 100}])
            publish(session, by="test")


def test_stored_bytes_are_served_after_ten_later_releases(database: Database, issued: StoredAnswer) -> None:
    publish_ten_more(database)
    with database.reading() as session:
        assert AnswersRepository(session).find("digest") == issued


def test_asking_again_as_of_that_release_gives_the_same_bytes(
    database: Database, issued: StoredAnswer
) -> None:
    publish_ten_more(database)
    assert (
        answered(database, issued.release_label)
        == issued.body
        == (f"limit 0.25 V under {issued.release_label}".encode())
    )


def test_an_issued_answer_cannot_be_changed(database: Database, issued: StoredAnswer) -> None:
    with pytest.raises(DBAPIError, match="answers is append-only"), database.writing() as session:
        session.execute(text("UPDATE answers SET body = request"))
    with database.reading() as session:
        assert AnswersRepository(session).find("digest") == issued


def test_the_release_of_an_answer_cannot_be_deleted(database: Database, issued: StoredAnswer) -> None:
    with pytest.raises(DBAPIError, match="append-only"), database.writing() as session:
        session.execute(text("DELETE FROM releases"))
