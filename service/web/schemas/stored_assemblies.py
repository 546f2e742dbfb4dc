"""Assemblies that are kept under watch."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.jobs import JobDocument


class StoredQuery(Schema):
    """Which stored assemblies are listed."""

    limit: int = described("Most assemblies in the page.", 50, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described("From the page before.", "Im5pIg", None, max_length=200)


class StoredAssembly(Schema):
    """An assembly under watch: it is judged again when a release can change what was said about it."""

    name: str = described("What the caller calls it.", "tide-gauge")
    version: int = described("Number of its edits; also its entity tag.", 3)
    joints: int = described("Joints that the last report judged, assumed ones included.", 34)
    verdict: str | None = described(
        "Verdict of its worst joint; null while there is no report.", "unsuitable"
    )
    totals: dict[str, Any] | None = described("How the joints came out.", {"by_verdict": {"suitable": 12}})
    release: str | None = described("Label of the release that the last report was made by.", "2026.11.25-1")
    holds_under: str | None = described(
        "Newest release under which that report is known to hold; null while it is judged anew.",
        "2026.12.01-1",
    )
    stored_policy: str | None = described(
        "Version of the stored policy that the last report was judged by; null if none is named.",
        "port-of-skerrivoe@3",
    )
    created_at: datetime = described("When it was stored first.", "2026-11-25T09:00:00Z")
    updated_at: datetime = described("When it was edited last.", "2026-11-25T09:00:00Z")
    report: str | None = described("Where the last report is.", "/v1/assemblies/stored/tide-gauge/report")


class StoredAssemblyWithBody(StoredAssembly):
    """The same with what was stored."""

    body: dict[str, Any] = described("What was stored.", {"name": "Skerrivoe tide gauge", "parts": []})


class StoringOutcome(Schema):
    """An assembly as it was stored, and the job that judges it."""

    assembly: StoredAssembly = nested("The assembly.")
    job: JobDocument = nested("The job that judges it; its end is also told in `/v1/changes`.")


class StoredPage(Schema):
    """Stored assemblies, the oldest first."""

    items: tuple[StoredAssembly, ...] = nested("The assemblies of this page.")
    next: str | None = described("Address of the next page, also in the Link header; null at the end.", None)
