from __future__ import annotations

from service.storage import Database
from service.storage.repositories.seeded import SeededRepository


def test_the_ledger_holds_the_last_content_of_each_row(database: Database) -> None:
    with database.writing() as session:
        ledger = SeededRepository(session)
        ledger.record({("limits", "a"): "1", ("limits", "b"): "1", ("scales", "a"): "1"})
        ledger.record({("limits", "a"): "2"})
        ledger.record({})
        ledger.forget([("limits", "b")])
        ledger.forget([])
    with database.reading() as session:
        assert SeededRepository(session).hashes() == {("limits", "a"): "2", ("scales", "a"): "1"}
