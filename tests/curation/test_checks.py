from __future__ import annotations

import pytest

from service.curation import Decision, propose, review
from service.curation.checks import check_references, check_unused
from service.curation.errors import DanglingProposalError, RowInUseError
from service.storage import Database
from tests.factories.knowledge import row


def test_what_is_there_may_be_named(knowledge: Database) -> None:
    with knowledge.reading() as session:
        check_references(session, "limits", row("limits", id="own", scale_id="series"))


@pytest.mark.parametrize(
    ("table", "values", "column", "target"),
    [
        ("limits", {"scale_id": ""}, "scale_id", "scales"),
        ("limits", {"scale_id": "nowhere"}, "scale_id", "scales"),
        ("finishes", {"underplate_id": "nowhere"}, "underplate_id", "finishes"),
        ("measurements", {"subject_kind": "electrode", "subject_id": "x"}, "subject_id", "electrodes"),
        ("measurements", {"subject_kind": "weather", "subject_id": "zinc"}, "subject_id", ""),
    ],
)
def test_what_is_not_there_may_not(
    knowledge: Database, table: str, values: dict[str, str], column: str, target: str
) -> None:
    with knowledge.reading() as session, pytest.raises(DanglingProposalError) as caught:
        check_references(session, table, row(table, id="own") | values)
    assert (caught.value.column, caught.value.target) == (column, target)


def test_what_was_rejected_is_not_coming(knowledge: Database) -> None:
    limit = row("limits", id="own", scale_id="series", source_id="book")
    with knowledge.writing() as session:
        source = propose(session, "sources", row("sources", id="book"), reason="new", by="ada")
        check_references(session, "limits", limit)
        review(session, source.id, Decision.REJECT, by="ben")
        with pytest.raises(DanglingProposalError):
            check_references(session, "limits", limit)


def test_only_what_nobody_names_may_go(knowledge: Database) -> None:
    with knowledge.reading() as session:
        check_unused(session, "compounds", "grease")
        with pytest.raises(RowInUseError) as caught:
            check_unused(session, "electrolytes", "brine")
    assert caught.value.users == (("measurements", "zinc-in-brine"),)
