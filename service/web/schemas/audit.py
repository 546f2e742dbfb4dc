"""The audit trail."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.proposals import PLAIN, PROPOSAL_ID


class AuditQuery(Schema):
    """Which lines are listed."""

    actor: str | None = described(
        "Only what was done with this API key.", "key_0069f3b2c1d4e5", None, pattern=PLAIN, max_length=100
    )
    subject_kind: str | None = described(
        "Only what was done to this kind of thing.", "proposal", None, pattern=PLAIN, max_length=60
    )
    subject_id: str | None = described(
        "Only what was done to this thing.", PROPOSAL_ID, None, pattern=PLAIN, max_length=400
    )
    limit: int = described("Most lines in the page.", 50, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described("From the page before.", None, None, max_length=200)


class AuditEntry(Schema):
    """One step that somebody took. Lines are added, never changed and never deleted."""

    serial: int = described("Place in the trail; a later line has a larger one.", 1042)
    happened_at: datetime = described("When it was taken.", "2026-11-25T09:00:00Z")
    actor: str = described("API key or command that took it.", "key_0069f3b2c1d4e5")
    action: str = described("What was done.", "proposal.approved")
    subject_kind: str = described("Kind of thing that it was done to.", "proposal")
    subject_id: str = described("Identifier of that thing.", PROPOSAL_ID)
    detail: dict[str, Any] = described(
        "What this kind of step adds.", {"text": "Checked against the source, page 12."}
    )


class AuditPage(Schema):
    """Lines of the audit trail, the newest first."""

    items: tuple[AuditEntry, ...] = nested("The lines of this page.")
    next: str | None = described("Address of the next page, also in the Link header; null at the end.", None)
