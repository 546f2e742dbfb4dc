"""Proposing a change, talking about it, taking it back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from service.curation.checks import check_references, check_unused
from service.curation.errors import (
    NothingChangesError,
    NotYourProposalError,
    ProposalClosedError,
    ReasonMissingError,
    UnknownRowError,
)
from service.curation.records import Kind, State
from service.curation.rows import check_table, checked_row
from service.storage.engine import WriteSession
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.proposals import Comment, Proposal, ProposalsRepository
from service.storage.rows import Values, key_text

QUARANTINED = frozenset({"measurements", "kinetics"})
"""Tables whose rows are withdrawn by quarantine: kept and shown with the reason, never used."""


def propose(session: WriteSession, table: str, row: Mapping[str, Any], *, reason: str, by: str) -> Proposal:
    """Propose a new row, or a change to the row that has the same key.

    Raises
    ------
    UnknownTableError, MalformedRowError
        If there is no such table, or the row does not fit its record.
    ReasonMissingError, NothingChangesError
        If nobody could tell what the proposal is for.
    DanglingProposalError
        If the row names something that neither exists nor is proposed; a figure needs its source.
    """
    after = checked_row(table, row)
    key = key_text(table, after)
    before = KnowledgeRepository(session).find(table, key)
    if before == after:
        raise NothingChangesError(table, key)
    check_references(session, table, after)
    kind = Kind.ADD if before is None else Kind.CHANGE
    return _file(session, kind, table, key, before, after, reason, by)


def propose_withdrawal(session: WriteSession, table: str, key: str, *, reason: str, by: str) -> Proposal:
    """Propose that a published row be used no longer.

    A measurement or set of kinetics is quarantined with the reason; any other row is removed.

    Raises
    ------
    UnknownTableError, UnknownRowError
        If there is no such row.
    ReasonMissingError
        If it is not said why.
    RowInUseError
        If other rows name the one to be removed.
    """
    check_table(table)
    before = KnowledgeRepository(session).find(table, key)
    if before is None:
        raise UnknownRowError(table, key)
    if table in QUARANTINED:
        if before["quarantine_reason"]:
            raise NothingChangesError(table, key)
        after = before | {"quarantine_reason": reason}
        return _file(session, Kind.CHANGE, table, key, before, after, reason, by)
    check_unused(session, table, key)
    return _file(session, Kind.REMOVE, table, key, before, None, reason, by)


def comment(session: WriteSession, proposal_id: str, text: str, *, by: str) -> Comment:
    """Remark on a proposal, whatever its state.

    Raises
    ------
    NotStoredError
        If there is no such proposal.
    ReasonMissingError
        If the remark is empty.
    """
    _check_reason(text)
    proposals = ProposalsRepository(session)
    proposals.get(proposal_id)
    remark = proposals.comment(proposal_id, by, text)
    AuditRepository(session).append(by, "proposal.commented", "proposal", proposal_id, comment_id=remark.id)
    return remark


def withdraw(session: WriteSession, proposal_id: str, *, reason: str, by: str) -> Proposal:
    """Take back a proposal of one's own that is not published yet.

    Raises
    ------
    NotStoredError
        If there is no such proposal.
    NotYourProposalError, ProposalClosedError, ReasonMissingError
        If it is another's, has gone too far, or it is not said why.
    """
    _check_reason(reason)
    proposals = ProposalsRepository(session)
    proposal = proposals.get(proposal_id, for_change=True)
    if proposal.proposed_by != by:
        raise NotYourProposalError(proposal_id)
    if proposal.state not in (State.OPEN, State.APPROVED):
        raise ProposalClosedError(proposal_id, proposal.state)
    AuditRepository(session).append(by, "proposal.withdrawn", "proposal", proposal_id, reason=reason)
    return proposals.move(proposal_id, State.WITHDRAWN, closing_reason=reason, is_closed=True)


def amended_row(session: Session, table: str, key: str, fields: Mapping[str, Any]) -> Values:
    """Return the row under a key with some of its fields replaced, ready to be proposed.

    Raises
    ------
    UnknownTableError, UnknownRowError
        If there is no such row.
    """
    check_table(table)
    row = KnowledgeRepository(session).find(table, key)
    if row is None:
        raise UnknownRowError(table, key)
    return {**row, **fields}


def _file(
    session: WriteSession,
    kind: Kind,
    table: str,
    key: str,
    before: Values | None,
    after: Values | None,
    reason: str,
    by: str,
) -> Proposal:
    _check_reason(reason)
    proposal = ProposalsRepository(session).add(
        kind=kind,
        table_name=table,
        row_key=key,
        before=before,
        after=after,
        reason=reason,
        state=State.OPEN,
        proposed_by=by,
    )
    facts = {"kind": kind.value, "table": table, "key": key, "reason": reason}
    AuditRepository(session).append(by, "proposal.made", "proposal", proposal.id, **facts)
    return proposal


def _check_reason(reason: str) -> None:
    if not reason.strip():
        raise ReasonMissingError
