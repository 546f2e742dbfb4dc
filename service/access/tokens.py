"""Access tokens of an OAuth 2 issuer: JWTs (RFC 9068), judged by RFC 8725.

What a token may be signed with is decided by the published key that it names, never by the token. Every
flaw has the same outcome, so that a token cannot be mended by trying.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import jwt

from service.access.errors import InvalidCredentialsError
from service.access.published_keys import SigningKey
from service.access.scopes import Scope

LONGEST_TOKEN = 8192
_LONGEST_NAME = 200
_TYPES = {"at+jwt", "application/at+jwt", "jwt"}
_REQUIRED = ["exp", "iat", "iss", "aud"]
_CLIENT_CLAIMS = ("client_id", "azp", "sub")


@dataclass(frozen=True, slots=True)
class Trust:
    """Which tokens are believed, and which claim names the tenant."""

    issuer: str
    audience: str
    tenant_claim: str = "tenant"
    leeway_s: float = 30.0
    longest_life_s: float = 86_400.0


@dataclass(frozen=True, slots=True)
class Claims:
    """What a valid token says. ``expires_at_s`` is in seconds since 1970, the leeway included."""

    client_id: str
    tenant_id: str
    scopes: frozenset[Scope]
    expires_at_s: float


class TokenReader:
    """Reads the tokens of one issuer."""

    def __init__(
        self,
        find_key: Callable[[str], SigningKey | None],
        trust: Trust,
        clock: Callable[[], float] = time.time,
    ) -> None:
        self._find_key = find_key
        self._trust = trust
        self._clock = clock

    def read(self, text: str) -> Claims:
        """Return what a token says if it is valid now.

        Raises
        ------
        InvalidCredentialsError
            If anything about it is wrong.
        IssuerUnreachableError
            If it cannot be told, because the keys of the issuer are not to be had.
        """
        if len(text) > LONGEST_TOKEN:
            raise InvalidCredentialsError
        try:
            return self._claims(self._verified(text))
        except (jwt.PyJWTError, ValueError, TypeError, ArithmeticError, RecursionError) as error:
            # The reason stays out of the answer, and the token out of the chain of exceptions.
            raise InvalidCredentialsError from _without_token(error)

    def _verified(self, text: str) -> Mapping[str, Any]:
        header = jwt.get_unverified_header(text)
        key_id = header.get("kid")
        if not isinstance(key_id, str) or "crit" in header:
            raise InvalidCredentialsError
        if str(header.get("typ", "jwt")).lower() not in _TYPES:
            raise InvalidCredentialsError
        key = self._find_key(key_id)
        if key is None or header.get("alg") != key.algorithm:
            raise InvalidCredentialsError
        decoded: Mapping[str, Any] = jwt.decode(
            text,
            key.key,
            algorithms=[key.algorithm],
            issuer=self._trust.issuer,
            audience=self._trust.audience,
            leeway=self._trust.leeway_s,
            options={"require": _REQUIRED},
        )
        return decoded

    def _claims(self, claims: Mapping[str, Any]) -> Claims:
        expires_at_s, issued_at_s = float(claims["exp"]), float(claims["iat"])
        if expires_at_s - issued_at_s > self._trust.longest_life_s:
            raise InvalidCredentialsError
        expires_at_s += self._trust.leeway_s
        if self._clock() >= expires_at_s:
            raise InvalidCredentialsError
        client_id = next((claims[name] for name in _CLIENT_CLAIMS if name in claims), None)
        scope = claims.get("scope", "")
        return Claims(
            client_id=_name(client_id),
            tenant_id=_name(claims.get(self._trust.tenant_claim)),
            # A scope that this service does not know belongs to another one of the same issuer.
            scopes=frozenset(Scope(name) for name in str(scope).split() if name in set(Scope)),
            expires_at_s=expires_at_s,
        )


def _name(value: object) -> str:
    if not isinstance(value, str) or not value or len(value) > _LONGEST_NAME or not value.isprintable():
        raise InvalidCredentialsError
    return value


def _without_token(error: Exception) -> Exception:
    return type(error)(str(error)) if isinstance(error, jwt.PyJWTError) else ValueError("malformed token")
