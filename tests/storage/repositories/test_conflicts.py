from __future__ import annotations

from service.storage import Database
from service.storage.repositories.conflicts import add_unless_there
from service.storage.tables import SeededRow


def rows(*keys: str, content: str) -> list[dict[str, str]]:
    return [{"table_name": "limits", "row_key": key, "row_hash": content} for key in keys]


def test_only_new_rows_are_added_and_counted(database: Database) -> None:
    with database.writing() as session:
        assert add_unless_there(session, SeededRow, rows("a", "b", content="first")) == 2
        assert add_unless_there(session, SeededRow, rows("b", "c", content="second")) == 1
        assert add_unless_there(session, SeededRow, []) == 0
    with database.reading() as session:
        found = {row.row_key: row.row_hash for row in session.query(SeededRow)}
    assert found == {"a": "first", "b": "first", "c": "second"}
