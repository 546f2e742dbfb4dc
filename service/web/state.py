"""What the application holds while it runs, and how a request reaches it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypedDict, cast

from anyio import CapacityLimiter
from starlette.requests import HTTPConnection
from starlette.types import Scope

from service.access.credentials import CredentialRing
from service.access.keys import KeyRing
from service.access.principals import Principal
from service.access.quotas import TokenBuckets
from service.access.uses import UseLog
from service.jobs.crew import Work
from service.settings import Settings
from service.storage.engine import Database
from service.telemetry import Metrics, RequestLog, Tracing
from service.web.answers import AnswerBook
from service.web.deadlines import Deadlines
from service.web.known_lines import KnownLines
from service.web.pages.runs import Runs
from service.web.pages.sessions import Sessions
from service.web.shelf import ReleaseShelf
from service.web.shortcut import Shortcut
from service.web.tenant_shelf import TenantShelf
from service.web.together import Together


@dataclass(frozen=True, slots=True)
class Services:
    """Everything that outlives a request, built once by the application's lifespan."""

    settings: Settings
    database: Database
    shelf: ReleaseShelf
    tenants: TenantShelf
    keys: KeyRing
    tokens: CredentialRing | None
    uses: UseLog
    requests: TokenBuckets
    refusals: TokenBuckets
    quotas: TokenBuckets | None
    answers: AnswerBook
    shortcut: Shortcut
    known_lines: KnownLines
    together: Together
    metrics: Metrics
    tracing: Tracing | None
    request_log: RequestLog
    deadlines: Deadlines
    work: Work
    batches: CapacityLimiter = field(default_factory=lambda: CapacityLimiter(1))
    sessions: Sessions = field(default_factory=Sessions)
    runs: Runs = field(default_factory=Runs)


class LifespanState(TypedDict):
    """What the lifespan hands to every request."""

    services: Services


def services_of(scope: Scope) -> Services:
    """Return what the application holds, for an ASGI layer."""
    return cast("Services", scope["state"]["services"])


def services(connection: HTTPConnection) -> Services:
    """Return what the application holds, for a route."""
    return services_of(connection.scope)


def principal(connection: HTTPConnection) -> Principal:
    """Return who is asking; routes under ``/v1`` always have somebody."""
    return cast("Principal", connection.scope["state"]["principal"])


def request_id(connection: HTTPConnection) -> str:
    """Return the id of the request."""
    return cast("str", connection.scope["state"]["request_id"])
