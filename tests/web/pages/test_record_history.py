from __future__ import annotations

import json
from datetime import UTC, datetime

from service.storage.repositories.releases import ReleaseInfo
from service.web.pages.record_history import Row, row_in, steps

DAY = datetime(2026, 11, 25, tzinfo=UTC)


def info(label: str) -> ReleaseInfo:
    return ReleaseInfo(label, "hash", DAY, "reviewer", "", "1.0.0", 1)


def row(**changed: object) -> Row:
    return {"id": "zn-pure", "strength_MPa": 30.0, "note": ""} | changed


def test_a_record_is_found_in_an_export() -> None:
    export = json.dumps({"tables": {"materials": [row(), row(id="pb")]}}).encode()
    assert row_in(export, "materials", "pb") == row(id="pb")
    assert row_in(export, "materials", "none") is None
    assert row_in(export, "finishes", "pb") is None


def test_each_release_says_what_it_did_newest_first() -> None:
    found = steps(
        [
            (info("1"), row()),
            (info("2"), row()),
            (info("3"), row(strength_MPa=40.0, note="Read again.")),
            (info("4"), None),
            (info("5"), row()),
        ]
    )
    assert [(step.label, step.what) for step in found] == [
        ("5", "added"),
        ("4", "removed"),
        ("3", "changed"),
        ("1", "already there"),
    ]
    assert found[2].changes == (("strength MPa", "30", "40"), ("note", "–", "Read again."))


def test_a_record_that_comes_later_is_added() -> None:
    assert [step.what for step in steps([(info("1"), None), (info("2"), row())])] == ["added"]
