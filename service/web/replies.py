"""Ready bytes as responses: entity tags, caching, and 304 before anything is computed."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping

from fastapi import Request, Response

from service.web.conditional import is_match, quoted, repr_digest
from service.web.pagination import link_header
from service.web.representation import canonical

JSON = "application/json"
MUST_ASK_AGAIN = "public, no-cache"
"""May be kept by anybody, and is asked about each time: the current release may have changed."""

PINNED = "public, max-age=3600"
"""Names its release, so only another version of the service can change how it is written."""

FOR_EVER = "public, max-age=31536000, immutable"
FOR_EVER_PRIVATE = "private, max-age=31536000, immutable"
PRIVATE = "private, no-cache"
NO_STORE: Mapping[str, str] = {"Cache-Control": "private, no-store"}
"""Headers of what changes by itself and is the caller's alone."""

VARY = "Accept, Authorization"


def page_reply(body: bytes, links: Mapping[str, str | None]) -> Response:
    """Answer with a page of what changes by itself; links without an address are left out."""
    there = {relation: address for relation, address in links.items() if address}
    headers = {**NO_STORE, "Link": link_header(there)} if there else NO_STORE
    return Response(body, headers=headers, media_type=JSON)


def tag_of(*parts: object) -> str:
    """Return an entity tag, unquoted, of everything that a response depends on."""
    return hashlib.sha256(canonical(parts)).hexdigest()


def reply(
    request: Request,
    tag: str,
    write: Callable[[], bytes],
    *,
    cache_control: str = MUST_ASK_AGAIN,
    headers: Mapping[str, str] | None = None,
) -> Response:
    """Answer 304 if the caller holds what ``tag`` names, else the bytes that ``write`` gives."""
    etag = quoted(tag)
    common = {"ETag": etag, "Cache-Control": cache_control, "Vary": VARY, **(headers or {})}
    if is_match(request.headers.get("if-none-match"), etag):
        return Response(status_code=304, headers=common)
    body = write()
    return Response(body, headers={**common, "Repr-Digest": repr_digest(body)}, media_type=JSON)
