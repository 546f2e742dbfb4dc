from __future__ import annotations

from service.catalogue.difference import ChangeKind, diff
from service.curation import Decision, Publication, State, propose, propose_withdrawal, publish, review
from service.storage import Database, current_release, load
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.proposals import Proposal, ProposalsRepository
from tests.factories.knowledge import Values, row, small_package

LIMIT = small_package()["limits"][0]


def approved(database: Database, table: str, values: Values) -> Proposal:
    with database.writing() as session:
        proposal = propose(session, table, values, reason="better source", by="ada")
        return review(session, proposal.id, Decision.APPROVE, by="ben")


def approved_withdrawal(database: Database, table: str, key: str) -> Proposal:
    with database.writing() as session:
        proposal = propose_withdrawal(session, table, key, reason="wrong", by="ada")
        return review(session, proposal.id, Decision.APPROVE, by="ben")


def published(database: Database) -> Publication:
    with database.writing() as session:
        return publish(session, by="cleo", note="monthly")


def test_approved_proposals_come_out_with_the_next_release(knowledge: Database) -> None:
    proposal = approved(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with knowledge.reading() as session:
        before = current_release(session)
    assert before is not None
    publication = published(knowledge)
    assert publication.left_out == ()
    assert [(each.id, each.state, each.release_label) for each in publication.proposals] == [
        (proposal.id, State.PUBLISHED, publication.release.label)
    ]
    with knowledge.reading() as session:
        changes = diff(load(session, before.label), load(session, publication.release.label))
        line = AuditRepository(session).page(subject_id=proposal.id).items[0]
    assert [(change.key, change.before, change.after, change.kind) for change in changes] == [
        (("normal",), 0.25, 0.15, ChangeKind.CORRECTED)
    ]
    assert (line.actor, line.action, line.detail) == (
        "cleo",
        "proposal.published",
        {"release": publication.release.label},
    )


def test_what_is_not_approved_stays_out(knowledge: Database) -> None:
    with knowledge.writing() as session:
        propose(session, "limits", LIMIT | {"limit_V": 0.15}, reason="better", by="ada")
    publication = published(knowledge)
    assert publication.proposals == ()
    with knowledge.reading() as session:
        assert publication.release == current_release(session)
        assert load(session, publication.release.label).limits["normal"].limit_V == 0.25


def test_a_withdrawn_figure_is_kept_with_its_reason(knowledge: Database) -> None:
    approved_withdrawal(knowledge, "measurements", "zinc-in-brine")
    label = published(knowledge).release.label
    with knowledge.reading() as session:
        assert load(session, label).measurements["zinc-in-brine"].quarantine_reason == "wrong"


def test_new_rows_may_name_each_other_even_in_a_ring(knowledge: Database) -> None:
    approved(knowledge, "sources", row("sources", id="book"))
    approved(knowledge, "electrodes", row("electrodes", id="bronze"))
    with knowledge.writing() as session:
        bronze = row("materials", id="cusn8", electrode_id="bronze")
        made = propose(session, "materials", bronze, reason="new", by="ada")
        review(session, made.id, Decision.APPROVE, by="ben")
    assert len(published(knowledge).proposals) == 3
    approved(knowledge, "electrodes", row("electrodes", id="bronze", representative_material_id="cusn8"))
    assert len(published(knowledge).proposals) == 1


def test_rows_that_name_each_other_go_together_in_the_right_order(knowledge: Database) -> None:
    approved_withdrawal(knowledge, "finish_substrates", '["gold-plate","copper alloy"]')
    with knowledge.writing() as session:
        gold = propose_withdrawal(
            session, "designations", '["s235","EN name","S235JR"]', reason="x", by="ada"
        )
        review(session, gold.id, Decision.APPROVE, by="ben")
    assert len(published(knowledge).proposals) == 2
    approved_withdrawal(knowledge, "finishes", "gold-plate")
    assert len(published(knowledge).proposals) == 1
    approved_withdrawal(knowledge, "finishes", "nickel-plate")
    assert len(published(knowledge).proposals) == 1


def test_a_proposal_whose_row_has_changed_since_is_left_out(knowledge: Database) -> None:
    first = approved(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    second = approved(knowledge, "limits", LIMIT | {"limit_V": 0.2})
    publication = published(knowledge)
    assert [each.id for each in publication.proposals] == [first.id]
    assert [(each.proposal.id, each.reason) for each in publication.left_out] == [
        (second.id, "the row has changed since it was proposed")
    ]
    with knowledge.reading() as session:
        assert ProposalsRepository(session).get(second.id).state == State.APPROVED
    assert [each.proposal.id for each in published(knowledge).left_out] == [second.id]


def test_a_proposal_whose_ground_is_gone_is_left_out_with_what_stands_on_it(knowledge: Database) -> None:
    with knowledge.writing() as session:
        source = propose(session, "sources", row("sources", id="book"), reason="x", by="ada")
    scale = approved(knowledge, "scales", row("scales", id="own", source_id="book"))
    limit = approved(knowledge, "limits", row("limits", id="own", scale_id="own"))
    publication = published(knowledge)
    assert publication.proposals == ()
    assert [(each.proposal.id, each.reason) for each in publication.left_out] == [
        (scale.id, "source_id names 'book', which is not in sources"),
        (limit.id, "scale_id names 'own', which is not in scales"),
    ]
    with knowledge.writing() as session:
        review(session, source.id, Decision.APPROVE, by="ben")
    assert len(published(knowledge).proposals) == 3


def test_a_removal_is_left_out_once_somebody_names_the_row(knowledge: Database) -> None:
    going = approved_withdrawal(knowledge, "compounds", "grease")
    with knowledge.writing() as session:
        named = row("measurements", id="m", subject_kind="compound", subject_id="grease", quantity="density")
        KnowledgeRepository(session).insert("measurements", [named])
    left_out = published(knowledge).left_out
    assert [(each.proposal.id, each.reason) for each in left_out] == [
        (going.id, "measurements 'm' names the row")
    ]


def test_a_row_and_the_only_one_that_names_it_may_change_and_go_together(knowledge: Database) -> None:
    package = small_package()
    approved(knowledge, "scales", row("scales", id="other"))
    published(knowledge)
    with knowledge.writing() as session:
        KnowledgeRepository(session).update("measurements", [package["measurements"][0] | {"scale_id": ""}])
        KnowledgeRepository(session).delete("limits", ["normal"])
    going = approved_withdrawal(knowledge, "scales", "series")
    coming = approved(knowledge, "limits", row("limits", id="late", scale_id="series"))
    reasons = {each.proposal.id: each.reason for each in published(knowledge).left_out}
    assert reasons == {coming.id: "scale_id names 'series', which is not in scales"}
    with knowledge.reading() as session:
        assert ProposalsRepository(session).get(going.id).state == State.PUBLISHED
