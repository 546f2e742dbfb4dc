from __future__ import annotations

import threading
import time

from service.storage import Database
from service.storage.repositories.changes import ChangesRepository


def test_a_reader_gets_what_came_after_its_last_line(tenants: Database) -> None:
    with tenants.writing() as session:
        lines = [ChangesRepository(session).append("release.published", f"r{n}", by="x") for n in range(4)]
    with tenants.reading() as session:
        feed = ChangesRepository(session)
        assert feed.since(0) == lines
        assert feed.since(lines[1].serial) == lines[2:]
        assert feed.since(0, limit=1) == lines[:1]
        assert feed.since(lines[-1].serial) == []
    assert lines[0].detail == {"by": "x"}


def test_a_tenants_lines_are_its_own(tenants: Database) -> None:
    with tenants.writing() as session:
        feed = ChangesRepository(session)
        for tenant in (None, "port", "yard"):
            feed.append("answer.changed", str(tenant), tenant)
    with tenants.reading() as session:
        feed = ChangesRepository(session)
        assert [line.subject for line in feed.since(0)] == ["None"]
        assert [line.subject for line in feed.since(0, tenant_id="port")] == ["None", "port"]


def test_lines_can_be_chosen_by_kind(tenants: Database) -> None:
    with tenants.writing() as session:
        feed = ChangesRepository(session)
        for kind in ("a", "b", "c"):
            feed.append(kind, kind)
    with tenants.reading() as session:
        assert [line.kind for line in ChangesRepository(session).since(0, kinds=("a", "c"))] == ["a", "c"]


def test_no_reader_can_miss_a_line_that_commits_late(tenants: Database) -> None:
    entered = threading.Event()

    def slow() -> None:
        with tenants.writing() as session:
            ChangesRepository(session).append("slow", "first")
            entered.set()
            time.sleep(0.2)

    thread = threading.Thread(target=slow)
    thread.start()
    assert entered.wait(5)
    with tenants.writing() as session:
        quick = ChangesRepository(session).append("quick", "second")
    with tenants.reading() as reader:
        seen = ChangesRepository(reader).since(0)
    thread.join()
    assert [line.subject for line in seen] == ["first", "second"]
    assert seen[-1] == quick
