"""Releases and what changed between two of them."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Literal

from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.fields import BodySchema, Schema, described, nested
from service.web.schemas.proposals import MAX_REASON, PLAIN, PROPOSAL_ID, Proposal

LABEL = "^[0-9A-Za-z][0-9A-Za-z.-]{0,63}$"


class ReleaseQuery(Schema):
    """Paging through releases."""

    limit: int = described("Most items in this page.", 20, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described(
        "Place to go on from, out of the `next` link of the page before.", None, None, max_length=1024
    )


class ExportQuery(Schema):
    """In which form a release is carried away."""

    form: Literal["file", "package"] = described(
        "`file`: one file that another server imports as it is. `package`: a Frictionless Data Package in an "
        "archive, to be read by any program.",
        "package",
        "file",
    )


class DifferenceQuery(Schema):
    """Which release to compare with."""

    since: str = described("Label of the earlier release.", "2026.11.25-1", min_length=1, max_length=64)
    table: str | None = described("Table to keep to.", "measurements", None, max_length=64)


class Release(Schema):
    """An immutable published state of the knowledge base."""

    label: str = described("Label of the release, usable as `as_of`.", "2026.11.25-1")
    content_hash: str = described("SHA-256 of the release's export, in hexadecimal.", "9f" * 32)
    published_at: datetime = described("When it was published.", "2026-11-25T10:00:00Z")
    published_by: str = described("Key or command that published it.", "faying setup")
    note: str = described("What it is about.", "First release")
    engine: str = described("Engine that was installed then.", "1.0.0")
    size_bytes: int = described("Size of its export.", 1_400_000)


class ReleasePage(Schema):
    """One page of releases, the newest first."""

    items: tuple[Release, ...] = nested("Releases, the newest first.")
    next: str | None = described(
        "Address of the next page, also in the Link header; null on the last page.",
        "/v1/releases?cursor=IjIwMjYuMTEuMjUtMSI",
    )


class FieldChange(Schema):
    """One field of one record that changed, or a whole record that came or went."""

    table: str = described("Table of the record.", "measurements")
    key: tuple[str, ...] = described("Key of the record.", ["flowing-ranges-graphite"])
    field: str = described("Field; empty where the whole record came or went.", "value")
    before: Any = described("Value in the earlier release.", -1.05)
    after: Any = described("Value in this release.", -1.03)
    kind: str = described("`added`, `removed`, `corrected` or `regraded`.", "corrected")


class ReleaseDifference(Schema):
    """What changed from one release to another."""

    before: str = described("Label of the earlier release.", "2026.11.24-1")
    after: str = described("Label of the later release.", "2026.11.25-1")
    count: int = described("Number of changes.", 1)
    changes: tuple[FieldChange, ...] = nested("Changes by table, key and field.")


class PublicationRequest(BodySchema):
    """How the next release is called."""

    label: str | None = described("Label; absent, the date and a number make one.", None, None, pattern=LABEL)
    note: str = described(
        "What it is about.", "Corrections of November.", "", pattern=PLAIN, max_length=MAX_REASON
    )


class ProposalLeftOut(Schema):
    """An approved proposal that could not come out; it stays approved."""

    id: str = described("Identifier of the proposal.", PROPOSAL_ID)
    reason: str = described("Why not.", "the row has changed since it was proposed")


class PublicationPreview(Schema):
    """What publishing would bring out now, and what that can touch. Nothing is changed by asking."""

    published: tuple[Proposal, ...] = nested("Approved proposals that would come out.")
    left_out: tuple[ProposalLeftOut, ...] = nested("Approved proposals that do not fit.")
    changes: tuple[FieldChange, ...] = nested("What would differ from the current release.")
    assemblies: int = described(
        "Stored assemblies, of all tenants, that would be judged again to know whether they change.", 12
    )
    joints: int = described("Joints in them.", 480)
    overlay_misfits: int = described(
        "Overlays that would name what is gone; their tenants are told by `overlay.misfit`.", 0
    )


class Publication(Schema):
    """A release and the proposals that it brought out."""

    release: Release = nested("The release; the current one again if nothing was to be published.")
    is_new: bool = described("Whether anything was published.", example=True)
    published: tuple[Proposal, ...] = nested("Proposals that came out with it.")
    left_out: tuple[ProposalLeftOut, ...] = nested("Approved proposals that did not fit.")
