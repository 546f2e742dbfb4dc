"""Long work: what can be asked for, how far it is, what came out."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Any

from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.couples import View
from service.web.schemas.fields import Schema, described, nested

JOB_ID = "job_0069f3b2c1d4e55f2a9c3b7e1d4f60"


class JobKind(StrEnum):
    """Kinds of long work: `batch` judges couples, `assembly` checks one, `portfolio` all that are stored."""

    BATCH = "batch"
    ASSEMBLY = "assembly"
    PORTFOLIO = "portfolio"


class JobState(StrEnum):
    """Where a job stands; results can be read when it is `done`."""

    QUEUED = "queued"
    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"


class StartQuery(Schema):
    """What kind of work the body asks for."""

    kind: JobKind = described("Kind of work.", "batch")
    view: View = described("How much of each answer of a batch is kept.", "decision", View.FULL)
    as_of: str | None = described(
        "Label of the release to judge by; the current one if absent.", "2026.11.25-1", None, max_length=64
    )


class JobsQuery(Schema):
    """Which jobs are listed."""

    state: JobState | None = described("In this state only.", "running", None)
    kind: JobKind | None = described("Of this kind only.", "batch", None)
    limit: int = described("Most jobs in the page.", 50, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described("From the page before.", "Im5pIg", None, max_length=200)


class ResultsQuery(Schema):
    """Which page of the results."""

    cursor: str | None = described("From the page before.", "IjAi", None, max_length=200)


class JobFailure(Schema):
    """Why a job has failed."""

    code: str = described("Stable word for the reason.", "inconsistent-request")
    detail: str = described("What is wrong.", "Part 'SK-1112' stands twice.")
    pointer: str | None = described(
        "JSON pointer into the body, where something in it is to blame.", "/parts/3", None
    )


class JobDocument(Schema):
    """One piece of long work."""

    id: str = described("Identifier.", JOB_ID)
    address: str = described("Where to ask for it again.", f"/v1/jobs/{JOB_ID}")
    kind: str = described("Kind of work.", "batch")
    state: JobState = described("Where it stands.", "running")
    release: str | None = described("Label of the release that all of it is judged by.", "2026.11.25-1")
    items_total: int = described("Couples or joints in all, as far as known beforehand.", 20_000)
    items_done: int = described("How many of them are done.", 4096)
    progress_pct: float = described("The same as a share.", 20.5)
    items_per_minute: float | None = described("Mean pace since it was started.", 24_000.0)
    eta_s: float | None = described("Time that is left at this pace.", 39.8)
    is_cancel_requested: bool = described("Whether its end was asked for.", example=False)
    created_at: datetime = described("When it was asked for.", "2026-11-25T09:00:00Z")
    started_at: datetime | None = described("When a worker took it first.", "2026-11-25T09:00:01Z")
    finished_at: datetime | None = described("When it ended.", None)
    error: JobFailure | None = nested("Why it has failed.")
    summary: dict[str, Any] | None = described(
        "What came out in brief, if the kind has such.", {"judged": 12}
    )
    results: str | None = described("Where its results are; null until they can be read.", None)


class JobPage(Schema):
    """Jobs, the newest first."""

    items: tuple[JobDocument, ...] = nested("The jobs of this page.")
    next: str | None = described("Address of the next page, also in the Link header; null at the end.", None)


class ResultPage(Schema):
    """Results of a job in order: lines of a batch, the report on an assembly, stored assemblies in brief."""

    items: tuple[dict[str, Any], ...] = described(
        "The results of this page.", [{"index": 0, "ref": "joint-17"}]
    )
    next: str | None = described("Address of the next page, also in the Link header; null at the end.", None)
