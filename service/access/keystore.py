"""Where callers are looked up: the keys, tenants and blocked clients of one database."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from datetime import datetime

from sqlalchemy.exc import SQLAlchemyError

from service.storage.engine import Database
from service.storage.repositories.clients import BlockedClientsRepository
from service.storage.repositories.keys import ApiKey, KeysRepository

logger = logging.getLogger(__name__)


class KeyStore:
    """What one database knows about callers."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def find(self, prefix: str) -> ApiKey | None:
        """Return the key with a prefix; no key of a disabled tenant is found."""
        with self._database.reading() as session:
            return KeysRepository(session).find_valid(prefix)

    def is_admitted(self, tenant_id: str, client_id: str) -> bool:
        """Tell whether a client of the token issuer may act for a tenant."""
        with self._database.reading() as session:
            return BlockedClientsRepository(session).is_admitted(tenant_id, client_id)

    def renew(self, key_id: str, old_hash: str, new_hash: str) -> None:
        """Keep the hash of a key under the present pepper."""
        try:
            with self._database.writing() as session:
                KeysRepository(session).rehash(key_id, old_hash, new_hash)
        except SQLAlchemyError:
            # The key is valid all the same, and the next reading tries again.
            logger.warning("hash of key not renewed", exc_info=True, extra={"facts": {"key_id": key_id}})

    def note_uses(self, uses: Mapping[str, datetime]) -> None:
        """Write when keys were last used."""
        with self._database.writing() as session:
            KeysRepository(session).note_uses(uses)
