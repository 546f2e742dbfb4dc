from __future__ import annotations

import pytest

from service.curation import Decision, State, propose, review
from service.curation.errors import OwnProposalError, ProposalClosedError
from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.proposals import Proposal, ProposalsRepository
from tests.factories.knowledge import row


@pytest.fixture
def proposal(knowledge: Database) -> Proposal:
    with knowledge.writing() as session:
        return propose(session, "sources", row("sources", id="book"), reason="needed", by="ada")


def reviewed(database: Database, proposal: Proposal, decision: Decision, by: str = "ben") -> Proposal:
    with database.writing() as session:
        return review(session, proposal.id, decision, by=by, text="looked it up")


@pytest.mark.parametrize(
    ("decision", "state", "is_closed", "closing_reason"),
    [
        (Decision.APPROVE, State.APPROVED, False, ""),
        (Decision.REJECT, State.REJECTED, True, "looked it up"),
    ],
)
def test_a_different_key_decides(
    knowledge: Database,
    proposal: Proposal,
    decision: Decision,
    state: State,
    is_closed: bool,  # noqa: FBT001
    closing_reason: str,
) -> None:
    found = reviewed(knowledge, proposal, decision)
    assert found.state == state
    assert (found.closed_at is not None, found.closing_reason) == (is_closed, closing_reason)
    with knowledge.reading() as session:
        reviews = ProposalsRepository(session).reviews(proposal.id)
        line = AuditRepository(session).page(subject_id=proposal.id).items[0]
    assert [(each.reviewer, each.decision, each.text) for each in reviews] == [
        ("ben", decision, "looked it up")
    ]
    assert (line.actor, line.action) == ("ben", f"proposal.{state}")


def test_the_same_key_is_refused(knowledge: Database, proposal: Proposal) -> None:
    with pytest.raises(OwnProposalError):
        reviewed(knowledge, proposal, Decision.APPROVE, by="ada")
    with knowledge.reading() as session:
        assert ProposalsRepository(session).get(proposal.id).state == State.OPEN


def test_a_decision_is_made_once(knowledge: Database, proposal: Proposal) -> None:
    reviewed(knowledge, proposal, Decision.REJECT)
    with pytest.raises(ProposalClosedError):
        reviewed(knowledge, proposal, Decision.APPROVE, by="eve")


def test_there_must_be_a_proposal(knowledge: Database) -> None:
    with pytest.raises(NotStoredError), knowledge.writing() as session:
        review(session, "proposal_0", Decision.APPROVE, by="ben")
