"""A write that is sent twice happens once."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import update

from service.storage import Database
from service.storage.errors import IdempotencyConflictError
from service.storage.repositories.idempotency import ABANDONED_AFTER, IdempotencyRepository, Outcome
from service.storage.repositories.keys import TenantsRepository
from service.storage.tables import IdempotencyKeyRow, utc_now

OUTCOME = Outcome(201, {"Location": "/v1/proposals/p1"}, b'{"id":"p1"}')


@pytest.fixture(autouse=True)
def tenant(database: Database) -> None:
    with database.writing() as session:
        TenantsRepository(session).ensure("harbour", "Port of Skerrivoe")


def begin(database: Database, fingerprint: str = "f1", key: str = "k1", hours: float = 1) -> Outcome | None:
    with database.writing() as session:
        moment = utc_now() + timedelta(hours=hours)
        return IdempotencyRepository(session).begin("harbour", key, fingerprint, moment)


def finish(database: Database) -> None:
    with database.writing() as session:
        IdempotencyRepository(session).finish("harbour", "k1", OUTCOME)


def test_the_second_sending_gets_the_outcome_of_the_first(database: Database) -> None:
    assert begin(database) is None
    finish(database)
    assert begin(database) == OUTCOME


def test_a_key_for_another_request_is_refused(database: Database) -> None:
    begin(database)
    finish(database)
    with pytest.raises(IdempotencyConflictError) as caught:
        begin(database, "f2")
    assert not caught.value.is_running


def test_a_request_at_work_is_told_as_such(database: Database) -> None:
    begin(database)
    with pytest.raises(IdempotencyConflictError) as caught:
        begin(database)
    assert caught.value.is_running


def test_a_failed_request_gives_its_key_back(database: Database) -> None:
    begin(database)
    with database.writing() as session:
        IdempotencyRepository(session).release("harbour", "k1")
    assert begin(database) is None


def test_a_finished_key_is_not_given_back(database: Database) -> None:
    begin(database)
    finish(database)
    with database.writing() as session:
        IdempotencyRepository(session).release("harbour", "k1")
    assert begin(database) == OUTCOME


def test_keys_expire(database: Database) -> None:
    begin(database, hours=-1)
    assert begin(database, "f2") is None


def test_the_claim_of_a_dead_process_is_taken_over(database: Database) -> None:
    begin(database)
    with database.writing() as session:
        session.execute(update(IdempotencyKeyRow).values(created_at=utc_now() - 2 * ABANDONED_AFTER))
    assert begin(database) is None
