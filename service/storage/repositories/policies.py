"""Versions of tenants' policies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError, StaleVersionError
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import PolicyRow, new_id

REMOVED = ""
"""Content hash of the version that takes a policy away; its number is never given again."""


@dataclass(frozen=True, slots=True)
class StoredPolicy:
    """One version of a policy."""

    id: str
    tenant_id: str
    name: str
    version: int
    content_hash: str
    body: Mapping[str, Any]
    created_at: datetime
    created_by: str

    @property
    def reference(self) -> str:
        """What names this version, today and after later ones."""
        return f"{self.name}@{self.version}"


class PoliciesRepository:
    """Policies by tenant and name; versions are added and never changed."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(
        self, tenant_id: str, name: str, content_hash: str, body: Mapping[str, Any], by: str
    ) -> StoredPolicy:
        """Add the next version; the same content as the newest gives that one back.

        Raises
        ------
        StaleVersionError
            If somebody else adds this version at the same moment.
        """
        newest = self._newest(tenant_id, name)
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
        try:
            self._session.flush()
        except IntegrityError as error:
            raise StaleVersionError("policy", name, row.version - 1) from error
        return copied(StoredPolicy, row)

    def remove(self, tenant_id: str, name: str, by: str) -> None:
        """Take a policy away: no new work is done by it, and its versions can still be read.

        Raises
        ------
        NotStoredError
            If no such policy is in force.
        """
        if self.find(tenant_id, name) is None:
            raise NotStoredError("policy", name)
        self.add(tenant_id, name, REMOVED, {}, by)

    def find(self, tenant_id: str, name: str, version: int | None = None) -> StoredPolicy | None:
        """Return a version, or the one in force; ``None`` if there is none."""
        found = self._newest(tenant_id, name, version)
        return None if found is None or found.content_hash == REMOVED else found

    def page(self, tenant_id: str, *, limit: int = DEFAULT_LIMIT, cursor: str = "") -> Page[StoredPolicy]:
        """Return the policies of a tenant that are in force, by name."""
        newest = (
            select(PolicyRow.name, func.max(PolicyRow.version).label("version"))
            .where(PolicyRow.tenant_id == tenant_id)
            .group_by(PolicyRow.name)
            .subquery()
        )
        statement = (
            select(PolicyRow)
            .join(newest, (newest.c.name == PolicyRow.name) & (newest.c.version == PolicyRow.version))
            .where(
                PolicyRow.tenant_id == tenant_id,
                PolicyRow.content_hash != REMOVED,
                PolicyRow.name > text_cursor(cursor),
            )
            .order_by(PolicyRow.name)
        )
        found = [copied(StoredPolicy, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda policy: policy.name)

    def _newest(self, tenant_id: str, name: str, version: int | None = None) -> StoredPolicy | None:
        statement = select(PolicyRow).where(PolicyRow.tenant_id == tenant_id, PolicyRow.name == name)
        if version is not None:
            statement = statement.where(PolicyRow.version == version)
        row = self._session.scalars(statement.order_by(PolicyRow.version.desc()).limit(1)).first()
        return None if row is None else copied(StoredPolicy, row)
