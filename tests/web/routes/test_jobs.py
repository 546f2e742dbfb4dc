"""Jobs over HTTP: put in, watched, read out; the results are those of the same work done at once."""

from __future__ import annotations

import time
from typing import Any

import anyio
import httpx
import orjson
import pytest

from service.access import Scope
from service.settings import Settings
from service.storage.repositories.jobs import Input, JobsRepository
from service.web.batch_input import NDJSON
from service.web.schemas.jobs import JobDocument, JobPage, ResultPage
from service.web.work import COUPLES_PER_CHUNK
from tests.factories.http import Running, bearer, issue_key, problem, running

pytestmark = pytest.mark.anyio

TYPED = {"Content-Type": NDJSON}
HEAD = {
    "surfaces": ["EN AW-6082-T6, anodized 15 µm", "A4-80", "CW024A", "S235JR"],
    "defaults": {"environment": "marine-atmosphere-0-100-m"},
}
ASSEMBLY = {
    "name": "mast foot",
    "programme": {"environment": "marine-atmosphere-0-100-m"},
    "parts": [
        {"part_number": "SK-1", "surface": "EN AW-6082-T6"},
        {"part_number": "SK-2", "surface": "A4-80"},
    ],
    "joints": [{"id": "J1", "first": "SK-1", "second": "SK-2", "geometry": "fastener"}],
}


