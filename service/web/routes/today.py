"""Whether an answer of the past would be given today."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.curation.errors import UnknownOverlayError
from service.judgement import DEFAULT_POLICY, ENGINE_VERSION
from service.web.answering import is_visible
from service.web.errors import UnknownAnswerError
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import release_for, release_then
from service.web.replies import PRIVATE, reply, tag_of
from service.web.routes.couples import Digest
from service.web.routing import StrictRoute
from service.web.schemas.today import AnswerToday
from service.web.state import principal, services
from service.web.today import Today

router = APIRouter(prefix="/v1", tags=["Couples"], route_class=StrictRoute)


@router.get(
    "/answers/{digest}/today",
    operation_id="answer_today",
    summary="Put the question of an answer again",
    response_model=AnswerToday,
    responses=openapi_responses(UnknownAnswerError, UnknownOverlayError),
    openapi_extra=needs(Scope.JUDGE),
)
async def answer_today(request: Request, digest: Digest) -> Response:
    """Answer the same question by the present release and engine, and name what every difference is due to.

    A difference is put down to the changed records among the evidence of the finding that changed; what
    cannot be told so narrowly, to all changed records that can touch the question.
    """
    book = services(request).answers
    kept = book.recall(digest) or await run_in_threadpool(book.find, digest)
    if kept is None or not is_visible(request, kept):
        raise UnknownAnswerError(digest)
    then = await release_then(request, kept.release_label, kept.overlay_hash)
    now = await release_for(request, None)
    today = Today(then.catalogue, now.catalogue, DEFAULT_POLICY, principal(request).tenant_id, book)
    body = await run_in_threadpool(today.of, kept)
    tag = tag_of(digest, now.content_hash, ENGINE_VERSION)
    return reply(request, tag, lambda: body, cache_control=PRIVATE)
