"""Ways out of a bad joint: alternatives, mitigations, envelopes and what compounds do."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

import anyio
from fastapi import APIRouter, Path, Request, Response

from service.access.scopes import Scope
from service.catalogue.catalogue import Catalogue
from service.catalogue.nearness import nearest_ids
from service.judgement import DEFAULT_POLICY, InvalidInquiryError
from service.remedies import (
    InvalidConstraintError,
    StartingPoint,
    UnreadableSurfaceError,
    alternatives_document,
    compatibility,
    compatibility_document,
    envelope_document,
    find_alternatives,
    find_envelope,
    find_mitigations,
    mitigations_document,
    starting_point,
)
from service.storage.errors import UnknownReleaseError
from service.web.allowances import REQUESTS_PER_SEARCH, take_weight
from service.web.errors import InconsistentRequestError, NoSuchRecordError
from service.web.inquiries import inquiry_of
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import release_for
from service.web.replies import JSON
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.alternatives import AlternativesAnswer
from service.web.schemas.compatibility import CompatibilityAnswer
from service.web.schemas.envelopes import EnvelopeAnswer
from service.web.schemas.mitigations import MitigationsAnswer
from service.web.schemas.remedies import AlternativesRequest, EnvelopeRequest, RemedyRequest
from service.web.state import services

router = APIRouter(prefix="/v1", tags=["Remedies"], route_class=StrictRoute)

_RESPONSES = openapi_responses(
    InvalidInquiryError, InconsistentRequestError, UnknownReleaseError, with_body=True
)

Search = Callable[[StartingPoint, Catalogue], dict[str, Any]]


@router.post(
    "/alternatives",
    operation_id="find_alternatives",
    summary="Rank other surfaces",
    response_model=AlternativesAnswer,
    responses=_RESPONSES,
    openapi_extra=needs(Scope.JUDGE),
)
async def rank_alternatives(request: Request, asked: AlternativesRequest) -> Response:
    """Enumerate the surfaces that either side may take, judge every couple and rank what is better.

    Pareto front first, then by the stated weights; what was excluded is counted by reason.
    """

    def search(start: StartingPoint, catalogue: Catalogue) -> dict[str, Any]:
        couple, environment = start.judgement.couple, start.judgement.environment
        wanted = asked.constraints.to_constraints()
        return alternatives_document(
            find_alternatives(couple, environment, wanted, catalogue, DEFAULT_POLICY, asked.limit)
        )

    return await _searched(request, asked, search)


@router.post(
    "/mitigations",
    operation_id="find_mitigations",
    summary="Rank measures at the joint",
    response_model=MitigationsAnswer,
    responses=_RESPONSES,
    openapi_extra=needs(Scope.JUDGE),
)
async def rank_mitigations(request: Request, asked: RemedyRequest) -> Response:
    """Apply measures alone and in combinations of up to three, judge each and rank what helps.

    Measures that may not be taken are listed with the reason, and so is what goes wrong when done badly.
    """

    def search(start: StartingPoint, catalogue: Catalogue) -> dict[str, Any]:
        couple, environment = start.judgement.couple, start.judgement.environment
        wanted = asked.constraints.to_constraints()
        return mitigations_document(find_mitigations(couple, environment, catalogue, DEFAULT_POLICY, wanted))

    return await _searched(request, asked, search)


@router.post(
    "/envelopes",
    operation_id="find_envelope",
    summary="State what a buyer may accept",
    response_model=EnvelopeAnswer,
    responses=_RESPONSES,
    openapi_extra=needs(Scope.JUDGE),
)
async def state_envelope(request: Request, asked: EnvelopeRequest) -> Response:
    """Return every finish, thickness and side that keep the joint at or above a verdict.

    The rule is bound to a release and can be checked without this service.
    """

    def search(start: StartingPoint, catalogue: Catalogue) -> dict[str, Any]:
        couple, environment = start.judgement.couple, start.judgement.environment
        wanted = asked.constraints.to_constraints()
        return envelope_document(
            find_envelope(couple, environment, catalogue, DEFAULT_POLICY, wanted, asked.to_sides())
        )

    return await _searched(request, asked, search)


@router.get(
    "/compounds/{id}/compatibility",
    operation_id="get_compound_compatibility",
    summary="Tell what a compound harms and helps",
    response_model=CompatibilityAnswer,
    responses=openapi_responses(NoSuchRecordError),
    openapi_extra=needs(Scope.READ),
)
async def show_compatibility(
    request: Request,
    compound_id: Annotated[
        str, Path(alias="id", description="Identifier of the compound.", examples=["sl-ps-inhib"])
    ],
) -> Response:
    """List the metals that a compound attacks or protects and the functions that it ends."""
    catalogue = (await release_for(request, None)).catalogue
    compound = catalogue.compounds.get(compound_id)
    if compound is None:
        raise NoSuchRecordError("compounds", compound_id, nearest_ids(compound_id, catalogue.compounds))
    document = compatibility_document(compatibility(compound, catalogue), catalogue)
    return _reply(document)


async def _searched(request: Request, asked: RemedyRequest, search: Search) -> Response:
    release = await release_for(request, asked.as_of)
    catalogue = release.catalogue
    inquiry = inquiry_of(asked, catalogue)

    def work() -> dict[str, Any]:
        try:
            start = starting_point(inquiry, catalogue, DEFAULT_POLICY)
            return {**search(start, catalogue), "warnings": _warnings(start)}
        except InvalidConstraintError as error:
            pointer = f"/constraints{error.pointer}"
            raise InvalidInquiryError(pointer, error.detail, error.suggestions) from error
        except UnreadableSurfaceError as error:
            raise InvalidInquiryError(f"/{error.sides[0]}", str(error)) from error

    take_weight(request, REQUESTS_PER_SEARCH)
    # Large work of one process takes turns, so that lookups find room.
    return _reply(await anyio.to_thread.run_sync(work, limiter=services(request).batches))


def _warnings(start: StartingPoint) -> list[dict[str, str]]:
    return [{"code": code, "detail": detail} for code, detail in start.answer.warnings]


def _reply(document: dict[str, Any]) -> Response:
    return Response(canonical(document), headers={"Cache-Control": "no-store"}, media_type=JSON)
