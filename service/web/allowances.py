"""What a caller may still ask for: the allowance of its key and, if there is one, the quota of its tenant."""

from __future__ import annotations

from collections.abc import Iterator

from fastapi import Request

from service.access.errors import TooManyRequestsError
from service.access.principals import Principal
from service.access.quotas import TokenBuckets
from service.web.headers import RawHeaders, rate_headers
from service.web.state import Services, principal, services

REQUESTS_PER_SEARCH = 20
"""How many requests a search weighs: it judges some thousands of couples."""


def take_request(held: Services, caller: str, tenant_id: str | None, added: RawHeaders) -> None:
    """Take one request of a caller, and write what is left into the headers of its answer.

    Raises
    ------
    TooManyRequestsError
        If its allowance or the quota of its tenant is used up.
    """
    taken = [(held.requests, held.requests.take(caller))]
    if held.quotas is not None and tenant_id is not None:
        taken.append((held.quotas, held.quotas.take(tenant_id)))
    added.extend(rate_headers(*taken))
    for buckets, allowance in taken:
        if not allowance.is_granted:
            raise TooManyRequestsError(allowance.retry_after_s, buckets.name)


def take_weight(request: Request, weight: int) -> None:
    """Let a large request count as several; the first one was counted when it came.

    Raises
    ------
    TooManyRequestsError
        If its allowance or the quota of its tenant is used up.
    """
    held, caller = services(request), principal(request)
    for buckets, name in _buckets_of(held, caller):
        allowance = buckets.take(name, weight)
        if not allowance.is_granted:
            raise TooManyRequestsError(allowance.retry_after_s, buckets.name)


def _buckets_of(held: Services, caller: Principal) -> Iterator[tuple[TokenBuckets, str]]:
    yield held.requests, caller.key_id
    if held.quotas is not None:
        yield held.quotas, caller.tenant_id
