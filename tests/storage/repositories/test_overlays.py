from __future__ import annotations

import threading
from contextlib import closing

from service.storage import Database
from service.storage.notices import Hearing
from service.storage.repositories.keys import TenantsRepository
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


def test_every_version_is_kept_and_the_newest_is_in_force(tenants: Database) -> None:
    with tenants.writing() as session:
        overlays = OverlaysRepository(session)
        overlays.lock("port")
        assert (overlays.in_force("port"), overlays.editions()) == ("", {})
        for overlay_hash, limit in (("one", 0.1), ("two", 0.2), ("two", 0.2), ("one", 0.1)):
            overlays.keep_version("port", overlay_hash, {"limits": [{"limit_V": limit}]}, "ada")
        overlays.keep_version("yard", "other", {}, "eve")
        overlays.keep_version("yard", "", {}, "eve")
    with tenants.reading() as session:
        overlays = OverlaysRepository(session)
        assert overlays.in_force("port") == "one"
        assert overlays.all_in_force() == {"port": "one"}
        assert overlays.version("port", "two") == {"limits": [{"limit_V": 0.2}]}
        assert overlays.version("yard", "two") is None
        assert overlays.editions() == {"port": 3, "yard": 5}


def test_a_new_version_is_heard_of(postgresql_url: str) -> None:
    heard = threading.Event()
    with closing(Database.open(postgresql_url)) as database, closing(Hearing(database, heard.set)):
        with database.writing() as session:
            TenantsRepository(session).ensure("port", "Port")
        for number in range(100):  # until it listens
            with database.writing() as session:
                OverlaysRepository(session).keep_version("port", f"hash {number}", {}, "ada")
            if heard.wait(0.3):
                break
        assert heard.is_set()
