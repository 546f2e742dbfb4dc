"""Where a key ring finds keys: the database, with a note of when they were used."""

from __future__ import annotations

import logging
from datetime import datetime

from sqlalchemy.exc import SQLAlchemyError

from service.storage.engine import Database
from service.storage.repositories.keys import USE_NOTED_EVERY, ApiKey, KeysRepository
from service.storage.tables import utc_now

logger = logging.getLogger(__name__)


class KeyStore:
    """Keys of one database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def find(self, prefix: str) -> ApiKey | None:
        """Return the key with a prefix and note that it is in use; no key of a disabled tenant is found."""
        with self._database.reading() as session:
            key = KeysRepository(session).find_valid(prefix)
        now = utc_now()
        if key is not None and _is_due(key, now):
            self._note_use(key, now)
        return key

    def _note_use(self, key: ApiKey, now: datetime) -> None:
        try:
            with self._database.writing() as session:
                KeysRepository(session).note_use(key.id, now)
        except SQLAlchemyError:
            # A lookup must not fail because a remark about it cannot be written.
            logger.warning("use of key not noted", exc_info=True, extra={"facts": {"key_id": key.id}})


def _is_due(key: ApiKey, now: datetime) -> bool:
    return key.last_used_at is None or key.last_used_at < now - USE_NOTED_EVERY
