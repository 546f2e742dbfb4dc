"""Progress and pace of a job."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from service.jobs.progress import Progress
from service.storage.repositories.jobs import Job

START = datetime(2026, 1, 1, tzinfo=UTC)
JOB = Job(
    id="job", kind="batch", state="running", tenant_id=None, created_by="a", release_label=None,
    overlay_hash="", error=None, chunks=10, total=1000, done=0, attempts=1, is_cancel_requested=False,
    created_at=START, started_at=START, heartbeat_at=START, finished_at=None,
)  # fmt: skip
LATER = START + timedelta(seconds=20)


def test_nothing_is_foretold_before_the_first_items_are_done() -> None:
    assert Progress.of(JOB, LATER) == Progress(0.0, None, None)
    assert Progress.of(replace(JOB, state="queued", started_at=None), LATER) == Progress(0.0, None, None)


def test_the_rest_is_expected_to_go_at_the_mean_pace() -> None:
    assert Progress.of(replace(JOB, done=400), LATER) == Progress(0.4, 20.0, 30.0)


def test_a_job_that_is_over_has_its_pace_and_no_end_to_wait_for() -> None:
    over = replace(JOB, state="done", done=1000, finished_at=START + timedelta(seconds=10))
    assert Progress.of(over, LATER) == Progress(1.0, 100.0, None)
    stopped = replace(JOB, state="cancelled", done=500, finished_at=LATER)
    assert Progress.of(stopped, LATER) == Progress(0.5, 25.0, None)


def test_a_job_with_nothing_to_do_is_complete() -> None:
    assert Progress.of(replace(JOB, state="done", total=0), LATER) == Progress(1.0, None, None)
