"""Checking API keys without asking the database each time."""

from __future__ import annotations

import logging
import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from hmac import compare_digest
from typing import Protocol

from sqlalchemy.exc import SQLAlchemyError

from service.access.errors import InvalidCredentialsError
from service.access.principals import Principal
from service.access.scopes import EVERYTHING, Scope
from service.access.secrets import KeyText, digest_of, hash_secret, is_same, parse_key_text, prefix_of

logger = logging.getLogger(__name__)

LOCAL_TENANT = "local"
"""Owner of what the development key stores."""

DEVELOPMENT = Principal("development", LOCAL_TENANT, EVERYTHING)
_MOST_REMEMBERED = 10_000
_NOTHING = "0" * 64


class StoredKey(Protocol):
    """What the database knows about a key."""

    @property
    def id(self) -> str:
        """Identifier that audit and logs show."""

    @property
    def key_hash(self) -> str:
        """Hash of the secret."""

    @property
    def tenant_id(self) -> str:
        """Owner."""

    @property
    def scopes(self) -> Sequence[str]:
        """Names of its scopes."""

    @property
    def expires_at(self) -> datetime | None:
        """Moment after which it is refused."""

    @property
    def revoked_at(self) -> datetime | None:
        """Moment at which it was revoked."""


@dataclass(frozen=True, slots=True)
class _Remembered:
    digest: bytes
    key: StoredKey
    principal: Principal
    read_at_s: float
    fresh_until_s: float


class KeyRing:
    """Keys by prefix, each remembered for ``fresh_s`` seconds after it was read.

    A revoked key is refused by every process at the latest ``fresh_s`` seconds after its revocation was
    committed. While the database cannot be reached nobody can revoke either; keys that are remembered
    then stay valid for ``grace_s`` seconds.

    A pepper is changed without ending keys: those hashed with the former one stay valid as long as it is
    given, and each is hashed anew with the present one when it is read.
    """

    def __init__(
        self,
        find: Callable[[str], StoredKey | None],
        *,
        pepper: str = "",
        former_pepper: str | None = None,
        renew: Callable[[str, str, str], None] | None = None,
        note_use: Callable[[str], None] | None = None,
        fresh_s: float = 10.0,
        grace_s: float = 900.0,
        development_key: str | None = None,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._find = find
        self._pepper = pepper
        self._former_pepper = former_pepper
        self._renew = renew
        self._note_use = note_use
        self._fresh_s = fresh_s
        self._grace_s = grace_s
        self._development_key = development_key
        self._clock = clock
        self._remembered: OrderedDict[str, _Remembered] = OrderedDict()
        self._lock = threading.Lock()

    def recall(self, text: str) -> Principal | None:
        """Return the holder of a key that is fresh in memory, without any reading."""
        remembered = self._remembered.get(prefix_of(text))
        if remembered is None or not compare_digest(remembered.digest, digest_of(text)):
            return DEVELOPMENT if self._is_development_key(text) else None
        if self._clock() > remembered.fresh_until_s or not _is_valid(remembered.key):
            return None
        self._use(remembered.key)
        return remembered.principal

    def verify(self, text: str) -> Principal:
        """Return the holder of a key, reading the database if memory does not know it freshly.

        Raises
        ------
        InvalidCredentialsError
            If the key is unknown, wrong, expired or revoked.
        """
        if known := self.recall(text):
            return known
        parsed = parse_key_text(text)
        if parsed is None:
            raise InvalidCredentialsError
        key, read_at_s = self._read(parsed.prefix)
        # An unknown prefix is compared too, so that it takes as long as a wrong secret.
        is_known = self._matches(key, parsed.secret)
        if key is None or not is_known or not _is_valid(key):
            raise InvalidCredentialsError
        self._use(key)
        self._bring_up_to_date(key, parsed.secret)
        return self._remember(parsed, key, read_at_s)

    def forget(self, prefix: str) -> None:
        """Drop a key from memory, so that a revocation made in this process holds at once."""
        with self._lock:
            self._remembered.pop(prefix, None)

    def _is_development_key(self, text: str) -> bool:
        return self._development_key is not None and is_same(text, self._development_key)

    def _read(self, prefix: str) -> tuple[StoredKey | None, float]:
        now_s = self._clock()
        try:
            return self._find(prefix), now_s
        except SQLAlchemyError:
            remembered = self._remembered.get(prefix)
            if remembered is None or now_s - remembered.read_at_s > self._grace_s:
                raise
            logger.warning("key store unreachable, trusting memory", exc_info=True)
            return remembered.key, remembered.read_at_s

    def _matches(self, key: StoredKey | None, secret: str) -> bool:
        stored = key.key_hash if key else _NOTHING
        if is_same(hash_secret(secret, self._pepper), stored):
            return True
        former = self._former_pepper
        return former is not None and is_same(hash_secret(secret, former), stored)

    def _use(self, key: StoredKey) -> None:
        if self._note_use is not None:
            self._note_use(key.id)

    def _bring_up_to_date(self, key: StoredKey, secret: str) -> None:
        present = hash_secret(secret, self._pepper)
        if self._renew is not None and not is_same(present, key.key_hash):
            self._renew(key.id, key.key_hash, present)

    def _remember(self, text: KeyText, key: StoredKey, read_at_s: float) -> Principal:
        # A scope that this version does not know is left out instead of refusing the whole key.
        scopes = frozenset(Scope(name) for name in key.scopes if name in set(Scope))
        principal = Principal(key.id, key.tenant_id, scopes)
        with self._lock:
            fresh_until_s = self._clock() + self._fresh_s
            self._remembered[text.prefix] = _Remembered(
                digest_of(str(text)), key, principal, read_at_s, fresh_until_s
            )
            self._remembered.move_to_end(text.prefix)
            if len(self._remembered) > _MOST_REMEMBERED:
                self._remembered.popitem(last=False)
        return principal


def _is_valid(key: StoredKey) -> bool:
    if key.revoked_at is not None:
        return False
    return key.expires_at is None or datetime.now(UTC) < key.expires_at
