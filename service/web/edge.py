"""The one ASGI layer in front of the router.

It gives the request its id, checks its size, knows who asks, takes from the caller's allowance, adds the
headers that all responses carry, and is the last to see a failure. One layer, because each further one
wraps every message once more.
"""

from __future__ import annotations

import logging
import time

from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Receive, Scope, Send

from service import telemetry
from service.access.errors import AccessError
from service.storage.distress import distress
from service.web import problem_documents
from service.web.body_limit import LimitedBody, check_declared_length, limit_of
from service.web.errors import TargetTooLongError, WebError
from service.web.exchange import Exchange
from service.web.gate import admit
from service.web.shortcut import PATH as COUPLES
from service.web.shortcut import Messages, is_repeatable

logger = logging.getLogger(__name__)


class RequestFailedError(Exception):
    """A response broke off after it had begun; the server must close the connection."""


class Edge:
    """The layer itself; ``app`` is the router with its exception handlers."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let one request through, or answer it here."""
        exchange = Exchange(scope, send)
        tracing = exchange.held.tracing
        if tracing is None:
            await self._serve(exchange, receive)
            return
        with tracing.request(exchange.method, exchange.headers) as span:
            await self._serve(exchange, receive)
            route = _route_of(scope)
            telemetry.describe(span, exchange.method, route, exchange.status, exchange.request_id)

    async def _serve(self, exchange: Exchange, receive: Receive) -> None:
        token = telemetry.request_id.set(exchange.request_id)
        try:
            await self._pass_on(exchange, receive)
            if exchange.telling is not None:
                await exchange.telling
        except (WebError, AccessError) as error:
            await self._refuse(exchange, receive, error)
        except ClientDisconnect:
            logger.info("the caller went away", extra={"facts": {"path": exchange.scope["path"]}})
        except Exception as error:
            logger.exception("request failed", extra={"facts": {"path": exchange.scope["path"]}})
            if exchange.is_given_up:
                return
            if exchange.status:
                raise RequestFailedError from error
            await self._refuse(exchange, receive, distress(error) or error)
        finally:
            _record(exchange)
            telemetry.request_id.reset(token)

    async def _pass_on(self, exchange: Exchange, receive: Receive) -> None:
        scope, held = exchange.scope, exchange.held
        scope["state"]["request_id"] = exchange.request_id
        longest = held.settings.max_target_bytes
        if len(scope.get("raw_path") or b"") + len(scope["query_string"]) > longest:
            raise TargetTooLongError(longest)
        limit_bytes = limit_of(scope["path"], held.settings)
        check_declared_length(exchange.headers, limit_bytes)
        await admit(scope, exchange.headers, held, exchange.extra_headers)
        if is_repeatable(scope) and (known := _known(exchange)):
            scope["answered_as"] = COUPLES
            held.metrics.tally.answer(telemetry.Source.KNOWN)
            for message in known:
                await exchange.reply(message)
            return
        if exchange.is_head:
            scope["method"] = "GET"
        body = LimitedBody(receive, limit_bytes, lambda: held.deadlines.restart(exchange))
        held.deadlines.start(exchange)
        try:
            await self.app(scope, body.receive, exchange.reply)
        finally:
            held.deadlines.stop(exchange)

    @staticmethod
    async def _refuse(exchange: Exchange, receive: Receive, error: Exception) -> None:
        response = problem_documents.response(error, exchange.request_id)
        await response(exchange.scope, receive, exchange.reply)


def _known(exchange: Exchange) -> Messages | None:
    held, principal = exchange.held, exchange.scope["state"]["principal"]
    current = held.tenants.current_hash(principal.tenant_id)
    return held.shortcut.answer(exchange.scope, exchange.headers, principal, current)


def _route_of(scope: Scope) -> str:
    """The path as the router knows it, without what stands in its place holders."""
    route = scope.get("route")
    return str(route.path_format if route else scope.get("answered_as", telemetry.UNROUTED))


def _record(exchange: Exchange) -> None:
    """Log and count a request that is over."""
    scope, held = exchange.scope, exchange.held
    took_s = time.perf_counter() - exchange.started_s
    method, route = exchange.method, _route_of(scope)
    held.metrics.tally.request(method, route, exchange.status, took_s)
    facts = {
        "request_id": exchange.request_id,
        "method": method,
        "path": scope["path"],
        "status": exchange.status,
        "took_ms": round(took_s * 1000, 2),
    }
    if principal := scope["state"].get("principal"):
        facts["key_id"] = principal.key_id
    held.request_log.add(facts)
    if took_s * 1000 > held.settings.slow_request_ms:
        logger.warning("slow request", extra={"facts": {**facts, "route": route}})
