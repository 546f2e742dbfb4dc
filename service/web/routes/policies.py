"""House policies that tenants keep under a name: versions are added, none is edited."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Header, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.assemblies.policy_documents import house_policy_of
from service.storage.engine import WriteSession
from service.storage.errors import StaleVersionError
from service.storage.repositories.assemblies import AssembliesRepository
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.jobs import Job
from service.storage.repositories.policies import PoliciesRepository
from service.storage.repositories.policies import StoredPolicy as Stored
from service.web.assembly_requests import given_in, pointing
from service.web.conditional import may_replace, quoted
from service.web.errors import BadCursorError, InconsistentRequestError
from service.web.idempotency import KEY_ERRORS, keyed, once
from service.web.job_documents import job_document
from service.web.operations import JSON
from service.web.pagination import cursors_of, page_address
from service.web.permissions import needs
from service.web.problem_documents import openapi_responses
from service.web.replies import NO_STORE, page_reply
from service.web.representation import canonical
from service.web.routing import StrictRoute
from service.web.schemas.assemblies import POLICY_NAME
from service.web.schemas.policies import PolicyRequest
from service.web.schemas.stored_policies import (
    PoliciesQuery,
    PolicyOutcome,
    PolicyPage,
    PolicyQuery,
    StoredPolicyWithBody,
)
from service.web.state import principal, services
from service.web.work_errors import PolicyInUseError, UnknownPolicyError, VersionMismatchError

PATH = "/v1/policies"
Name = Annotated[
    str,
    Path(
        description="What the caller calls the policy.",
        pattern=f"^{POLICY_NAME}$",
        examples=["port-of-skerrivoe"],
    ),
]
IfMatch = Annotated[
    str | None,
    Header(
        description="Entity tag of the version that the new one follows.",
        max_length=40,
        pattern=r'^(\*|"[0-9]{1,9}")$',
        examples=['"3"'],
    ),
]

router = APIRouter(prefix="/v1", tags=["Policies"], route_class=StrictRoute)


@router.put(
    "/policies/{name}",
    operation_id="store_policy",
    summary="Keep a policy of the house",
    response_model=PolicyOutcome,
    responses={
        201: {"model": PolicyOutcome, "description": "It was not in force before."},
        **openapi_responses(InconsistentRequestError, VersionMismatchError, *KEY_ERRORS, with_body=True),
    },
    openapi_extra={**needs(Scope.TENANT), **keyed()},
)
async def store_policy(
    request: Request, name: Name, policy: PolicyRequest, if_match: IfMatch = None
) -> Response:
    """Store a policy, or a new version of it; the same content again makes no version.

    Checks that name it in `stored_policy` are decided by the version in force, and say by which; a
    `name@version` stays with that one. Stored assemblies that name it are judged again.
    """
    return await once(request, lambda: run_in_threadpool(_store, request, name, policy, if_match))


@router.get(
    "/policies",
    operation_id="list_policies",
    summary="List the policies of the house",
    response_model=PolicyPage,
    responses=openapi_responses(BadCursorError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def list_policies(request: Request, query: Annotated[PoliciesQuery, Query()]) -> Response:
    """List the stored policies of the caller's tenant by name, each in the version that is in force."""
    document = await run_in_threadpool(_page, request, query)
    return page_reply(canonical(document), {"next": document["next"]})


@router.get(
    "/policies/{name}",
    operation_id="get_policy",
    summary="Get a policy of the house",
    response_model=StoredPolicyWithBody,
    responses=openapi_responses(UnknownPolicyError),
    openapi_extra=needs(Scope.ASSEMBLIES),
)
async def get_policy(request: Request, name: Name, query: Annotated[PolicyQuery, Query()]) -> Response:
    """Give the version in force or an earlier one; earlier ones stay after a policy is removed."""
    found = await run_in_threadpool(_find, request, name, query.version)
    document = _document(found) | {"policy": found.body}
    return Response(canonical(document), headers=_headers(found), media_type=JSON)


@router.delete(
    "/policies/{name}",
    operation_id="remove_policy",
    summary="Remove a policy of the house",
    status_code=204,
    response_class=Response,
    responses=openapi_responses(UnknownPolicyError, PolicyInUseError),
    openapi_extra=needs(Scope.TENANT),
)
async def remove_policy(request: Request, name: Name) -> Response:
    """Take a policy out of force; its versions can still be read, and be named as `name@version`."""
    await run_in_threadpool(_remove, request, name)
    return Response(status_code=204, headers=NO_STORE)


def _store(request: Request, name: str, policy: PolicyRequest, if_match: str | None) -> Response:
    body, caller, job = given_in(policy), principal(request), None
    with pointing():
        house = house_policy_of(body)
    with services(request).database.writing() as session:
        policies = PoliciesRepository(session)
        known = policies.find(caller.tenant_id, name)
        version = known.version if known else 0
        if not may_replace(if_match, str(version)):
            raise VersionMismatchError(version)
        try:
            stored = policies.add(caller.tenant_id, name, house.sha256, body, caller.key_id)
        except StaleVersionError as error:
            raise VersionMismatchError(error.version + 1) from error
        if stored != known:
            _audit(session, request, "policy.stored", stored)
            job = _judge_again(session, request, name)
    document = {"policy": _document(stored), "job": job and job_document(job)}
    headers = {**_headers(stored), "Location": f"{PATH}/{name}"}
    return Response(canonical(document), 200 if known else 201, headers, JSON)


def _judge_again(session: WriteSession, request: Request, name: str) -> Job | None:
    """Put in what names the policy; nobody reads a report in between that claims to hold."""
    caller, work = principal(request), services(request).work
    assemblies = AssembliesRepository(session)
    naming = assemblies.naming_policy(caller.tenant_id, name)
    if not naming:
        return None
    assemblies.say_doubtful([stored.id for stored in naming])
    return work.portfolio.submit_these(session, work.queue, naming, by=caller.key_id)


def _page(request: Request, query: PoliciesQuery) -> dict[str, Any]:
    with cursors_of("the list of policies"), services(request).database.reading() as session:
        page = PoliciesRepository(session).page(
            principal(request).tenant_id, limit=query.limit, cursor=query.cursor or ""
        )
    following = page_address(PATH, {"limit": query.limit}, page.next_cursor) if page.next_cursor else None
    return {"items": [_document(stored) for stored in page.items], "next": following}


def _find(request: Request, name: str, version: int | None = None) -> Stored:
    with services(request).database.reading() as session:
        found = PoliciesRepository(session).find(principal(request).tenant_id, name, version)
    if found is None:
        raise UnknownPolicyError(name)
    return found


def _remove(request: Request, name: str) -> None:
    caller, found = principal(request), _find(request, name)
    with services(request).database.writing() as session:
        naming = AssembliesRepository(session).naming_policy(caller.tenant_id, name)
        if naming:
            raise PolicyInUseError(name, [stored.name for stored in naming])
        PoliciesRepository(session).remove(caller.tenant_id, name, caller.key_id)
        _audit(session, request, "policy.removed", found)


def _audit(session: WriteSession, request: Request, action: str, stored: Stored) -> None:
    facts = {"name": stored.name, "version": stored.version}
    AuditRepository(session).append(principal(request).key_id, action, "policy", stored.id, **facts)


def _headers(stored: Stored) -> dict[str, str]:
    return {**NO_STORE, "ETag": quoted(str(stored.version))}


def _document(stored: Stored) -> dict[str, Any]:
    return {
        "name": stored.name,
        "version": stored.version,
        "reference": stored.reference,
        "sha256": stored.content_hash,
        "created_at": stored.created_at,
        "created_by": stored.created_by,
    }
