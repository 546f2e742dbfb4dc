"""Proposals as plain values."""

from __future__ import annotations

from service.storage.repositories.proposals import Proposal
from service.storage.tables import utc_now
from service.web.proposals import document, key_parts

BEFORE = {"id": "normal", "limit_V": 0.25, "note": ""}
PROPOSAL = Proposal(
    "proposal_1", "change", "limits", "normal", BEFORE, BEFORE | {"limit_V": 0.15}, "why", "open", "key_1",
    utc_now(), None, "", None,
)  # fmt: skip


def differing(before: dict[str, object] | None, after: dict[str, object] | None) -> list[str]:
    values = {name: getattr(PROPOSAL, name) for name in Proposal.__slots__}
    return [
        each["field"]
        for each in document(Proposal(**{**values, "before": before, "after": after}))["differences"]
    ]


def test_only_what_changes_is_told() -> None:
    told = document(PROPOSAL)
    assert told["differences"] == [{"field": "limit_V", "before": 0.25, "after": 0.15}]
    assert told["address"] == "/v1/proposals/proposal_1"


def test_a_whole_record_that_comes_or_goes_is_told_by_its_fields() -> None:
    assert differing(None, BEFORE) == differing(BEFORE, None) == ["id", "limit_V", "note"]


def test_keys_of_several_columns_are_taken_apart() -> None:
    assert key_parts("limits", "normal") == ["normal"]
    assert key_parts("designations", '["s235","EN number","1.0038"]') == ["s235", "EN number", "1.0038"]
