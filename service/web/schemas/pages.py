"""What all lists share."""

from __future__ import annotations

from service.web.schemas.fields import Schema, described

RELEASE_EXAMPLE = {"label": "2026.11.25-1", "content_hash": "9f" * 32}


class ReleaseIdentity(Schema):
    """The release that something was read from."""

    label: str = described("Label of the release, usable as `as_of`.", "2026.11.25-1")
    content_hash: str = described("SHA-256 of the release's export, in hexadecimal.", "9f" * 32)


class Page(Schema):
    """One page of a list; `next` leads to the page after it."""

    release: ReleaseIdentity = described(
        "Release that the whole walk through the list reads.", RELEASE_EXAMPLE
    )
    total: int = described("Number of items that the filters let through, over all pages.", 61, ge=0)
    next: str | None = described(
        "Address of the next page, also in the Link header; null on the last page.",
        "/v1/materials?cursor=eyJhZnRlciI6ImFsLTYwODItdDYifQ",
    )
