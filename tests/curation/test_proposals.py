from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.errors import MalformedRowError
from service.curation import Decision, Kind, State, comment, propose, propose_withdrawal, review, withdraw
from service.curation.errors import (
    DanglingProposalError,
    NothingChangesError,
    NotYourProposalError,
    ProposalClosedError,
    ReasonMissingError,
    RowInUseError,
    UnknownRowError,
    UnknownTableError,
)
from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.proposals import Proposal, ProposalsRepository
from tests.factories.knowledge import Values, row, small_package

LIMIT = small_package()["limits"][0]


def made(database: Database, table: str, values: Values, reason: str = "better source") -> Proposal:
    with database.writing() as session:
        return propose(session, table, values, reason=reason, by="ada")


def withdrawal(database: Database, table: str, key: str, reason: str = "wrong alloy") -> Proposal:
    with database.writing() as session:
        return propose_withdrawal(session, table, key, reason=reason, by="ada")


def actions(database: Database, proposal: Proposal) -> list[tuple[str, str]]:
    with database.reading() as session:
        lines = AuditRepository(session).page(subject_kind="proposal", subject_id=proposal.id).items
    return [(line.actor, line.action) for line in reversed(lines)]


def test_a_changed_row_is_proposed_with_what_its_author_saw(knowledge: Database) -> None:
    proposal = made(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    assert (proposal.kind, proposal.state, proposal.row_key) == (Kind.CHANGE, State.OPEN, "normal")
    assert proposal.before == LIMIT
    assert proposal.after == LIMIT | {"limit_V": 0.15}
    assert actions(knowledge, proposal) == [("ada", "proposal.made")]


def test_a_new_row_has_nothing_before(knowledge: Database) -> None:
    proposal = made(knowledge, "limits", row("limits", id="strict", scale_id="series", limit_V=0.1))
    assert (proposal.kind, proposal.before) == (Kind.ADD, None)


def test_proposing_changes_nothing_yet(knowledge: Database) -> None:
    made(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with knowledge.reading() as session:
        assert KnowledgeRepository(session).find("limits", "normal") == LIMIT


def test_a_row_must_fit_its_record(knowledge: Database) -> None:
    with pytest.raises(MalformedRowError, match="limit_V"):
        made(knowledge, "limits", LIMIT | {"limit_V": "much"})


def test_an_item_of_a_list_may_not_hold_the_separator(knowledge: Database) -> None:
    with pytest.raises(MalformedRowError, match="helps"):
        made(knowledge, "compounds", row("compounds", id="wax", helps=["a;b"]))


def test_the_table_must_exist(knowledge: Database) -> None:
    with pytest.raises(UnknownTableError):
        made(knowledge, "audit", {})
    with pytest.raises(UnknownTableError):
        withdrawal(knowledge, "audit", "1")


def test_a_proposal_must_change_something(knowledge: Database) -> None:
    with pytest.raises(NothingChangesError):
        made(knowledge, "limits", LIMIT)


def test_a_proposal_must_say_why(knowledge: Database) -> None:
    with pytest.raises(ReasonMissingError):
        made(knowledge, "limits", LIMIT | {"limit_V": 0.15}, reason=" ")


@pytest.mark.parametrize(
    ("changed", "column"),
    [
        ({"source_id": ""}, "source_id"),
        ({"source_id": "nowhere"}, "source_id"),
        ({"scale_id": "x"}, "scale_id"),
    ],
)
def test_a_figure_needs_a_source_and_its_scale(knowledge: Database, changed: Values, column: str) -> None:
    with pytest.raises(DanglingProposalError) as caught:
        made(knowledge, "limits", LIMIT | changed)
    assert caught.value.column == column


def test_a_figure_may_name_a_source_that_is_proposed_too(knowledge: Database) -> None:
    made(knowledge, "sources", row("sources", id="new-book"))
    assert made(knowledge, "limits", LIMIT | {"source_id": "new-book"}).state == State.OPEN


def test_a_measurement_may_be_withdrawn_by_quarantine(knowledge: Database) -> None:
    proposal = withdrawal(knowledge, "measurements", "zinc-in-brine")
    assert proposal.kind == Kind.CHANGE
    assert proposal.after is not None
    assert proposal.after["quarantine_reason"] == "wrong alloy"
    with pytest.raises(ReasonMissingError):
        withdrawal(knowledge, "measurements", "zinc-in-brine", reason="")


def test_what_is_quarantined_cannot_be_withdrawn_again(knowledge: Database) -> None:
    with knowledge.writing() as session:
        quarantined = small_package()["measurements"][0] | {"quarantine_reason": "unfit"}
        KnowledgeRepository(session).update("measurements", [quarantined])
    with pytest.raises(NothingChangesError):
        withdrawal(knowledge, "measurements", "zinc-in-brine")


def test_another_row_is_withdrawn_by_removal(knowledge: Database) -> None:
    proposal = withdrawal(knowledge, "designations", '["s235","EN name","S235JR"]')
    assert (proposal.kind, proposal.after) == (Kind.REMOVE, None)


@pytest.mark.parametrize(
    ("table", "key", "user"),
    [
        ("scales", "series", ("limits", "normal")),
        ("materials", "zinc-sheet", ("electrodes", "zinc")),
        ("materials", "s235", ("measurements", "steel-density")),
        ("finishes", "nickel-plate", ("finishes", "gold-plate")),
    ],
)
def test_a_row_that_others_name_stays(
    knowledge: Database, table: str, key: str, user: tuple[str, str]
) -> None:
    with pytest.raises(RowInUseError) as caught:
        withdrawal(knowledge, table, key)
    assert user in caught.value.users


def test_only_what_is_there_can_be_withdrawn(knowledge: Database) -> None:
    with pytest.raises(UnknownRowError):
        withdrawal(knowledge, "limits", "nowhere")


def test_remarks_are_kept_in_order_and_audited(knowledge: Database) -> None:
    proposal = made(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with knowledge.writing() as session:
        remarks = [
            comment(session, proposal.id, text, by=by) for by, text in (("ben", "why?"), ("ada", "because"))
        ]
    with knowledge.reading() as session:
        assert ProposalsRepository(session).comments(proposal.id) == remarks
    assert actions(knowledge, proposal)[1:] == [("ben", "proposal.commented"), ("ada", "proposal.commented")]


def test_a_remark_needs_words_and_a_proposal(knowledge: Database) -> None:
    proposal = made(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with pytest.raises(ReasonMissingError), knowledge.writing() as session:
        comment(session, proposal.id, "", by="ben")
    with pytest.raises(NotStoredError), knowledge.writing() as session:
        comment(session, "proposal_0", "hm", by="ben")


def test_an_author_may_withdraw_with_a_reason(knowledge: Database) -> None:
    proposal = made(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with knowledge.writing() as session:
        gone = withdraw(session, proposal.id, reason="misread the table", by="ada")
    assert (gone.state, gone.closing_reason) == (State.WITHDRAWN, "misread the table")
    assert gone.closed_at is not None
    assert actions(knowledge, proposal) == [("ada", "proposal.made"), ("ada", "proposal.withdrawn")]


@pytest.mark.parametrize(
    ("step", "error"),
    [
        ({"reason": "no", "by": "ben"}, NotYourProposalError),
        ({"reason": " ", "by": "ada"}, ReasonMissingError),
    ],
)
def test_nobody_else_withdraws_and_never_silently(
    knowledge: Database, step: dict[str, Any], error: type[Exception]
) -> None:
    proposal = made(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with pytest.raises(error), knowledge.writing() as session:
        withdraw(session, proposal.id, **step)


def test_an_approved_proposal_may_be_withdrawn_a_closed_one_not(knowledge: Database) -> None:
    proposal = made(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with knowledge.writing() as session:
        review(session, proposal.id, Decision.APPROVE, by="ben")
        withdraw(session, proposal.id, reason="second thoughts", by="ada")
    with pytest.raises(ProposalClosedError), knowledge.writing() as session:
        withdraw(session, proposal.id, reason="third thoughts", by="ada")
