"""Lists and details of the knowledge base: two routes for each table, all made in the same way."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request, Response

from service.access.scopes import Scope
from service.judgement.version import ENGINE_VERSION
from service.storage.errors import UnknownReleaseError
from service.web.collections import joined
from service.web.errors import BadCursorError, NoSuchRecordError
from service.web.pagination import Cursor, filters_digest, link_header, page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.releases import pinned, release_for
from service.web.replies import reply, tag_of
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas import (
    compounds,
    electrodes,
    environments,
    finishes,
    materials,
    measurements,
    queries,
    rules,
    scales,
)
from service.web.schemas.fields import Schema
from service.web.schemas.pages import Page
from service.web.schemas.queries import AsOf, ListQuery


@dataclass(frozen=True, slots=True)
class Listed:
    """How one table is published. ``path`` is plural with hyphens, ``noun`` its singular in words."""

    table: str
    path: str
    noun: str
    record: type[Schema]
    page: type[Page]
    query: type[ListQuery]

    @property
    def plural(self) -> str:
        """The path as words."""
        return self.path.replace("-", " ")


LISTED = (
    Listed(
        "materials",
        "materials",
        "material",
        materials.Material,
        materials.MaterialPage,
        queries.MaterialQuery,
    ),
    Listed("finishes", "finishes", "finish", finishes.Finish, finishes.FinishPage, queries.FinishQuery),
    Listed(
        "compounds",
        "compounds",
        "compound",
        compounds.Compound,
        compounds.CompoundPage,
        queries.CompoundQuery,
    ),
    Listed(
        "environments",
        "environments",
        "environment",
        environments.Environment,
        environments.EnvironmentPage,
        queries.EnvironmentQuery,
    ),
    Listed(
        "electrolytes",
        "electrolytes",
        "electrolyte",
        environments.Electrolyte,
        environments.ElectrolytePage,
        queries.ElectrolyteQuery,
    ),
    Listed(
        "electrodes",
        "electrodes",
        "electrode",
        electrodes.Electrode,
        electrodes.ElectrodePage,
        queries.ElectrodeQuery,
    ),
    Listed(
        "kinetics",
        "kinetics",
        "set of kinetics",
        electrodes.Kinetics,
        electrodes.KineticsPage,
        queries.KineticsQuery,
    ),
    Listed(
        "measurements",
        "measurements",
        "measurement",
        measurements.Measurement,
        measurements.MeasurementPage,
        queries.MeasurementQuery,
    ),
    Listed("sources", "sources", "source", measurements.Source, measurements.SourcePage, queries.SourceQuery),
    Listed("scales", "scales", "scale", scales.Scale, scales.ScalePage, queries.ScaleQuery),
    Listed(
        "limits",
        "permissible-differences",
        "permissible difference",
        scales.PermissibleDifference,
        scales.PermissibleDifferencePage,
        queries.PermissibleDifferenceQuery,
    ),
    Listed("rules", "rules", "rule", rules.Rule, rules.RulePage, queries.RuleQuery),
    Listed(
        "mitigations",
        "mitigations",
        "mitigation",
        rules.Mitigation,
        rules.MitigationPage,
        queries.MitigationQuery,
    ),
)

router = APIRouter(prefix="/v1", tags=["Knowledge base"], route_class=StrictRoute)


def _lister(listed: Listed) -> Callable[..., Any]:
    async def list_records(request: Request, query: ListQuery) -> Response:
        filters = query.filters()
        digest = filters_digest(listed.table, filters)
        cursor = Cursor.read(query.cursor, digest) if query.cursor else None
        label = query.as_of or (cursor.release if cursor else None)
        release = await release_for(request, label)
        if cursor and cursor.release != release.label:
            message = "This cursor walks through another release."
            raise BadCursorError(message)
        after = cursor.after if cursor else ""
        found = release.collections[listed.table].slice(filters, after, query.limit)
        given = {**filters, "as_of": query.as_of, "limit": query.limit}
        path = request.url.path
        links = {"first": page_address(path, given)}
        if not found.is_last:
            onwards = Cursor(found.keys[-1], release.label, digest)
            links["next"] = page_address(path, given, onwards.write())
        document = {
            "release": {"label": release.label, "content_hash": release.content_hash},
            "total": found.total,
            "items": joined(found.items),
            "next": links.get("next"),
        }
        return reply(
            request,
            tag_of(ENGINE_VERSION, release.content_hash, listed.table, given, after),
            lambda: canonical(document),
            cache_control=pinned(query.as_of, release),
            headers={"Link": link_header(links)},
        )

    # The class of the filters differs from table to table, which no static annotation can say.
    list_records.__annotations__["query"] = Annotated[listed.query, Query()]
    return list_records


def _getter(listed: Listed) -> Callable[..., Any]:
    async def get_record(request: Request, id: str, query: Annotated[AsOf, Query()]) -> Response:  # noqa: A002 - the name in the address
        release = await release_for(request, query.as_of)
        body = release.collections[listed.table].body(id)
        tag = tag_of(ENGINE_VERSION, release.content_hash, listed.table, id)
        return reply(request, tag, lambda: body, cache_control=pinned(query.as_of, release))

    examples = listed.record.model_fields["id"].examples
    get_record.__annotations__["id"] = Annotated[
        str, Path(description=f"Identifier of the {listed.noun}.", max_length=200, examples=examples)
    ]
    return get_record


def _add(listed: Listed) -> None:
    name = listed.path.replace("-", "_")
    router.add_api_route(
        f"/{listed.path}",
        _lister(listed),
        operation_id=f"list_{name}",
        summary=f"List {listed.plural}",
        description=f"The {listed.plural} of a release in the order of their identifiers.",
        response_model=listed.page,
        openapi_extra=needs(Scope.READ),
        responses=openapi_responses(BadCursorError, UnknownReleaseError),
    )
    router.add_api_route(
        f"/{listed.path}/{{id}}",
        _getter(listed),
        operation_id=f"get_{listed.noun.replace(' ', '_')}",
        summary=f"Get one {listed.noun}",
        description=f"One {listed.noun} of a release.",
        response_model=listed.record,
        openapi_extra=needs(Scope.READ),
        responses=openapi_responses(NoSuchRecordError, UnknownReleaseError),
    )


for _listed in LISTED:
    _add(_listed)
