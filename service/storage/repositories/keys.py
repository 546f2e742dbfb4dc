"""API keys."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime

from sqlalchemy import bindparam, select, update
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import ApiKeyRow


@dataclass(frozen=True, slots=True)
class ApiKey:
    """A key without its secret."""

    id: str
    prefix: str
    key_hash: str
    name: str
    tenant_id: str
    scopes: tuple[str, ...]
    created_at: datetime
    expires_at: datetime | None = None
    revoked_at: datetime | None = None
    last_used_at: datetime | None = None


class KeysRepository:
    """Keys by prefix and by identifier."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, key: ApiKey) -> None:
        """Keep a new key."""
        self._session.add(ApiKeyRow(**asdict(key) | {"scopes": list(key.scopes)}))
        self._session.flush()

    def find_by_prefix(self, prefix: str) -> ApiKey | None:
        """Return the key whose readable part is ``prefix``."""
        row = self._session.scalar(select(ApiKeyRow).where(ApiKeyRow.prefix == prefix))
        return None if row is None else copied(ApiKey, row)

    def find(self, key_id: str) -> ApiKey | None:
        """Return a key by its identifier."""
        row = self._session.get(ApiKeyRow, key_id)
        return None if row is None else copied(ApiKey, row)

    def page(
        self, *, tenant_id: str | None = None, limit: int = DEFAULT_LIMIT, cursor: str = ""
    ) -> Page[ApiKey]:
        """Return the keys of a tenant, or of all, oldest first."""
        statement = select(ApiKeyRow).where(ApiKeyRow.id > text_cursor(cursor)).order_by(ApiKeyRow.id)
        if tenant_id is not None:
            statement = statement.where(ApiKeyRow.tenant_id == tenant_id)
        found = [copied(ApiKey, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda key: key.id)

    def revoke(self, key_id: str, at: datetime) -> ApiKey:
        """Refuse a key from now on; the first revocation counts.

        Raises
        ------
        NotStoredError
            If there is no such key.
        """
        row = self._session.get(ApiKeyRow, key_id)
        if row is None:
            raise NotStoredError("key", key_id)
        row.revoked_at = row.revoked_at or at
        self._session.flush()
        return copied(ApiKey, row)

    def touch(self, last_used: Mapping[str, datetime]) -> None:
        """Note when keys were last used; done now and then, not on each request."""
        if last_used:
            self._session.connection().execute(
                update(ApiKeyRow)
                .where(ApiKeyRow.id == bindparam("key_id"))
                .values(last_used_at=bindparam("moment")),
                [{"key_id": key, "moment": moment} for key, moment in last_used.items()],
            )
