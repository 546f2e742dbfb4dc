"""From a question to the bytes of its answer: the one path behind every route that judges."""

from __future__ import annotations

from fastapi import Request, Response

from service.catalogue.catalogue import Catalogue
from service.catalogue.overlay import hash_of_both
from service.judgement import DEFAULT_POLICY, Inquiry
from service.telemetry import Source
from service.web.answers import KeptAnswer
from service.web.conditional import is_match, quoted
from service.web.identity import Identity, identify
from service.web.inquiries import inquiry_of
from service.web.releases import pinned, release_for
from service.web.replies import JSON, VARY
from service.web.schemas.couples import CoupleRequest, View
from service.web.shortcut import Note
from service.web.state import principal, services
from service.web.together import Company, Together


async def answer_couple(request: Request, couple: CoupleRequest) -> Response:
    """Answer a couple: by 304 if the caller holds the answer, from memory, or by judging it.

    Raises
    ------
    InvalidInquiryError
        If the question names something that does not exist.
    UnknownReleaseError
        If ``as_of`` names no release.
    """
    release = await release_for(request, couple.as_of)
    inquiry = inquiry_of(couple, release.catalogue)
    identity = identify(inquiry, release.catalogue, DEFAULT_POLICY)
    cache_control = pinned(couple.as_of, release)
    headers = {"Cache-Control": cache_control, "Content-Location": _location(identity.digest, couple.view)}
    if request.method == "GET":
        # The hash under which the edge will look: that of the release used, or with as_of any current one.
        current = release.content_hash
        if couple.as_of:
            current = hash_of_both(services(request).shelf.current_hash, identity.overlay_hash)
        note = Note.of(identity.digest, couple.view, etag_of(identity.digest, couple.view), headers)
        query = request.scope["query_string"]
        services(request).shortcut.note(principal(request).tenant_id, current, query, note)
    if response := not_modified(request, identity.digest, couple.view, headers):
        return response
    kept = await kept_answer(request, inquiry, identity, release.catalogue)
    return response_of(kept, couple.view, headers)


def not_modified(request: Request, digest: str, view: View, headers: dict[str, str]) -> Response | None:
    """Return 304 if this is a GET by somebody who holds the answer."""
    etag = etag_of(digest, view)
    if request.method == "GET" and is_match(request.headers.get("if-none-match"), etag):
        return Response(status_code=304, headers={"ETag": etag, "Vary": VARY, **headers})
    return None


def response_of(kept: KeptAnswer, view: View, headers: dict[str, str]) -> Response:
    """Send a view of an answer."""
    etag = etag_of(kept.digest, view)
    all_headers = {"ETag": etag, "Vary": VARY, "Repr-Digest": kept.repr_digest_of(view), **headers}
    return Response(kept.body_of(view), headers=all_headers, media_type=JSON)


def etag_of(digest: str, view: View) -> str:
    """Return the entity tag of a view: the digest, told apart by view."""
    return quoted(digest if view is View.FULL else f"{digest}-{view}")


async def kept_answer(
    request: Request, inquiry: Inquiry, identity: Identity, catalogue: Catalogue
) -> KeptAnswer:
    """Return an answer from memory, or judge it and have it kept."""
    book = services(request).answers
    metrics = services(request).metrics
    if kept := book.recall(identity.digest):
        metrics.tally.answer(Source.KEPT)
        return kept
    company = Company(catalogue, DEFAULT_POLICY, principal(request).tenant_id)
    # A look for the tipping point takes long; nobody else shall wait for it.
    group = Together(metrics.group) if inquiry.find_tipping_point else services(request).together
    kept = await group.judged(company, inquiry, identity)
    metrics.tally.answer(Source.JUDGED)
    book.keep(kept)
    return kept


def _location(digest: str, view: View) -> str:
    address = f"/v1/answers/{digest}"
    return address if view is View.FULL else f"{address}?view={view}"


def is_visible(request: Request, kept: KeptAnswer) -> bool:
    """Whether the caller may see an answer: everybody's, or its own tenant's."""
    return kept.tenant_id in {None, principal(request).tenant_id}
