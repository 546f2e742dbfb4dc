"""Proposals with their comments and reviews."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.storage.errors import NotStoredError
from service.storage.repositories.copying import copied
from service.storage.repositories.pages import DEFAULT_LIMIT, Page, page_of, text_cursor
from service.storage.tables import CommentRow, ProposalRow, ReviewRow, new_id, utc_now


@dataclass(frozen=True, slots=True)
class Proposal:
    """A change to one row of the knowledge base, and how far it has come."""

    id: str
    kind: str
    table_name: str
    row_key: str
    before: Mapping[str, Any] | None
    after: Mapping[str, Any] | None
    reason: str
    state: str
    proposed_by: str
    created_at: datetime
    closed_at: datetime | None
    closing_reason: str
    release_label: str | None


@dataclass(frozen=True, slots=True)
class Comment:
    """A remark."""

    id: str
    proposal_id: str
    author: str
    text: str
    created_at: datetime


@dataclass(frozen=True, slots=True)
class Review:
    """A decision, approve or reject."""

    id: str
    proposal_id: str
    reviewer: str
    decision: str
    text: str
    created_at: datetime


class ProposalsRepository:
    """Proposals by identifier; whether a step is allowed is decided in ``curation``."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(
        self,
        *,
        kind: str,
        table_name: str,
        row_key: str,
        before: Mapping[str, Any] | None,
        after: Mapping[str, Any] | None,
        reason: str,
        state: str,
        proposed_by: str,
    ) -> Proposal:
        """Keep a new proposal."""
        row = ProposalRow(
            id=new_id("proposal"),
            kind=kind,
            table_name=table_name,
            row_key=row_key,
            before=before,
            after=after,
            reason=reason,
            state=state,
            proposed_by=proposed_by,
        )
        self._session.add(row)
        self._session.flush()
        return copied(Proposal, row)

    def get(self, proposal_id: str, *, for_change: bool = False) -> Proposal:
        """Return a proposal; ``for_change`` makes others wait who want to change it too.

        Raises
        ------
        NotStoredError
            If there is no such proposal.
        """
        row = self._session.get(ProposalRow, proposal_id, with_for_update=for_change or None)
        if row is None:
            raise NotStoredError("proposal", proposal_id)
        return copied(Proposal, row)

    def move(
        self,
        proposal_id: str,
        state: str,
        *,
        closing_reason: str = "",
        is_closed: bool = False,
        release_label: str | None = None,
    ) -> Proposal:
        """Bring a proposal into another state."""
        row = self._session.get_one(ProposalRow, proposal_id)
        row.state = state
        row.closing_reason = closing_reason
        row.closed_at = utc_now() if is_closed else None
        row.release_label = release_label
        self._session.flush()
        return copied(Proposal, row)

    def page(
        self,
        *,
        state: str = "",
        table_name: str = "",
        row_key: str = "",
        kind: str = "",
        proposed_by: str = "",
        limit: int = DEFAULT_LIMIT,
        cursor: str = "",
    ) -> Page[Proposal]:
        """Return proposals, oldest first."""
        statement = select(ProposalRow).where(ProposalRow.id > text_cursor(cursor)).order_by(ProposalRow.id)
        wanted = {
            ProposalRow.state: state,
            ProposalRow.table_name: table_name,
            ProposalRow.row_key: row_key,
            ProposalRow.kind: kind,
            ProposalRow.proposed_by: proposed_by,
        }
        for column, value in wanted.items():
            if value:
                statement = statement.where(column == value)
        found = [copied(Proposal, row) for row in self._session.scalars(statement.limit(limit + 1))]
        return page_of(found, limit, lambda proposal: proposal.id)

    def all_in(self, state: str) -> list[Proposal]:
        """Return every proposal in a state, oldest first."""
        statement = select(ProposalRow).where(ProposalRow.state == state).order_by(ProposalRow.id)
        return [copied(Proposal, row) for row in self._session.scalars(statement)]

    def comment(self, proposal_id: str, author: str, text: str) -> Comment:
        """Add a remark."""
        row = CommentRow(id=new_id("comment"), proposal_id=proposal_id, author=author, text=text)
        self._session.add(row)
        self._session.flush()
        return copied(Comment, row)

    def comments(self, proposal_id: str) -> list[Comment]:
        """Return the remarks on a proposal, oldest first."""
        statement = select(CommentRow).where(CommentRow.proposal_id == proposal_id).order_by(CommentRow.id)
        return [copied(Comment, row) for row in self._session.scalars(statement)]

    def review(self, proposal_id: str, reviewer: str, decision: str, text: str) -> Review:
        """Add a decision."""
        row = ReviewRow(
            id=new_id("review"), proposal_id=proposal_id, reviewer=reviewer, decision=decision, text=text
        )
        self._session.add(row)
        self._session.flush()
        return copied(Review, row)

    def reviews(self, proposal_id: str) -> list[Review]:
        """Return the decisions on a proposal, oldest first."""
        statement = select(ReviewRow).where(ReviewRow.proposal_id == proposal_id).order_by(ReviewRow.id)
        return [copied(Review, row) for row in self._session.scalars(statement)]
