from __future__ import annotations

import pytest

from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.proposals import Proposal, ProposalsRepository


def made(database: Database, key: str, by: str = "ada", kind: str = "add") -> Proposal:
    with database.writing() as session:
        return ProposalsRepository(session).add(
            kind=kind,
            table_name="limits",
            row_key=key,
            before=None,
            after={"limit_V": 0.25},
            reason="because",
            state="open",
            proposed_by=by,
        )


def test_a_proposal_reads_back_as_it_was_made(database: Database) -> None:
    proposal = made(database, "a")
    with database.reading() as session:
        assert ProposalsRepository(session).get(proposal.id) == proposal
    assert (proposal.before, proposal.after, proposal.release_label) == (None, {"limit_V": 0.25}, None)
    assert proposal.closed_at is None


def test_an_unknown_proposal_is_named(database: Database) -> None:
    with database.reading() as session, pytest.raises(NotStoredError) as caught:
        ProposalsRepository(session).get("proposal_0")
    assert (caught.value.kind, caught.value.identifier) == ("proposal", "proposal_0")


def test_pages_are_in_order_of_making_and_can_be_filtered(database: Database) -> None:
    proposals = [made(database, key, by) for key, by in (("a", "ada"), ("b", "ben"), ("c", "ada"))]
    with database.reading() as session:
        repository = ProposalsRepository(session)
        first = repository.page(limit=2)
        rest = repository.page(limit=2, cursor=first.next_cursor)
        assert [*first.items, *rest.items] == proposals
        assert list(repository.page(proposed_by="ada").items) == [proposals[0], proposals[2]]
        assert list(repository.page(table_name="limits", row_key="b", kind="add").items) == [proposals[1]]
        assert repository.page(state="approved").items == ()
        assert repository.all_in("open") == proposals


def test_a_proposal_moves_from_state_to_state(database: Database) -> None:
    proposal = made(database, "a")
    with database.writing() as session:
        repository = ProposalsRepository(session)
        repository.get(proposal.id, for_change=True)
        assert repository.move(proposal.id, "approved").closed_at is None
        closed = repository.move(proposal.id, "withdrawn", closing_reason="no", is_closed=True)
    assert (closed.state, closed.closing_reason) == ("withdrawn", "no")
    assert closed.closed_at is not None


def test_remarks_and_decisions_stay_with_their_proposal(database: Database) -> None:
    one, two = made(database, "a"), made(database, "b")
    with database.writing() as session:
        repository = ProposalsRepository(session)
        remarks = [repository.comment(one.id, "ben", text) for text in ("first", "second")]
        decision = repository.review(one.id, "ben", "approve", "fine")
    with database.reading() as session:
        repository = ProposalsRepository(session)
        assert repository.comments(one.id) == remarks
        assert repository.reviews(one.id) == [decision]
        assert repository.comments(two.id) == []
        assert repository.reviews(two.id) == []
