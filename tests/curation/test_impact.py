from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

import pytest

from service.curation import Impact, announce, impact
from service.storage import Database, current_release
from service.storage.repositories.answers import AnswersRepository, StoredAnswer
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.changes import ChangesRepository
from service.storage.repositories.keys import TenantsRepository


def answer(label: str, number: int, verdict: str, tenant_id: str | None = None) -> StoredAnswer:
    body = json.dumps({"verdict": verdict, "release": label}).encode()
    return StoredAnswer(f"digest-{number:04}", label, "1", tenant_id, "", "", b"%d" % number, body)


@pytest.fixture
def label(knowledge: Database) -> str:
    with knowledge.reading() as session:
        release = current_release(session)
    assert release is not None
    return release.label


def essence(body: bytes) -> Mapping[str, Any]:
    return {name: value for name, value in json.loads(body).items() if name != "release"}


def unsuitable_if_odd(answers: Sequence[StoredAnswer]) -> list[bytes | None]:
    def again(stored: StoredAnswer) -> bytes | None:
        number = int(stored.request)
        if number == 7:
            return None
        return json.dumps({"verdict": "unsuitable" if number % 2 else "suitable", "release": "new"}).encode()

    return [again(stored) for stored in answers]


def compared(database: Database, label: str) -> Impact:
    with database.reading() as session:
        return impact(session, label, "new", unsuitable_if_odd, essence)


def test_only_answers_whose_essence_differs_are_reported(knowledge: Database, label: str) -> None:
    with knowledge.writing() as session:
        AnswersRepository(session).add([answer(label, number, "suitable") for number in range(8)])
    found = compared(knowledge, label)
    assert found.examined == 8
    assert [changed.digest for changed in found.changed] == ["digest-0001", "digest-0003", "digest-0005"]
    assert found.changed[0].differences == {"verdict": ("suitable", "unsuitable")}
    assert found.failed == ("digest-0007",)


def test_more_answers_than_one_batch_are_all_looked_at(knowledge: Database, label: str) -> None:
    with knowledge.writing() as session:
        AnswersRepository(session).add([answer(label, number, "suitable") for number in range(8, 1208)])
    found = compared(knowledge, label)
    assert (found.examined, len(found.changed)) == (1200, 600)


def test_nothing_issued_is_nothing_changed(knowledge: Database, label: str) -> None:
    assert compared(knowledge, label) == Impact(label, "new", 0, (), ())


def test_changes_are_told_to_those_who_may_see_them(knowledge: Database, label: str) -> None:
    with knowledge.writing() as session:
        TenantsRepository(session).ensure("port", "Port")
        AnswersRepository(session).add([answer(label, 1, "suitable"), answer(label, 3, "suitable", "port")])
    found = compared(knowledge, label)
    with knowledge.writing() as session:
        announce(session, found, by="cleo")
    with knowledge.reading() as session:
        feed = ChangesRepository(session)
        kinds = ("answer.changed",)
        assert [line.subject for line in feed.since(0, kinds=kinds)] == ["digest-0001"]
        assert [line.subject for line in feed.since(0, tenant_id="port", kinds=kinds)] == [
            "digest-0001",
            "digest-0003",
        ]
        line = AuditRepository(session).page().items[0]
    assert line.action == "release.compared"
    assert line.detail == {"before": label, "examined": 2, "changed": 2, "failed": 0}
