"""Proposals to change the knowledge base, what was said of them, and the audit trail."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import Field

from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.fields import LOOSE, BodySchema, Schema, described, nested

PROPOSAL_ID = "proposal_0069f3b2c1d4e55f2a9c3b7e1d4f60"
MAX_REASON = 4000
READABLE = r"^[^\u0000-\u0008\u000b-\u001f\u007f]*[^\u0000-\u0020\u007f][^\u0000-\u0008\u000b-\u001f\u007f]*$"
"""Text with at least one visible character and without any that only machines read."""

PLAIN = r"^[^\u0000-\u0008\u000b-\u001f\u007f]*$"
"""Text that may be empty, without characters that only machines read."""

TableName = Literal[
    "sources", "electrodes", "materials", "designations", "finishes", "finish_substrates", "compounds",
    "electrolytes", "environments", "scales", "limits", "measurements", "kinetics", "rules", "mitigations",
]  # fmt: skip
KeyPart = Annotated[str, Field(min_length=1, max_length=400, pattern=READABLE)]
Key = Annotated[tuple[KeyPart, ...], LOOSE]
KindWord = Literal["add", "change", "remove"]
StateWord = Literal["open", "approved", "rejected", "withdrawn", "published"]
FIGURE_CHANGED = {"value": -1.02, "note": "Corrected after the second printing of the source."}
REASON = "The second printing of the source corrects this figure."


class ProposalRequest(BodySchema):
    """A new record, or other values for some fields of one that is there."""

    table: TableName = described("Table of the record.", "measurements")
    key: Key | None = described(
        "Key of the record that is to change; absent for a new one. One text, or two or three where several "
        "fields together are the key.",
        ["flowing-points-zinc"],
        None,
        min_length=1,
        max_length=3,
    )
    record: dict[str, Any] = described(
        "Fields of the record. With a key those that change; without, all of them. A figure names its "
        "source, which may itself be proposed.",
        FIGURE_CHANGED,
        min_length=1,
        max_length=60,
    )
    reason: str = described("Why, for whoever reviews it.", REASON, pattern=READABLE, max_length=MAX_REASON)


class WithdrawalRequest(BodySchema):
    """A record that is to be used no longer."""

    table: TableName = described("Table of the record.", "measurements")
    key: Key = described("Key of the record.", ["flowing-points-zinc"], min_length=1, max_length=3)
    reason: str = described(
        "Why; it is shown wherever the figure is.",
        "Measured on another alloy.",
        pattern=READABLE,
        max_length=MAX_REASON,
    )


class CommentRequest(BodySchema):
    """A remark on a proposal."""

    text: str = described("The remark.", "Which page of the source?", pattern=READABLE, max_length=MAX_REASON)


class ReviewRequest(BodySchema):
    """A decision on a proposal that somebody else has made."""

    decision: Literal["approve", "reject"] = described("`approve` or `reject`.", "approve")
    text: str = described(
        "Why; a rejection needs it.",
        "Checked against the source, page 12.",
        "",
        pattern=PLAIN,
        max_length=MAX_REASON,
    )


class RetractionRequest(BodySchema):
    """Taking a proposal of one's own back."""

    reason: str = described("Why.", "A better source is on its way.", pattern=READABLE, max_length=MAX_REASON)


class ProposalsQuery(Schema):
    """Which proposals are listed."""

    state: StateWord | None = described("Only those in this state.", "open", None)
    kind: KindWord | None = described("Only those of this kind.", "change", None)
    table: str | None = described(
        "Only those about this table.", "measurements", None, pattern=PLAIN, max_length=64
    )
    key: str | None = described(
        "Only those about the record with this key.",
        "flowing-points-zinc",
        None,
        pattern=PLAIN,
        max_length=400,
    )
    proposed_by: str | None = described(
        "Only those made with the API key of this identifier.",
        "key_0069f3b2c1d4e5",
        None,
        pattern=PLAIN,
        max_length=100,
    )
    limit: int = described("Most proposals in the page.", 50, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described("From the page before.", None, None, max_length=200)


class ProposedField(Schema):
    """One field that a proposal changes."""

    field: str = described("The field.", "value")
    before: Any = described("What its author saw; null in a new record.", -1.03)
    after: Any = described("What is proposed; null where the record goes.", -1.02)


class Proposal(Schema):
    """A proposed change to one record, and how far it has come."""

    id: str = described("Identifier.", PROPOSAL_ID)
    address: str = described("Where it is.", f"/v1/proposals/{PROPOSAL_ID}")
    kind: str = described("`add`, `change` or `remove`.", "change")
    table: str = described("Table of the record.", "measurements")
    key: tuple[str, ...] = described("Key of the record.", ["flowing-points-zinc"])
    reason: str = described("Why it was proposed.", REASON)
    state: str = described("`open`, `approved`, `rejected`, `withdrawn` or `published`.", "open")
    proposed_by: str = described("API key that made it.", "key_0069f3b2c1d4e5")
    created_at: datetime = described("When it was made.", "2026-11-25T09:00:00Z")
    closed_at: datetime | None = described("When it came to its end.", "2026-11-26T09:00:00Z")
    closing_reason: str = described("Why it was rejected or taken back.", "")
    release: str | None = described("Release that brought it out.", "2026.12.01-1")
    differences: tuple[ProposedField, ...] = nested("Every field that would change.")


class ProposalComment(Schema):
    """A remark."""

    id: str = described("Identifier.", "comment_0069f3b2c1d4e5")
    author: str = described("API key of its author.", "key_0069f3b2c1d4e5")
    text: str = described("The remark.", "Which page of the source?")
    created_at: datetime = described("When it was made.", "2026-11-25T10:00:00Z")


class ProposalReview(Schema):
    """A decision."""

    id: str = described("Identifier.", "review_0069f3b2c1d4e5")
    reviewer: str = described("API key of the reviewer.", "key_0069f3b2c1d4e6")
    decision: str = described("`approve` or `reject`.", "approve")
    text: str = described("Why.", "Checked against the source, page 12.")
    created_at: datetime = described("When it was made.", "2026-11-25T11:00:00Z")


class ProposalDetail(Proposal):
    """A proposal with everything that was said of it."""

    comments: tuple[ProposalComment, ...] = nested("Remarks, the oldest first.")
    reviews: tuple[ProposalReview, ...] = nested("Decisions, the oldest first.")


class ProposalPage(Schema):
    """Proposals, the oldest first."""

    items: tuple[Proposal, ...] = nested("The proposals of this page.")
    next: str | None = described("Address of the next page, also in the Link header; null at the end.", None)
