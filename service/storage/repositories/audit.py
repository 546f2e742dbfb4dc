"""The append-only trail of who did what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, and_, desc, or_, select
from sqlalchemy.orm import Session

from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, number_cursor, page_of
from service.storage.tables import ApiKeyRow, AuditRow

SHARED = ("proposal", "release")
"""Kinds of things that belong to all tenants together."""

OVERLAY = "overlay"
"""Kind of a thing that belongs to the tenant of its name."""


@dataclass(frozen=True, slots=True)
class AuditLine:
    """One step. ``detail`` holds what this kind of step adds."""

    serial: int
    happened_at: datetime
    actor: str
    action: str
    subject_kind: str
    subject_id: str
    detail: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Viewer:
    """Who reads the trail: a tenant sees what concerns all and what was done with its own keys."""

    tenant_id: str
    key_id: str


class AuditRepository:
    """Lines can be added and read, nothing else."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def append(
        self, actor: str, action: str, subject_kind: str, subject_id: str, **detail: object
    ) -> AuditLine:
        """Write one line, in the transaction of the step that it records."""
        row = AuditRow(
            actor=actor, action=action, subject_kind=subject_kind, subject_id=subject_id, detail=detail
        )
        self._session.add(row)
        self._session.flush()
        return copied(AuditLine, row)

    def page(
        self,
        *,
        limit: int = DEFAULT_LIMIT,
        cursor: str = "",
        actor: str = "",
        subject_kind: str = "",
        subject_id: str = "",
        viewer: Viewer | None = None,
    ) -> Page[AuditLine]:
        """Return lines, newest first: all of them, or what a viewer may see."""
        statement = select(AuditRow).order_by(desc(AuditRow.serial)).limit(limit + 1)
        if cursor:
            statement = statement.where(AuditRow.serial < number_cursor(cursor))
        if viewer is not None:
            statement = statement.where(_visible_to(viewer))
        wanted = {
            AuditRow.actor: actor,
            AuditRow.subject_kind: subject_kind,
            AuditRow.subject_id: subject_id,
        }
        for column, value in wanted.items():
            if value:
                statement = statement.where(column == value)
        lines = [copied(AuditLine, row) for row in self._session.scalars(statement)]
        return page_of(lines, limit, lambda line: line.serial)


def _visible_to(viewer: Viewer) -> ColumnElement[bool]:
    own_keys = select(ApiKeyRow.id).where(ApiKeyRow.tenant_id == viewer.tenant_id)
    return or_(
        AuditRow.subject_kind.in_(SHARED),
        AuditRow.actor.in_(own_keys),
        AuditRow.actor == viewer.key_id,
        and_(AuditRow.subject_kind == OVERLAY, AuditRow.subject_id == viewer.tenant_id),
    )
