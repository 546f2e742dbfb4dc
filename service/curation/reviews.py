"""Deciding on a proposal: always another key than the one that made it."""

from __future__ import annotations

from service.curation.errors import OwnProposalError, ProposalClosedError
from service.curation.records import Decision, State
from service.storage.engine import WriteSession
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.proposals import Proposal, ProposalsRepository


def review(
    session: WriteSession, proposal_id: str, decision: Decision, *, by: str, text: str = ""
) -> Proposal:
    """Approve an open proposal for the next release, or reject it.

    Raises
    ------
    NotStoredError
        If there is no such proposal.
    OwnProposalError
        If the reviewer made it.
    ProposalClosedError
        If it is no longer open.
    """
    proposals = ProposalsRepository(session)
    proposal = proposals.get(proposal_id, for_change=True)
    if proposal.proposed_by == by:
        raise OwnProposalError(proposal_id)
    if proposal.state != State.OPEN:
        raise ProposalClosedError(proposal_id, proposal.state)
    proposals.review(proposal_id, by, decision, text)
    is_approved = decision is Decision.APPROVE
    state = State.APPROVED if is_approved else State.REJECTED
    AuditRepository(session).append(by, f"proposal.{state}", "proposal", proposal_id, text=text)
    return proposals.move(
        proposal_id, state, closing_reason="" if is_approved else text, is_closed=not is_approved
    )
