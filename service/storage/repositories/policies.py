"""Versions of tenants' policies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import desc, select
from sqlalchemy.orm import Session

from service.storage.repositories.copying import copied
from service.storage.tables import PolicyRow, new_id


@dataclass(frozen=True, slots=True)
class StoredPolicy:
    """One version of a policy; ``content_hash`` is part of the identity of the answers under it."""

    id: str
    tenant_id: str
    name: str
    version: int
    content_hash: str
    body: Mapping[str, Any]
    created_at: datetime
    created_by: str


class PoliciesRepository:
    """Policies by tenant and name; versions are added and never changed."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(
        self, tenant_id: str, name: str, content_hash: str, body: Mapping[str, Any], by: str
    ) -> StoredPolicy:
        """Add the next version; the same content as the newest gives that one back."""
        newest = self.newest(tenant_id, name)
        if newest is not None and newest.content_hash == content_hash:
            return newest
        row = PolicyRow(
            id=new_id("policy"),
            tenant_id=tenant_id,
            name=name,
            version=newest.version + 1 if newest else 1,
            content_hash=content_hash,
            body=dict(body),
            created_by=by,
        )
        self._session.add(row)
        self._session.flush()
        return copied(StoredPolicy, row)

    def newest(self, tenant_id: str, name: str) -> StoredPolicy | None:
        """Return the newest version, ``None`` if there is none."""
        versions = self.versions(tenant_id, name)
        return versions[0] if versions else None

    def versions(self, tenant_id: str, name: str) -> list[StoredPolicy]:
        """Return all versions, newest first."""
        statement = (
            select(PolicyRow)
            .where(PolicyRow.tenant_id == tenant_id, PolicyRow.name == name)
            .order_by(desc(PolicyRow.version))
        )
        return [copied(StoredPolicy, row) for row in self._session.scalars(statement)]

    def find_by_hash(self, tenant_id: str, content_hash: str) -> StoredPolicy | None:
        """Return the version that an answer was given under."""
        statement = select(PolicyRow).where(
            PolicyRow.tenant_id == tenant_id, PolicyRow.content_hash == content_hash
        )
        row = self._session.scalars(statement.order_by(PolicyRow.version)).first()
        return None if row is None else copied(StoredPolicy, row)

    def names(self, tenant_id: str) -> list[str]:
        """Return the names of a tenant's policies."""
        statement = select(PolicyRow.name).where(PolicyRow.tenant_id == tenant_id).distinct()
        return list(self._session.scalars(statement.order_by(PolicyRow.name)))
