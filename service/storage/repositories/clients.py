"""Clients of the token issuer that are shut out here."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import delete, exists, select
from sqlalchemy.orm import Session

from service.storage.tables import BlockedClientRow, TenantRow


@dataclass(frozen=True, slots=True)
class BlockedClient:
    """A client that is shut out, since when."""

    client_id: str
    blocked_at: datetime


class BlockedClientsRepository:
    """Blocked clients by the identifier that their tokens carry."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def block(self, client_id: str, moment: datetime) -> bool:
        """Shut a client out; tell whether it was not before."""
        if self._session.get(BlockedClientRow, client_id) is not None:
            return False
        self._session.add(BlockedClientRow(client_id=client_id, blocked_at=moment))
        self._session.flush()
        return True

    def unblock(self, client_id: str) -> bool:
        """Let a client in again; tell whether it was shut out."""
        gone = delete(BlockedClientRow).where(BlockedClientRow.client_id == client_id)
        return bool(self._session.scalars(gone.returning(BlockedClientRow.client_id)).all())

    def all(self) -> list[BlockedClient]:
        """Return all that are shut out."""
        rows = self._session.scalars(select(BlockedClientRow).order_by(BlockedClientRow.client_id))
        return [BlockedClient(row.client_id, row.blocked_at) for row in rows]

    def is_admitted(self, tenant_id: str, client_id: str) -> bool:
        """Tell whether a client may act for a tenant: not blocked, the tenant known and not disabled."""
        is_blocked = exists().where(BlockedClientRow.client_id == client_id)
        statement = select(TenantRow.id).where(
            TenantRow.id == tenant_id, TenantRow.disabled_at.is_(None), ~is_blocked
        )
        return self._session.scalar(statement) is not None
