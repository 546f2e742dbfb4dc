from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.curation import (
    Decision,
    Impact,
    change_overlay,
    impact,
    propose,
    propose_withdrawal,
    publish,
    review,
)
from service.curation.dependence import PINNED
from service.storage import Database, current_release, load
from service.storage.repositories.assemblies import AssembliesRepository, JudgedVersion
from service.storage.repositories.keys import TenantsRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.factories.knowledge import Values, row, small_package

LIMIT = small_package()["limits"][0]
STEEL = small_package()["materials"][0]


def current(database: Database) -> Catalogue:
    with database.reading() as session:
        release = current_release(session)
        assert release is not None
        return load(session, release.label)


def found(database: Database) -> Impact:
    before = current(database)
    with database.reading() as session:
        return impact(session, before)


def approve(database: Database, table: str, values: Values) -> None:
    with database.writing() as session:
        proposal = propose(session, table, values, reason="better source", by="ada")
        review(session, proposal.id, Decision.APPROVE, by="ben")


def judged(database: Database, name: str, joints: int, *rests_on: str) -> None:
    with database.writing() as session:
        TenantsRepository(session).ensure("port", "Port")
        assemblies = AssembliesRepository(session)
        stored = assemblies.add("port", name, {})
        release = current_release(session)
        assert release is not None
        version = JudgedVersion(1, "1", release.label, joints, rests_on, {}, b"{}")
        assert assemblies.keep_report(stored.id, version, held_under=None)


def test_nothing_approved_touches_nothing(knowledge: Database) -> None:
    judged(knowledge, "mast", 3, f"materials/{STEEL['id']}")
    there = found(knowledge)
    assert (there.planned.fitting, there.changes, there.assemblies, there.misfits) == ((), (), 0, 0)


def test_it_tells_what_would_come_out_and_leaves_everything_as_it_is(knowledge: Database) -> None:
    approve(knowledge, "materials", STEEL | {"name": "Another name"})
    judged(knowledge, "mast", 3, f"materials/{STEEL['id']}")
    judged(knowledge, "cabinet", 5, "materials/other")
    judged(knowledge, "pinned", 7, PINNED)
    there = found(knowledge)
    assert [proposal.row_key for proposal in there.planned.fitting] == [STEEL["id"]]
    assert [(change.field, change.after) for change in there.changes] == [("name", "Another name")]
    assert (there.assemblies, there.joints) == (1, 3)
    assert there.release.materials[STEEL["id"]].name == "Another name"
    with knowledge.reading() as session:
        assert KnowledgeRepository(session).find("materials", STEEL["id"]) == STEEL
    assert current(knowledge).materials[STEEL["id"]].name == STEEL["name"]


def test_a_proposal_that_does_not_fit_is_named(knowledge: Database) -> None:
    approve(knowledge, "limits", LIMIT | {"limit_V": 0.15})
    with knowledge.writing() as session:
        KnowledgeRepository(session).update("limits", [LIMIT | {"limit_V": 0.11}])
    there = found(knowledge)
    assert (there.planned.fitting, len(there.planned.left_out)) == ((), 1)
    assert [change.after for change in there.changes] == [0.11]


@pytest.mark.parametrize(("named", "expected"), [("spare", 1), (None, 0)])
def test_an_overlay_that_would_not_fit_is_counted(
    knowledge: Database, named: str | None, expected: int
) -> None:
    approve(knowledge, "finishes", row("finishes", id="spare", name="Spare"))
    with knowledge.writing() as session:
        publish(session, by="cleo")
    ban = ("bans", {"finish_id": named or small_package()["finishes"][0]["id"], "reason": "untried"})
    on = current(knowledge)
    with knowledge.writing() as session:
        TenantsRepository(session).ensure("port", "Port")
        change_overlay(session, "port", put=[ban], on=on, by="ada")
        proposal = propose_withdrawal(session, "finishes", "spare", reason="wrong", by="ada")
        review(session, proposal.id, Decision.APPROVE, by="ben")
    assert found(knowledge).misfits == expected
