"""Batches: what is sent, and the lines that come back."""

from __future__ import annotations

from typing import Any

from pydantic import Field

from service.web.schemas.answers import Answer, Decision
from service.web.schemas.couples import View
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity

COUPLE = {"ref": "joint-17", "first": 0, "second": 1}


class BatchQuery(Schema):
    """What holds for all couples of a batch."""

    view: View = described("How much of each answer is sent.", "decision", View.FULL)
    as_of: str | None = described(
        "Label of the release to judge by; the current one if absent.", "2026.11.25-1", None, max_length=64
    )


class BatchRequest(Schema):
    """A batch as one JSON document; as NDJSON the same comes in lines."""

    couples: tuple[Any, ...] = Field(
        description="Couples: objects as in a single question, with an optional `ref` that is echoed; an "
        "integer as `first` or `second` counts into `surfaces`. `[first, second]` and "
        "`[first, second, ref]` are couples too.",
        examples=[[COUPLE, [0, 1, "joint-18"]]],
    )
    surfaces: tuple[Any, ...] = described(
        "Surfaces that couples refer to by their place, counted from 0.",
        ["EN AW-6082-T6, anodized 15 µm", {"material": "A4-80"}],
        (),
    )
    defaults: dict[str, Any] = Field(
        default_factory=dict,
        description="Members that every couple has unless it says otherwise.",
        examples=[{"environment": "marine-atmosphere", "design_life_years": 15}],
    )


class ItemFault(Schema):
    """One thing in a couple that cannot be used."""

    location: str = described("Where it was sent: always `body` or `request`.", "body")
    pointer: str = described("JSON pointer into the couple.", "/first/text")
    code: str = described("Stable word for the fault.", "too_long")
    detail: str = described("What is wrong.", "String should have at most 2000 characters")
    suggestions: tuple[str, ...] = described("Near names.", [], ())


class ItemProblem(Schema):
    """Why a couple was not judged, with the members of a problem document."""

    type: str = described("Address of the type's page.", "/problems/invalid-request")
    title: str = described("The type in words.", "The request holds something that cannot be used")
    status: int = described("Status that a single question would have had.", 422)
    detail: str = described("What is wrong.", "No environment has this identifier.")
    errors: tuple[ItemFault, ...] = nested("Every fault of this couple.", ())


class BatchItem(Schema):
    """The line of one couple: its answer, in the bytes that a single question would get, or an error."""

    index: int = described("Place of the couple in the batch, counted from 0.", 0)
    ref: str | int | None = described("What the caller called it.", "joint-17", None)
    answer: Answer | Decision | None = nested("The answer.", None)
    error: ItemProblem | None = nested("Why there is none.", None)


class BatchClosing(Schema):
    """The last line. A stream that ends without it, or with `complete` false, is not whole."""

    complete: bool = described("Whether every couple has its line.", example=True)
    count: int = described("Lines before this one.", 2)
    failed: int = described("How many of them are errors.", 0)
    digest: str = described("SHA-256 of every byte before this line.", "5b" * 32)
    release: ReleaseIdentity = described("Release that all were judged by.", RELEASE_EXAMPLE)