def ndjson(count: int) -> bytes:
    couples = [[number % 4, (number // 4) % 4, number] for number in range(count)]
    return b"\n".join(orjson.dumps(line) for line in (HEAD, *couples))


async def started(
    client: httpx.AsyncClient, kind: str, headers: dict[str, str] | None = None, **sent: Any
) -> JobDocument:
    response = await client.post(f"/v1/jobs?kind={kind}", headers=headers, **sent)
    assert response.status_code == 202, response.text
    job = JobDocument.model_validate_json(response.content)
    assert response.headers["location"] == job.address
    return job


async def ended(client: httpx.AsyncClient, job: JobDocument) -> JobDocument:
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        found = JobDocument.model_validate_json((await client.get(job.address)).content)
        if found.state not in {"queued", "running"}:
            return found
        assert found.results is None
        await anyio.sleep(0.02)
    raise AssertionError(job)


async def test_a_batch_as_a_job_gives_the_lines_of_the_stream(seed_url: str) -> None:
    body = ndjson(COUPLES_PER_CHUNK + 10) + b"\nnonsense\n[0,99]"
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        stream = await client.post("/v1/couples/batch?view=decision", content=body, headers=TYPED)
        job = await started(client, "batch&view=decision", content=body, headers=TYPED)
        done = await ended(client, job)
        assert (done.state, done.items_done, done.items_total) == (
            "done",
            COUPLES_PER_CHUNK + 12,
            COUPLES_PER_CHUNK + 12,
        )
        assert done.progress_pct == 100.0
        assert done.results == f"{job.address}/results"
        lines = await client.get(done.results, headers={"Accept": NDJSON})
        assert lines.content == stream.content
        pages: list[dict[str, Any]] = []
        address: str | None = done.results
        while address:
            page = await client.get(address)
            read = ResultPage.model_validate_json(page.content)
            assert page.links.get("next", {}).get("url") == read.next
            pages += read.items
            address = read.next
    assert pages == [orjson.loads(line) for line in stream.content.splitlines()[:-1]]


async def test_an_assembly_as_a_job_gives_the_document_of_a_check(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        at_once = await client.post("/v1/assemblies/check", json=ASSEMBLY)
        assert at_once.status_code == 200, at_once.text
        done = await ended(client, await started(client, "assembly", json=ASSEMBLY))
        (result,) = (await client.get(str(done.results))).json()["items"]
    assert result["report"] == at_once.json()["report"]


async def test_a_job_that_can_never_succeed_says_why(seed_url: str) -> None:
    broken = {**ASSEMBLY, "joints": [{"id": "J1", "first": "SK-1", "second": "nothing"}]}
    async with running(Settings(database_url=seed_url)) as application:
        failed = await ended(application.client, await started(application.client, "assembly", json=broken))
        assert failed.state == "failed"
        assert failed.error is not None
        assert (failed.error.code, failed.error.pointer) == ("inconsistent-request", "/joints/0/second")
        refused = await application.client.get(f"{failed.address}/results")
    assert "retry-after" not in refused.headers
    problem(refused, 409, "job-not-done")


async def test_an_empty_portfolio_is_done_at_once(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        job = await started(application.client, "portfolio")
        assert (job.state, job.kind, job.items_total) == ("done", "portfolio", 0)
        page = await application.client.get(str(job.results))
    assert page.json() == {"items": [], "next": None}


async def test_the_same_sending_starts_one_job(seed_url: str) -> None:
    headers = {**TYPED, "Idempotency-Key": "batch 7"}
    async with running(Settings(database_url=seed_url)) as application:
        client = application.client
        first = await started(client, "batch", content=ndjson(3), headers=headers)
        again = await client.post("/v1/jobs?kind=batch", content=ndjson(3), headers=headers)
        assert again.headers["idempotency-replayed"] == "true"
        assert again.json()["id"] == first.id
        listed = JobPage.model_validate_json((await client.get("/v1/jobs")).content)
    assert [job.id for job in listed.items] == [first.id]


async def test_bodies_are_checked_before_a_job_is_made(client: httpx.AsyncClient) -> None:
    for kind, content, typed, status, slug in (
        ("batch", b'{"surfaces":1}', NDJSON, 400, "malformed-body"),
        ("batch", b"", "text/csv", 415, "unsupported-media-type"),
        ("assembly", b"nonsense", "application/json", 400, "malformed-body"),
        ("assembly", b'{"parts":[{"part_nr":"x"}]}', "application/json", 422, "invalid-request"),
        ("assembly", b"[]", NDJSON, 415, "unsupported-media-type"),
        ("batch&as_of=1999", b"", NDJSON, 404, "unknown-release"),
        ("baking", b"", NDJSON, 422, "invalid-request"),
    ):
        response = await client.post(
            f"/v1/jobs?kind={kind}", content=content, headers={"Content-Type": typed}
        )
        problem(response, status, slug)
    assert (await client.get("/v1/jobs")).json()["items"] == []


def waiting(application: Running, tenant_id: str) -> str:
    """Keep a job that no worker knows how to do."""
    with application.services.database.writing() as session:
        jobs = JobsRepository(session)
        job = jobs.add("knitting", b"{}", [Input(2, b"x")], created_by="a", tenant_id=tenant_id)
        jobs.join(job.id)
    return job.id


async def test_a_running_job_can_be_cancelled_and_has_no_results(started_apart: Running) -> None:
    client, job_id = started_apart.client, waiting(started_apart, "local")
    refused = await client.get(f"/v1/jobs/{job_id}/results")
    problem(refused, 409, "job-not-done")
    assert refused.headers["retry-after"] == "1"
    cancelled = JobDocument.model_validate_json((await client.delete(f"/v1/jobs/{job_id}")).content)
    assert (cancelled.state, cancelled.is_cancel_requested) == ("running", True)


@pytest.fixture
async def started_apart(published_url: str, anyio_backend: str) -> Any:
    async with running(Settings(database_url=published_url)) as application:
        yield application


async def test_jobs_of_others_do_not_exist(started_apart: Running, published_url: str) -> None:
    client, job_id = started_apart.client, waiting(started_apart, "local")
    key = bearer(issue_key(published_url, Scope.ASSEMBLIES, tenant_id="yard"))
    assert (await client.get("/v1/jobs", headers=key)).json()["items"] == []
    for method, path in (("GET", ""), ("GET", "/results"), ("DELETE", "")):
        response = await client.request(method, f"/v1/jobs/{job_id}{path}", headers=key)
        problem(response, 404, "unknown-job")
    problem(await client.get("/v1/jobs/job_0"), 404, "unknown-job")
    reader = bearer(issue_key(published_url, Scope.READ))
    problem(await client.get("/v1/jobs", headers=reader), 403, "insufficient-scope")


async def test_jobs_are_listed_in_pages_newest_first(started_apart: Running) -> None:
    ids = [waiting(started_apart, "local") for _ in range(3)]
    client = started_apart.client
    first = JobPage.model_validate_json((await client.get("/v1/jobs?limit=2&state=running")).content)
    rest = JobPage.model_validate_json((await client.get(str(first.next))).content)
    assert [job.id for job in (*first.items, *rest.items)] == ids[::-1]
    assert rest.next is None
    assert (await client.get("/v1/jobs?state=done")).json()["items"] == []
    for cursor in ("x", "Ng"):
        problem(await client.get(f"/v1/jobs?cursor={cursor}"), 404, "bad-cursor")
