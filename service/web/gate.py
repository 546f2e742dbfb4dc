"""Who may pass: the API key or access token and the allowance of a request."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.concurrency import run_in_threadpool
from starlette.types import Scope

from service.access.credentials import CredentialRing
from service.access.errors import InvalidCredentialsError, MissingCredentialsError, TooManyRequestsError
from service.access.principals import Principal
from service.web.allowances import take_request
from service.web.headers import RawHeaders
from service.web.state import Services

API = "/v1/"
_OPEN = {"/v1/openapi.json"}
_UNCOUNTED = {"/healthz", "/readyz"}
_SCHEME = b"bearer "
_TOKEN = "eyJ"  # noqa: S105 - two brackets and a quotation mark, no secret
"""How every signed token begins: its header is a JSON object, written in base64url."""


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
    if path.startswith(API) and path not in _OPEN:
        text = _bearer(headers.get(b"authorization", b""))
        ring = held.tokens if held.tokens is not None and text.startswith(_TOKEN) else held.keys
        principal = ring.recall(text) or await _verify(ring, text, _address(scope), held)
        scope["state"]["principal"] = principal
        take_request(held, principal.key_id, principal.tenant_id, added)
    else:
        take_request(held, _address(scope), None, added)


async def _verify(ring: CredentialRing, text: str, address: str, held: Services) -> Principal:
    # Only somebody whose key is not in memory can run into this limit, so guessing from an address
    # does not shut out the others behind it.
    if wait_s := held.refusals.wait_s(address):
        raise TooManyRequestsError(wait_s)
    try:
        return await run_in_threadpool(ring.verify, text)
    except InvalidCredentialsError:
        held.refusals.take(address)
        raise


def _bearer(authorization: bytes) -> str:
    if not authorization:
        raise MissingCredentialsError
    if authorization[: len(_SCHEME)].lower() != _SCHEME:
        raise InvalidCredentialsError
    return authorization[len(_SCHEME) :].strip().decode("latin-1")


def _address(scope: Scope) -> str:
    client = scope.get("client")
    return f"address {client[0]}" if client else "address unknown"
