"""Whether a proposed row would hang together with the rest of the knowledge base."""

from __future__ import annotations

from sqlalchemy.orm import Session

from service.curation.errors import DanglingProposalError, RowInUseError
from service.curation.records import Kind, State
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.proposals import ProposalsRepository
from service.storage.rows import REQUIRED, Values, referred

PENDING = (State.OPEN, State.APPROVED)


def check_references(session: Session, table: str, row: Values) -> None:
    """Check that everything the row names is there, or is proposed itself.

    Raises
    ------
    DanglingProposalError
        At the first name that is not, or is empty where the record needs one.
    """
    for column, target in REQUIRED[table].items():
        if not row[column]:
            raise DanglingProposalError(table, column, target, "")
    knowledge = KnowledgeRepository(session)
    for column, target, name in referred(table, row):
        is_there = bool(target) and knowledge.find(target, name) is not None
        if not is_there and not _is_pending(session, target, name):
            raise DanglingProposalError(table, column, target, name)


def check_unused(session: Session, table: str, key: str) -> None:
    """Check that no other row names this one.

    Raises
    ------
    RowInUseError
        With the rows that do.
    """
    users = KnowledgeRepository(session).users(table, key)
    if users:
        raise RowInUseError(table, key, users)


def _is_pending(session: Session, table: str, key: str) -> bool:
    proposals = ProposalsRepository(session)
    return any(
        proposals.page(state=state, table_name=table, row_key=key, kind=Kind.ADD, limit=1).items
        for state in PENDING
    )
