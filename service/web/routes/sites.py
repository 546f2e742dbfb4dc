"""What a place does by itself."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from fastapi import APIRouter, Request, Response

from service.access.scopes import Scope
from service.catalogue.catalogue import Catalogue
from service.judgement import InvalidInquiryError, class_of, level_of, site_of
from service.storage.errors import UnknownReleaseError
from service.web.errors import InconsistentRequestError
from service.web.inquiries import environment_of, known_environment
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import release_for
from service.web.replies import JSON
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.sites import SiteAnswer, SiteRequest

router = APIRouter(prefix="/v1", tags=["Surfaces"], route_class=StrictRoute)

REFERENCES = (
    "ISO 9223:2012, Eq. (1) to (4), Tables 2 and 3: first year, category, time of wetness",
    "ISO 9224:2012, Eq. (1): loss after years, a straight line beyond 20",
    "TEOS-10: salt and oxygen of water",
    "ISO 11844-1, Table 1, and ANSI/ISA-71.04-2013: rooms",
)


@router.post(
    "/sites/assessment",
    operation_id="assess_site",
    summary="Tell what a place does by itself",
    response_model=SiteAnswer,
    responses=openapi_responses(
        InvalidInquiryError, InconsistentRequestError, UnknownReleaseError, with_body=True
    ),
    openapi_extra=needs(Scope.JUDGE),
)
async def assess_site(request: Request, asked: SiteRequest) -> Response:
    """Give the corrosivity of a place without any couple: what standard metals lose, how wet the year is.

    The place may be a known one or figures; coupons that were exposed in a room are classified beside it.
    """
    catalogue = (await release_for(request, asked.as_of)).catalogue
    document = _document(asked, catalogue)
    return Response(canonical(document), headers={"Cache-Control": "no-store"}, media_type=JSON)


def _document(asked: SiteRequest, catalogue: Catalogue) -> dict[str, Any]:
    place = environment_of(asked.environment, catalogue)
    environment = known_environment(place, catalogue) if isinstance(place, str) else place
    return {
        "release": {"label": catalogue.label, "content_hash": catalogue.content_hash},
        "environment": environment.name,
        "period_years": asked.period_years,
        **asdict(site_of(environment, asked.period_years)),
        "weighed": [
            {"metal": each.metal, "result": class_of(each.metal, each.loss_mg_per_m2_per_year)}
            for each in asked.weighed
        ],
        "filmed": [
            {
                "metal": each.metal,
                "result": level_of(each.metal, each.film_angstrom, each.exposure_days),
            }
            for each in asked.filmed
        ],
        "references": REFERENCES,
    }
