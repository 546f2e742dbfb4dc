"""Who may pass: the API key and the allowance of a request."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.concurrency import run_in_threadpool
from starlette.types import Scope

from service.access.errors import InvalidCredentialsError, MissingCredentialsError, TooManyRequestsError
from service.access.principals import Principal
from service.web.headers import RawHeaders, rate_headers
from service.web.state import Services

API = "/v1/"
_OPEN = {"/v1/openapi.json"}
_UNCOUNTED = {"/healthz", "/readyz"}
_SCHEME = b"bearer "


async def admit(scope: Scope, headers: Mapping[bytes, bytes], held: Services, added: RawHeaders) -> None:
    """Find out who asks and take one request from its allowance.

    The principal goes into the request's state, the fields that tell the allowance into ``added``.

    Raises
    ------
    AccessError
        If the caller is turned away.
    """
    path = scope["path"]
    if path in _UNCOUNTED:
        return
    address = _address(scope)
    if path.startswith(API) and path not in _OPEN:
        principal = await _identify(headers.get(b"authorization", b""), address, held)
        scope["state"]["principal"] = principal
        caller = principal.key_id
    else:
        caller = address
    allowance = held.requests.take(caller)
    added.extend(rate_headers(held.requests, allowance))
    if not allowance.is_granted:
        raise TooManyRequestsError(allowance.retry_after_s)


async def _identify(authorization: bytes, address: str, held: Services) -> Principal:
    if not authorization:
        raise MissingCredentialsError
    text = _bearer(authorization)
    if known := held.keys.recall(text):
        return known
    # Only somebody whose key is not in memory can run into this limit, so guessing from an address
    # does not shut out the others behind it.
    if wait_s := held.refusals.wait_s(address):
        raise TooManyRequestsError(wait_s)
    try:
        return await run_in_threadpool(held.keys.verify, text)
    except InvalidCredentialsError:
        held.refusals.take(address)
        raise


def _bearer(authorization: bytes) -> str:
    if authorization[: len(_SCHEME)].lower() != _SCHEME:
        raise InvalidCredentialsError
    return authorization[len(_SCHEME) :].strip().decode("latin-1")


def _address(scope: Scope) -> str:
    client = scope.get("client")
    return f"address {client[0]}" if client else "address unknown"
