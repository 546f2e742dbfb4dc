"""New releases are heard of on PostgreSQL, and nothing is held where there is nothing to hear."""

from __future__ import annotations

import threading
from contextlib import closing

from sqlalchemy import text

from service.storage import Database
from service.storage.notices import Hearing, announce

PATIENCE_S = 30.0


def test_an_announcement_is_heard_when_it_is_committed(postgresql_url: str) -> None:
    heard = threading.Event()
    with closing(Database.open(postgresql_url)) as database, closing(Hearing(database, heard.set)):
        for _ in range(100):  # until it listens
            with database.writing() as session:
                announce(session)
            if heard.wait(0.3):
                break
        assert heard.is_set()
        heard.clear()
        with database.writing() as session:
            announce(session)
            assert not heard.wait(0.3)
        assert heard.wait(PATIENCE_S)


def test_a_connection_that_is_cut_is_made_again(postgresql_url: str) -> None:
    heard = threading.Event()
    with closing(Database.open(postgresql_url)) as database, closing(Hearing(database, heard.set)):
        for _ in range(100):
            with database.writing() as session:
                session.execute(
                    text("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE query LIKE 'LISTEN%'")
                )
                announce(session)
            if heard.wait(0.3):
                break
        for _ in range(100):
            with database.writing() as session:
                announce(session)
            if heard.wait(0.3):
                break
        assert heard.is_set()


def test_on_sqlite_nothing_listens(sqlite_url: str) -> None:
    before = threading.active_count()
    with closing(Database.open(sqlite_url)) as database:
        hearing = Hearing(database, lambda: None)
        with database.writing() as session:
            announce(session)
        assert threading.active_count() == before
        hearing.close()
