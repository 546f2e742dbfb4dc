"""Long work: put in once, waited for, read out whole."""

from __future__ import annotations

from typing import Any

import httpx
import pytest

from service.client import AsyncClient, Client, JobError, OutOfTimeError
from service.client.document.results import JobDocument
from tests.factories.scripted import scripted

SURFACES = ["EN AW-6082-T6", "A4-80"]
DEFAULTS = {"environment": "marine-atmosphere-0-100-m"}
COUPLES = [
    {"first": 0, "second": 1, "design_life_years": 1 + number % 25, "ref": number} for number in range(700)
]
PARTS = [{"part_number": "SK-1", "surface": "EN AW-6082-T6"}, {"part_number": "SK-2", "surface": "A4-80"}]
PATIENCE_S = 60.0


def job(state: str, **more: Any) -> httpx.Response:
    document = {
        "id": "job_1", "address": "/v1/jobs/job_1", "kind": "batch", "state": state, "release": None,
        "items_total": 2, "items_done": 1, "progress_pct": 50, "items_per_minute": None, "eta_s": None,
        "is_cancel_requested": False, "created_at": "2026-11-25T09:00:00Z", "started_at": None,
        "finished_at": None, "error": None, "summary": None, "results": None, **more,
    }  # fmt: skip
    return httpx.Response(200, json=document)


def test_a_batch_in_the_background_says_what_one_at_once_says(client: Client) -> None:
    seen: list[JobDocument] = []
    started = client.start_batch(COUPLES, surfaces=SURFACES, defaults=DEFAULTS, only_decisions=True)
    done = client.wait_for_job(started.id, timeout_s=PATIENCE_S, on_progress=seen.append)
    assert (done.state, done.items_done) == ("done", len(COUPLES))
    assert seen[-1] == done
    later = list(client.batch_decisions(done.id))
    assert later == list(client.decide_couples(COUPLES, surfaces=SURFACES, defaults=DEFAULTS))
    assert [item.ref for item in later] == list(range(len(COUPLES)))
    assert len(list(client.job_results(done.id))) == len(COUPLES)
    assert done.id in {each.id for each in client.list_jobs(kind="batch")}


def test_whole_answers_can_be_had_as_well(client: Client) -> None:
    started = client.start_batch(COUPLES[:3], surfaces=SURFACES, defaults=DEFAULTS)
    client.wait_for_job(started.id, timeout_s=PATIENCE_S)
    assert [item.value().joint.design_life_years for item in client.batch_answers(started.id)] == [1, 2, 3]


def test_the_same_key_starts_one_job(client: Client) -> None:
    first = client.start_batch(COUPLES[:1], surfaces=SURFACES, defaults=DEFAULTS, idempotency_key="bom 7")
    again = client.start_batch(COUPLES[:1], surfaces=SURFACES, defaults=DEFAULTS, idempotency_key="bom 7")
    assert first.id == again.id
    other = client.start_batch(COUPLES[:1], surfaces=SURFACES, defaults=DEFAULTS)
    assert other.id != first.id
    client.cancel_job(other.id)


def test_an_assembly_in_the_background_gives_the_report_of_one_at_once(client: Client) -> None:
    body: Any = {"parts": PARTS, "joints": [{"id": "J1", "first": "SK-1", "second": "SK-2"}]}
    body["programme"] = {"environment": DEFAULTS["environment"]}
    started = client.start_assembly(**body)
    client.wait_for_job(started.id, timeout_s=PATIENCE_S)
    assert client.assembly_result(started.id).report == client.check_assembly(**body).report


@pytest.mark.anyio
async def test_a_portfolio_is_judged_again(async_client: AsyncClient) -> None:
    body: Any = {"parts": PARTS, "joints": [{"id": "J1", "first": "SK-1", "second": "SK-2"}]}
    stored = await async_client.store_assembly("tide-gauge", body)
    await async_client.wait_for_job(stored.job.id, timeout_s=PATIENCE_S)
    assert (await async_client.get_stored_report("tide-gauge")).totals.joints == 1
    started = await async_client.start_portfolio()
    done = await async_client.wait_for_job(started.id, timeout_s=PATIENCE_S)
    assert done.state == "done"
    assert [each.name async for each in async_client.list_stored_assemblies()] == ["tide-gauge"]
    await async_client.remove_stored_assembly("tide-gauge")
    assert [each async for each in async_client.list_stored_assemblies()] == []


def test_pauses_between_looks_grow(monkeypatch: pytest.MonkeyPatch) -> None:
    pauses: list[float] = []
    monkeypatch.setattr("time.sleep", pauses.append)
    client, _ = scripted(*[job("running")] * 8, job("done"))
    assert client.wait_for_job("job_1").state == "done"
    assert pauses == [0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 5.0, 5.0]


@pytest.mark.parametrize("state", ["failed", "cancelled"])
def test_a_job_that_came_to_nothing_raises(state: str) -> None:
    client, _ = scripted(job(state, error={"code": "x", "detail": "Part 'SK-1112' stands twice."}))
    with pytest.raises(JobError, match=rf"job job_1 is {state}: Part 'SK-1112' stands twice\.") as caught:
        client.wait_for_job("job_1")
    assert caught.value.job.state == state


def test_waiting_ends_in_time() -> None:
    client, _ = scripted(job("running"))
    with pytest.raises(OutOfTimeError, match=r"job job_1 is running after 0\.05 s, 50 % done"):
        client.wait_for_job("job_1", timeout_s=0.05)
