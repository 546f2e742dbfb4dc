from __future__ import annotations

from dataclasses import replace

import pytest

from service.curation.plan import STALE, carry_out, plan
from service.storage import Database
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.proposals import Proposal
from service.storage.rows import key_text
from service.storage.tables import utc_now
from tests.factories.knowledge import Values, row, small_package

PACKAGE = small_package()


def proposal(table: str, before: Values | None, after: Values | None) -> Proposal:
    key = key_text(table, after or before or {})
    return Proposal(key, "", table, key, before, after, "", "approved", "ada", utc_now(), None, "", None)


def outcome(database: Database, *proposals: Proposal) -> tuple[list[str], dict[str, str]]:
    with database.writing() as session:
        planned = plan(session, proposals)
        carry_out(session, planned.fitting)
    return [each.id for each in planned.fitting], {each.proposal.id: each.reason for each in planned.left_out}


def test_a_ring_of_new_rows_comes_in_together(knowledge: Database) -> None:
    electrode = proposal(
        "electrodes", None, row("electrodes", id="bronze", representative_material_id="cusn8")
    )
    material = proposal("materials", None, row("materials", id="cusn8", electrode_id="bronze"))
    assert outcome(knowledge, material, electrode) == (["cusn8", "bronze"], {})
    with knowledge.reading() as session:
        assert KnowledgeRepository(session).users("materials", "cusn8") == [("electrodes", "bronze")]


def test_a_broken_ring_stays_out_whole(knowledge: Database) -> None:
    electrode = proposal(
        "electrodes", None, row("electrodes", id="bronze", representative_material_id="cusn8")
    )
    material = proposal(
        "materials", None, row("materials", id="cusn8", electrode_id="bronze", source_id="nowhere")
    )
    fitting, left_out = outcome(knowledge, electrode, material)
    assert fitting == []
    assert left_out == {
        "cusn8": "source_id names 'nowhere', which is not in sources",
        "bronze": "representative_material_id names 'cusn8', which is not in materials",
    }


def test_a_row_may_go_when_those_who_name_it_go_or_change_too(knowledge: Database) -> None:
    limit, measurement = PACKAGE["limits"][0], PACKAGE["measurements"][0]
    scale = proposal("scales", PACKAGE["scales"][0], None)
    changes = [
        proposal("limits", limit, None),
        proposal("measurements", measurement, measurement | {"scale_id": ""}),
    ]
    assert outcome(knowledge, scale, *changes) == (["series", "normal", "zinc-in-brine"], {})


@pytest.mark.parametrize("kept", [0, 1])
def test_a_row_stays_while_one_still_names_it(knowledge: Database, kept: int) -> None:
    limit, measurement = PACKAGE["limits"][0], PACKAGE["measurements"][0]
    changes = [
        proposal("limits", limit, None),
        proposal("measurements", measurement, measurement | {"scale_id": ""}),
    ]
    users = ["measurements 'zinc-in-brine' names the row", "limits 'normal' names the row"]
    scale = proposal("scales", PACKAGE["scales"][0], None)
    fitting, left_out = outcome(knowledge, scale, changes[kept])
    assert fitting == [changes[kept].id]
    assert left_out == {"series": users[kept]}


def test_a_changed_row_that_still_names_what_goes_holds_it(knowledge: Database) -> None:
    limit = PACKAGE["limits"][0]
    measurement = PACKAGE["measurements"][0]
    fitting, left_out = outcome(
        knowledge,
        proposal("measurements", measurement, None),
        proposal("limits", limit, limit | {"limit_V": 0.1}),
        proposal("scales", PACKAGE["scales"][0], None),
    )
    assert fitting == ["zinc-in-brine", "normal"]
    assert left_out == {"series": "limits 'normal' names the row"}


def test_of_two_proposals_for_a_row_the_second_is_stale(knowledge: Database) -> None:
    limit = PACKAGE["limits"][0]
    first = proposal("limits", limit, limit | {"limit_V": 0.1})
    second = replace(first, id="second")
    assert outcome(knowledge, first, second) == (["normal"], {"second": STALE})


def test_a_proposal_on_another_state_is_stale(knowledge: Database) -> None:
    limit = PACKAGE["limits"][0]
    seen_differently = proposal("limits", limit | {"limit_V": 9.0}, limit | {"limit_V": 0.1})
    assert outcome(knowledge, seen_differently) == ([], {"normal": STALE})
