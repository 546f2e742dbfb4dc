"""Jobs and their results as they are shown."""

from __future__ import annotations

import hashlib
from contextlib import closing
from typing import Any

import orjson
import pytest

from service.storage import Database
from service.storage.repositories.jobs import Input, Job, JobsRepository
from service.storage.repositories.keys import TenantsRepository
from service.web.job_documents import find_job, job_document, results_page, results_stream
from service.web.schemas.jobs import JobDocument, ResultPage
from service.web.work_errors import JobNotDoneError, UnknownJobError
from tests.factories.http import LABEL

LINES = (
    b'{"index":0,"answer":{}}\n{"index":1,"error":{}}\n',
    b'{"index":2,"ref":"\\"error\\":","answer":{}}\n',
)


@pytest.fixture
def done(published_url: str) -> Any:
    with closing(Database.open(published_url)) as database:
        with database.writing() as session:
            TenantsRepository(session).ensure("port", "Port")
            jobs = JobsRepository(session)
            inputs = [Input(2, b""), Input(1, b"")]
            job = jobs.add("batch", b"", inputs, created_by="a", tenant_id="port", release_label=LABEL)
            jobs.join(job.id)
            for chunk, lines in enumerate(LINES):
                jobs.finish_chunk(job.id, chunk, lines)
            jobs.succeed(job.id, b'{"judged":3}')
            yield_job = jobs.get(job.id)
        yield database, yield_job


Done = tuple[Database, Job]


def test_a_job_is_found_by_its_tenant_alone(done: Done) -> None:
    database, job = done
    assert find_job(database, job.id, "port") == (job, b'{"judged":3}')
    for job_id, tenant_id in ((job.id, "yard"), ("job_0", "port")):
        with pytest.raises(UnknownJobError):
            find_job(database, job_id, tenant_id)


def test_a_job_is_described(done: Done) -> None:
    _, job = done
    document = JobDocument.model_validate(job_document(job, b'{"judged":3}'))
    assert (document.items_total, document.items_done, document.progress_pct) == (3, 3, 100.0)
    assert (document.summary, document.results) == ({"judged": 3}, f"/v1/jobs/{job.id}/results")
    assert (document.release, document.eta_s) == (LABEL, None)


def test_results_are_read_page_by_page_in_their_bytes(done: Done) -> None:
    database, job = done
    first, following = results_page(database, job, "")
    assert orjson.loads(first)["next"] == following
    assert first.startswith(b'{"items":[{"index":0,"answer":{}},{"index":1,"error":{}}],')
    rest, nothing = results_page(database, job, following.partition("cursor=")[2])
    assert ResultPage.model_validate_json(rest).items[0]["index"] == 2
    assert nothing == ""


def test_results_are_streamed_with_a_closing_line(done: Done) -> None:
    database, job = done
    *lines, closing_line = b"".join(results_stream(database, job)).splitlines(keepends=True)
    assert b"".join(lines) == b"".join(LINES)
    found = orjson.loads(closing_line)
    assert (found["complete"], found["count"], found["failed"]) == (True, 3, 1)
    assert found["digest"] == hashlib.sha256(b"".join(LINES)).hexdigest()
    assert found["release"]["label"] == LABEL


def test_what_is_not_done_has_no_results(done: Done) -> None:
    database, _ = done
    with database.writing() as session:
        waiting = JobsRepository(session).add("batch", b"", [Input(1, b"")], created_by="a", tenant_id="port")
    for read in (lambda: results_page(database, waiting, ""), lambda: results_stream(database, waiting)):
        with pytest.raises(JobNotDoneError):
            read()
