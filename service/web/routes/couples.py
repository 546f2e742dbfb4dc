"""Couples: the question in two ways of asking, and the addresses of answers."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.judgement import InvalidInquiryError
from service.storage.errors import UnknownReleaseError
from service.web.answering import answer_couple, is_visible, not_modified, response_of
from service.web.errors import InconsistentRequestError, UnknownAnswerError
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.replies import FOR_EVER, FOR_EVER_PRIVATE
from service.web.routing import StrictRoute
from service.web.schemas.answers import Answer, AnswerQuery, Decision
from service.web.schemas.couples import CoupleQuery, CoupleRequest
from service.web.state import services

Digest = Annotated[
    str,
    Path(description="Digest of the answer.", pattern="^[0-9a-f]{64}$", examples=["5b" * 32]),
]

router = APIRouter(prefix="/v1", tags=["Couples"], route_class=StrictRoute)


@router.get(
    "/couples",
    operation_id="judge_couple_by_text",
    summary="Judge a couple by drawing texts",
    response_model=Answer | Decision,
    responses=openapi_responses(InvalidInquiryError, InconsistentRequestError, UnknownReleaseError),
    openapi_extra=needs(Scope.JUDGE),
)
async def judge_couple_by_text(request: Request, query: Annotated[CoupleQuery, Query()]) -> Response:
    """Judge two surfaces that are named by drawing text, in a known environment.

    The answer can be cached; with the ETag of the answer it is 304 as long as nothing changes.
    """
    return await answer_couple(request, query.to_request())


@router.post(
    "/couples",
    operation_id="judge_couple",
    summary="Judge a couple",
    response_model=Answer | Decision,
    responses=openapi_responses(
        InvalidInquiryError, InconsistentRequestError, UnknownReleaseError, with_body=True
    ),
    openapi_extra=needs(Scope.JUDGE),
)
async def judge_couple(request: Request, couple: CoupleRequest) -> Response:
    """Judge two surfaces that are named by text, by notes or by structure, in any environment."""
    return await answer_couple(request, couple)


@router.get(
    "/answers/{digest}",
    operation_id="get_answer",
    summary="Get an issued answer",
    response_model=Answer | Decision,
    responses=openapi_responses(UnknownAnswerError),
    openapi_extra=needs(Scope.JUDGE),
)
async def get_answer(request: Request, digest: Digest, query: Annotated[AnswerQuery, Query()]) -> Response:
    """Serve the stored bytes of an answer, whatever release and engine are current now."""
    book = services(request).answers
    kept = book.recall(digest) or await run_in_threadpool(book.find, digest)
    if kept is None or not is_visible(request, kept):
        raise UnknownAnswerError(digest)
    headers = {"Cache-Control": FOR_EVER_PRIVATE if kept.tenant_id else FOR_EVER}
    return not_modified(request, digest, query.view, headers) or response_of(kept, query.view, headers)
