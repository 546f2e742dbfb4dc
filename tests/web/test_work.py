"""Long work in the language of the API."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from typing import Any

import orjson
import pytest

from service.catalogue.catalogue import Catalogue
from service.jobs.errors import HopelessError, UnreadableAssemblyError
from service.jobs.inline import InlineWorkers
from service.jobs.kinds import Piece
from service.settings import Settings
from service.storage import Database
from service.storage.repositories.jobs import Job
from service.storage.repositories.keys import TenantsRepository
from service.storage.repositories.policies import PoliciesRepository
from service.web.answers import AnswerBook
from service.web.batch_input import JSON, NDJSON, read_batch
from service.web.errors import Fault, InvalidRequestError
from service.web.schemas.couples import View
from service.web.work import (
    COUPLES_PER_CHUNK,
    AssemblyWork,
    BatchWork,
    batch_job,
    hopeless,
    open_work,
    reader,
)
from tests.seed_catalogue import seed_catalogue

NOW = datetime(2026, 1, 1, tzinfo=UTC)
JOB = Job(
    id="job", kind="batch", state="running", tenant_id="port", created_by="a", release_label="seed",
    overlay_hash="", error=None, chunks=1, total=1, done=0, attempts=1, is_cancel_requested=False,
    created_at=NOW, started_at=NOW, heartbeat_at=NOW, finished_at=None,
)  # fmt: skip
PLACE = "marine-atmosphere-0-100-m"
HEAD = {"surfaces": ["A4-80", "CW024A"], "defaults": {"environment": PLACE}}
ASSEMBLY: dict[str, Any] = {
    "programme": {"environment": PLACE},
    "parts": [{"part_number": "1", "surface": "A4-80"}, {"part_number": "2", "surface": "CW024A"}],
    "joints": [{"id": "J1", "first": "1", "second": "2"}],
}


@pytest.fixture
def database(sqlite_url: str) -> Iterator[Database]:
    with closing(Database.open(sqlite_url)) as opened:
        yield opened


def release(job: Job) -> Catalogue:
    assert job.release_label == "seed"
    return seed_catalogue()


@pytest.fixture
def book() -> Iterator[AnswerBook]:
    with closing(AnswerBook(1_000_000, lambda _: None, lambda _: None)) as opened:
        yield opened


def piece(request: bytes, content: bytes) -> Piece:
    return Piece(JOB, request, 0, content)


def test_a_batch_is_taken_apart_and_each_part_knows_its_place(book: AnswerBook) -> None:
    couples = [[0, 1, number] for number in range(COUPLES_PER_CHUNK + 2)]
    body = b"\n".join(orjson.dumps(line) for line in (HEAD, *couples))
    request, inputs = batch_job(read_batch(io.BytesIO(body), NDJSON), View.DECISION, "port")
    assert [each.items for each in inputs] == [COUPLES_PER_CHUNK, 2]
    outcome = BatchWork(release, book).run(piece(request, inputs[1].request))
    lines = [orjson.loads(line) for line in outcome.result.splitlines()]
    assert [(line["index"], line["ref"]) for line in lines] == [
        (COUPLES_PER_CHUNK, COUPLES_PER_CHUNK),
        (COUPLES_PER_CHUNK + 1, COUPLES_PER_CHUNK + 1),
    ]
    assert all("verdict" in line["answer"] for line in lines)


def test_couples_of_a_document_may_span_lines(book: AnswerBook) -> None:
    body = b'{"couples":[{"first":0,\n"second":1},\n[1,\n0]],' + orjson.dumps(HEAD)[1:]
    request, inputs = batch_job(read_batch(io.BytesIO(body), JSON), View.DECISION, "port")
    lines = BatchWork(release, book).run(piece(request, inputs[0].request)).result.splitlines()
    assert ["answer" in orjson.loads(line) for line in lines] == [True, True]


def test_a_batch_without_couples_has_no_parts() -> None:
    _, inputs = batch_job(read_batch(io.BytesIO(orjson.dumps(HEAD)), NDJSON), View.FULL, "port")
    assert inputs == []


def test_an_assembly_is_checked_whole(book: AnswerBook, database: Database) -> None:
    outcome = AssemblyWork(release, book, database).run(piece(b"{}", orjson.dumps(ASSEMBLY)))
    assert orjson.loads(outcome.result)["report"]["totals"]["joints"] == 1
    assert outcome.result.count(b"\n") == 1


def test_an_assembly_that_does_not_fit_together_is_hopeless(book: AnswerBook, database: Database) -> None:
    broken = {**ASSEMBLY, "parts": ASSEMBLY["parts"] * 2}
    with pytest.raises(HopelessError) as raised:
        AssemblyWork(release, book, database).run(piece(b"{}", orjson.dumps(broken)))
    assert (raised.value.code, raised.value.pointer) == ("inconsistent-request", "/parts/2")


def test_work_is_told_what_a_request_would_be_told() -> None:
    error = hopeless(InvalidRequestError(Fault("body", "/x", "missing", "Field required")))
    assert (error.code, error.pointer, error.detail) == ("invalid-request", "/x", "Field required")


def test_what_was_stored_is_read_with_its_policy(database: Database) -> None:
    body = {**ASSEMBLY, "policy": {"name": "Port of Skerrivoe"}}
    readable = reader(database)("port", body, seed_catalogue())
    assert len(readable.assembly.joints) == 1
    assert (readable.house.name, readable.policy, readable.follows_policy) == (
        "Port of Skerrivoe",
        None,
        False,
    )


@pytest.mark.parametrize("reference", ["house", "house@1"])
def test_what_was_stored_is_read_with_the_policy_that_it_names(database: Database, reference: str) -> None:
    with database.writing() as session:
        TenantsRepository(session).ensure("port", "Port")
        PoliciesRepository(session).add("port", "house", "h1", {"name": "Port of Skerrivoe"}, "ada")
    readable = reader(database)("port", {**ASSEMBLY, "stored_policy": reference}, seed_catalogue())
    assert readable.house.name == "Port of Skerrivoe"
    assert (readable.policy, readable.follows_policy) == ("house@1", reference == "house")


@pytest.mark.parametrize(
    "body",
    [
        {},
        {"parts": 1},
        {**ASSEMBLY, "programme": {"environment": {"id": "gone", "temperature_C": 3.0}}},
        {**ASSEMBLY, "stored_policy": "gone"},
    ],
)
def test_what_this_release_cannot_read_says_why(database: Database, body: dict[str, Any]) -> None:
    with pytest.raises(UnreadableAssemblyError, match=r"\w"):
        reader(database)("port", body, seed_catalogue())


def test_work_is_opened_with_the_queue_of_its_database(sqlite_url: str, book: AnswerBook) -> None:
    with closing(Database.open(sqlite_url)) as database:
        work = open_work(Settings(database_url=sqlite_url, job_stale_s=8), database, book)
        assert isinstance(work.queue, InlineWorkers)
        assert sorted(work.bench.kinds) == ["assembly", "batch", "portfolio"]
        assert work.bench.beat_s == 2.0
