from __future__ import annotations

from service.storage import Database
from service.storage.repositories.overlays import OverlaysRepository


def test_rows_are_kept_by_tenant_table_and_key(tenants: Database) -> None:
    with tenants.writing() as session:
        overlays = OverlaysRepository(session)
        overlays.put("port", "limits", "b", {"limit_V": 0.1}, "ada")
        overlays.put("port", "bans", "a", {"reason": "x"}, "ada")
        overlays.put("yard", "limits", "b", {"limit_V": 0.9}, "eve")
    with tenants.reading() as session:
        overlays = OverlaysRepository(session)
        assert [(row.table_name, row.row_key, row.body) for row in overlays.rows("port")] == [
            ("bans", "a", {"reason": "x"}),
            ("limits", "b", {"limit_V": 0.1}),
        ]
        assert [row.body for row in overlays.rows("yard")] == [{"limit_V": 0.9}]


def test_putting_again_replaces_the_row(tenants: Database) -> None:
    with tenants.writing() as session:
        first = OverlaysRepository(session).put("port", "limits", "a", {"limit_V": 0.1}, "ada")
    with tenants.writing() as session:
        second = OverlaysRepository(session).put("port", "limits", "a", {"limit_V": 0.2}, "ben")
        assert OverlaysRepository(session).rows("port") == [second]
    assert (second.body, second.updated_by) == ({"limit_V": 0.2}, "ben")
    assert second.updated_at > first.updated_at


def test_removing_tells_whether_there_was_a_row(tenants: Database) -> None:
    with tenants.writing() as session:
        overlays = OverlaysRepository(session)
        overlays.put("port", "bans", "a", {"reason": "x"}, "ada")
        assert not overlays.remove("yard", "bans", "a")
        assert overlays.remove("port", "bans", "a")
        assert not overlays.remove("port", "bans", "a")
        assert overlays.rows("port") == []
