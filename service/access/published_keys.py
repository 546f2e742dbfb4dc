"""The keys with which an issuer signs its tokens: a JWK set (RFC 7517) at an address, kept for a while.

An issuer changes its keys by publishing the next one and signing with it. So a token with an unknown key
makes this service look again, but not more often than once in ``pause_s``, whoever sends such tokens.
"""

from __future__ import annotations

import json
import logging
import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import httpx
import jwt
from cryptography.hazmat.primitives.asymmetric.rsa import RSAPublicKey

from service.access.errors import IssuerUnreachableError

logger = logging.getLogger(__name__)

ALGORITHMS: Mapping[tuple[str, str], str] = MappingProxyType(
    {("RSA", ""): "RS256", ("EC", "P-256"): "ES256", ("OKP", "Ed25519"): "EdDSA"}
)
"""Which signatures are trusted, by type and curve of the key: a token has no say in it."""

_PATIENCE_S = 5.0
_MOST_BYTES = 256 * 1024
_MOST_KEYS = 100
_FEWEST_RSA_BITS = 2048


@dataclass(frozen=True, slots=True)
class SigningKey:
    """A public key with the one algorithm that it is used for."""

    algorithm: str
    key: jwt.PyJWK


@dataclass(frozen=True, slots=True)
class _Held:
    keys: Mapping[str, SigningKey]
    read_at_s: float


class PublishedKeys:
    """Keys of one issuer by their identifier.

    They are read again when they are older than ``fresh_s``, so a key that the issuer withdraws is refused
    after that. While the issuer cannot be reached the last ones hold for ``grace_s``.
    """

    def __init__(
        self,
        fetch: Callable[[], bytes],
        *,
        fresh_s: float = 300.0,
        grace_s: float = 3600.0,
        pause_s: float = 10.0,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._fetch = fetch
        self._fresh_s = fresh_s
        self._grace_s = max(grace_s, fresh_s)
        self._pause_s = min(pause_s, fresh_s)
        self._clock = clock
        self._held: _Held | None = None
        self._next_look_s = float("-inf")
        self._lock = threading.Lock()

    def find(self, key_id: str) -> SigningKey | None:
        """Return the key with an identifier, looking at the issuer if it is unknown here.

        Raises
        ------
        IssuerUnreachableError
            If the issuer has not answered for longer than the keys hold.
        """
        held = self._held
        if held is None or key_id not in held.keys or self._age_s(held) > self._fresh_s:
            held = self._look(has_keys=held is not None)
        if held is None or self._age_s(held) > self._grace_s:
            raise IssuerUnreachableError(self._pause_s)
        return held.keys.get(key_id)

    def _age_s(self, held: _Held) -> float:
        return self._clock() - held.read_at_s

    def _look(self, *, has_keys: bool) -> _Held | None:
        # One thread asks; the others go on with the keys at hand, or wait if there are none.
        if not self._lock.acquire(blocking=not has_keys):
            return self._held
        try:
            now_s = self._clock()
            if now_s >= self._next_look_s:
                self._next_look_s = now_s + self._pause_s
                self._held = _Held(read_key_set(self._fetch()), now_s)
        except (httpx.HTTPError, ValueError):
            logger.warning("keys of the token issuer not read", exc_info=True)
        finally:
            self._lock.release()
        return self._held


def read_key_set(body: bytes) -> dict[str, SigningKey]:
    """Read the keys of a JWK set that can be used here; the others are left out.

    Raises
    ------
    ValueError
        If it is no JWK set.
    """
    document = json.loads(body)
    entries = document.get("keys") if isinstance(document, dict) else None
    if not isinstance(entries, list):
        message = "the issuer's answer is no JWK set"
        raise ValueError(message)  # noqa: TRY004 - a document of the wrong form, no mistake of a caller
    found: dict[str, SigningKey] = {}
    for entry in entries[:_MOST_KEYS]:
        key = _signing_key(entry) if isinstance(entry, dict) else None
        if key is not None:
            found[entry["kid"]] = key
    return found


def _signing_key(entry: Mapping[str, Any]) -> SigningKey | None:
    curve = entry.get("crv", "")
    algorithm = ALGORITHMS.get((entry.get("kty", ""), curve)) if isinstance(curve, str) else None
    is_for_signatures = entry.get("use", "sig") == "sig" and "verify" in entry.get("key_ops", ("verify",))
    if algorithm is None or entry.get("alg", algorithm) != algorithm or not is_for_signatures:
        return None
    if not isinstance(entry.get("kid"), str):
        return None
    try:
        key = jwt.PyJWK(dict(entry), algorithm)
    except (jwt.PyJWTError, ValueError, TypeError):
        return None
    if isinstance(key.key, RSAPublicKey) and key.key.key_size < _FEWEST_RSA_BITS:
        return None
    # A private key that somebody published by mistake is known to everybody.
    return SigningKey(algorithm, key) if "d" not in entry else None


def fetching(url: str) -> Callable[[], bytes]:
    """Return what reads an address: without redirects, in bounded time and with a bounded answer."""

    def fetch() -> bytes:
        deadline_s = time.monotonic() + _PATIENCE_S
        with (
            httpx.Client(timeout=_PATIENCE_S, follow_redirects=False) as client,
            client.stream(
                "GET", url, headers={"Accept": "application/jwk-set+json, application/json"}
            ) as reply,
        ):
            if reply.status_code != httpx.codes.OK:
                message = f"the issuer answered {reply.status_code}"
                raise ValueError(message)
            body = b""
            for part in reply.iter_bytes():
                body += part
                if len(body) > _MOST_BYTES or time.monotonic() > deadline_s:
                    message = "the issuer's answer is too long or too slow"
                    raise ValueError(message)
            return body

    return fetch
