"""Changing the knowledge base: propose, talk, review, take back."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.curation import Decision
from service.curation.errors import (
    NothingChangesError,
    NotYourProposalError,
    OwnProposalError,
    ProposalClosedError,
)
from service.storage.repositories.proposals import Proposal as StoredProposal
from service.web import proposals
from service.web.curation_errors import RecordInUseError, UnknownProposalError
from service.web.errors import BadCursorError
from service.web.idempotency import KEY_ERRORS, keyed, once
from service.web.operations import JSON
from service.web.pagination import page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.replies import NO_STORE, page_reply
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.proposals import (
    PROPOSAL_ID,
    CommentRequest,
    Proposal,
    ProposalDetail,
    ProposalPage,
    ProposalRequest,
    ProposalsQuery,
    RetractionRequest,
    ReviewRequest,
    WithdrawalRequest,
)

ProposalId = Annotated[
    str,
    Path(description="Identifier of the proposal.", pattern="^[A-Za-z0-9_]{1,100}$", examples=[PROPOSAL_ID]),
]

router = APIRouter(prefix="/v1", tags=["Curation"], route_class=StrictRoute)


@router.post(
    "/proposals",
    operation_id="propose_change",
    summary="Propose a new or changed record",
    status_code=201,
    response_model=Proposal,
    responses=openapi_responses(NothingChangesError, *KEY_ERRORS, with_body=True),
    openapi_extra={**needs(Scope.PROPOSE), **keyed()},
)
async def propose_change(request: Request, wanted: ProposalRequest) -> Response:
    """Propose a figure with its source, or any other record.

    Nothing changes until a different key has approved it and a release brings it out. A record may name
    another one that is only proposed so far: a figure its new source.
    """

    def work() -> Response:
        made = proposals.make(request, wanted.table, wanted.key, wanted.record, wanted.reason)
        return _created(made)

    return await once(request, lambda: run_in_threadpool(work))


@router.post(
    "/withdrawals",
    operation_id="propose_withdrawal",
    summary="Propose to withdraw a record",
    status_code=201,
    response_model=Proposal,
    responses=openapi_responses(NothingChangesError, RecordInUseError, *KEY_ERRORS, with_body=True),
    openapi_extra={**needs(Scope.PROPOSE), **keyed()},
)
async def propose_withdrawal(request: Request, wanted: WithdrawalRequest) -> Response:
    """Propose that a record be used no longer; it takes the same way as any proposal.

    A measurement or a set of kinetics stays, is shown with the reason and never used; other records go,
    if nothing names them.
    """

    def work() -> Response:
        return _created(proposals.make_withdrawal(request, wanted.table, wanted.key, wanted.reason))

    return await once(request, lambda: run_in_threadpool(work))


@router.get(
    "/proposals",
    operation_id="list_proposals",
    summary="List proposals",
    response_model=ProposalPage,
    responses=openapi_responses(BadCursorError),
    openapi_extra=needs(Scope.READ),
)
async def list_proposals(request: Request, query: Annotated[ProposalsQuery, Query()]) -> Response:
    """List proposals of all authors, the oldest first."""
    filters = query.model_dump(mode="json", exclude={"limit", "cursor"}, exclude_none=True)
    document = await run_in_threadpool(_page, request, query, filters)
    first = page_address(proposals.PATH, {**filters, "limit": query.limit})
    return page_reply(canonical(document), {"first": first, "next": document["next"]})


@router.get(
    "/proposals/{proposal_id}",
    operation_id="get_proposal",
    summary="Get one proposal",
    response_model=ProposalDetail,
    responses=openapi_responses(UnknownProposalError),
    openapi_extra=needs(Scope.READ),
)
async def get_proposal(request: Request, proposal_id: ProposalId) -> Response:
    """Show a proposal with everything that was said of it."""
    return _answer(await run_in_threadpool(proposals.detail, request, proposal_id))


@router.post(
    "/proposals/{proposal_id}/comments",
    operation_id="comment_on_proposal",
    summary="Remark on a proposal",
    status_code=201,
    response_model=ProposalDetail,
    responses=openapi_responses(UnknownProposalError, *KEY_ERRORS, with_body=True),
    openapi_extra={**needs(Scope.PROPOSE), **keyed()},
)
async def comment_on_proposal(request: Request, proposal_id: ProposalId, remark: CommentRequest) -> Response:
    """Add a remark, whatever has become of the proposal."""

    def work() -> Response:
        proposals.add_comment(request, proposal_id, remark.text)
        return _answer(proposals.detail(request, proposal_id), 201)

    return await once(request, lambda: run_in_threadpool(work))


@router.post(
    "/proposals/{proposal_id}/review",
    operation_id="review_proposal",
    summary="Approve or reject a proposal",
    response_model=ProposalDetail,
    responses=openapi_responses(
        UnknownProposalError, OwnProposalError, ProposalClosedError, *KEY_ERRORS, with_body=True
    ),
    openapi_extra={**needs(Scope.REVIEW), **keyed()},
)
async def review_proposal(request: Request, proposal_id: ProposalId, given: ReviewRequest) -> Response:
    """Decide on an open proposal that was made with a different key; the next release brings it out."""

    def work() -> Response:
        proposals.decide(request, proposal_id, Decision(given.decision), given.text)
        return _answer(proposals.detail(request, proposal_id))

    return await once(request, lambda: run_in_threadpool(work))


@router.post(
    "/proposals/{proposal_id}/retraction",
    operation_id="retract_proposal",
    summary="Take a proposal back",
    response_model=ProposalDetail,
    responses=openapi_responses(
        UnknownProposalError, NotYourProposalError, ProposalClosedError, *KEY_ERRORS, with_body=True
    ),
    openapi_extra={**needs(Scope.PROPOSE), **keyed()},
)
async def retract_proposal(request: Request, proposal_id: ProposalId, given: RetractionRequest) -> Response:
    """Take back a proposal of the caller's own that no release has brought out."""

    def work() -> Response:
        proposals.retract(request, proposal_id, given.reason)
        return _answer(proposals.detail(request, proposal_id))

    return await once(request, lambda: run_in_threadpool(work))


def _page(request: Request, query: ProposalsQuery, filters: dict[str, str]) -> dict[str, Any]:
    wanted = {
        {"table": "table_name", "key": "row_key"}.get(name, name): text for name, text in filters.items()
    }
    found = proposals.page(request, limit=query.limit, cursor=query.cursor or "", **wanted)
    address = {**filters, "limit": query.limit}
    following = page_address(proposals.PATH, address, found.next_cursor) if found.next_cursor else None
    return {"items": [proposals.document(each) for each in found.items], "next": following}


def _created(made: StoredProposal) -> Response:
    document = proposals.document(made)
    return Response(canonical(document), 201, {**NO_STORE, "Location": document["address"]}, JSON)


def _answer(document: dict[str, Any], status: int = 200) -> Response:
    return Response(canonical(document), status, NO_STORE, JSON)
