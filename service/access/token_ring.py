"""Checking access tokens without verifying the same signature, or asking the database, each time."""

from __future__ import annotations

import logging
import threading
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy.exc import SQLAlchemyError

from service.access.errors import InvalidCredentialsError
from service.access.principals import Principal
from service.access.secrets import digest_of
from service.access.tokens import Claims

logger = logging.getLogger(__name__)

CLIENT = "client:"
"""In front of a client's identifier where an API key has its own, so that neither can pass for the other."""

_MOST_REMEMBERED = 10_000


@dataclass(frozen=True, slots=True)
class _Remembered:
    principal: Principal
    admitted_at_s: float
    fresh_until_s: float
    expires_at_s: float


class TokenRing:
    """Tokens by their digest, each remembered for ``fresh_s`` seconds after it was checked.

    A blocked client and a disabled tenant are refused by every process at the latest ``fresh_s`` seconds
    after that was committed. While the database cannot be reached, clients that were admitted within the
    last ``grace_s`` seconds stay so.
    """

    def __init__(
        self,
        read: Callable[[str], Claims],
        is_admitted: Callable[[str, str], bool],
        *,
        fresh_s: float = 10.0,
        grace_s: float = 900.0,
        clock: Callable[[], float] = time.monotonic,
        wall_clock: Callable[[], float] = time.time,
    ) -> None:
        self._read = read
        self._is_admitted = is_admitted
        self._fresh_s = fresh_s
        self._grace_s = grace_s
        self._clock = clock
        self._wall_clock = wall_clock
        self._remembered: OrderedDict[bytes, _Remembered] = OrderedDict()
        self._lock = threading.Lock()

    def recall(self, text: str) -> Principal | None:
        """Return the holder of a token that is fresh in memory, without any reading."""
        remembered = self._remembered.get(digest_of(text))
        if remembered is None or self._clock() > remembered.fresh_until_s:
            return None
        return remembered.principal if self._wall_clock() < remembered.expires_at_s else None

    def verify(self, text: str) -> Principal:
        """Return the holder of a token, checking it anew unless memory knows it freshly.

        Raises
        ------
        InvalidCredentialsError
            If the token is not valid, its client blocked, or its tenant unknown or disabled.
        IssuerUnreachableError
            If the keys of the issuer are not to be had.
        """
        if known := self.recall(text):
            return known
        claims = self._read(text)
        admitted_at_s = self._admit(claims, digest_of(text))
        principal = Principal(CLIENT + claims.client_id, claims.tenant_id, claims.scopes)
        self._remember(digest_of(text), principal, admitted_at_s, claims.expires_at_s)
        return principal

    def _admit(self, claims: Claims, digest: bytes) -> float:
        now_s = self._clock()
        try:
            is_admitted = self._is_admitted(claims.tenant_id, claims.client_id)
        except SQLAlchemyError:
            remembered = self._remembered.get(digest)
            if remembered is None or now_s - remembered.admitted_at_s > self._grace_s:
                raise
            logger.warning("tenants unreachable, trusting memory", exc_info=True)
            return remembered.admitted_at_s
        if not is_admitted:
            raise InvalidCredentialsError
        return now_s

    def _remember(
        self, digest: bytes, principal: Principal, admitted_at_s: float, expires_at_s: float
    ) -> None:
        with self._lock:
            fresh_until_s = self._clock() + self._fresh_s
            self._remembered[digest] = _Remembered(principal, admitted_at_s, fresh_until_s, expires_at_s)
            self._remembered.move_to_end(digest)
            if len(self._remembered) > _MOST_REMEMBERED:
                self._remembered.popitem(last=False)
