from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.waivers import Waiver, WaiversRepository

NOW = datetime(2026, 6, 1, tzinfo=UTC)


def granted(database: Database, subject: str, days: int, tenant: str = "port") -> Waiver:
    with database.writing() as session:
        return WaiversRepository(session).grant(
            tenant,
            subject,
            reason="short mission",
            granted_by="ada",
            expires_at=NOW + timedelta(days=days),
            conditions=("inspect yearly",),
        )


def test_a_waiver_holds_until_its_day(tenants: Database) -> None:
    waiver = granted(tenants, "q1", 10)
    assert waiver.conditions == ("inspect yearly",)
    with tenants.reading() as session:
        waivers = WaiversRepository(session)
        assert waivers.in_force("port", ["q1", "q2"], NOW) == {"q1": waiver}
        assert waivers.in_force("port", ["q1"], NOW + timedelta(days=10)) == {}


def test_of_two_the_longer_one_counts(tenants: Database) -> None:
    longer = granted(tenants, "q1", 30)
    granted(tenants, "q1", 10)
    with tenants.reading() as session:
        assert WaiversRepository(session).in_force("port", ["q1"], NOW) == {"q1": longer}


def test_a_revoked_waiver_no_longer_holds_and_keeps_its_first_reason(tenants: Database) -> None:
    waiver = granted(tenants, "q1", 10)
    with tenants.writing() as session:
        waivers = WaiversRepository(session)
        waivers.revoke("port", waiver.id, "mission extended", NOW)
        again = waivers.revoke("port", waiver.id, "another reason", NOW + timedelta(days=1))
        assert waivers.in_force("port", ["q1"], NOW) == {}
    assert (again.revoked_at, again.revoked_reason) == (NOW, "mission extended")


def test_waivers_belong_to_their_tenant(tenants: Database) -> None:
    waiver = granted(tenants, "q1", 10)
    with tenants.writing() as session:
        waivers = WaiversRepository(session)
        assert waivers.in_force("yard", ["q1"], NOW) == {}
        assert waivers.page("yard").items == ()
        with pytest.raises(NotStoredError):
            waivers.revoke("yard", waiver.id, "not mine", NOW)


def test_pages_are_in_order_of_granting(tenants: Database) -> None:
    waivers = [granted(tenants, f"q{number}", 10) for number in range(3)]
    with tenants.reading() as session:
        first = WaiversRepository(session).page("port", limit=2)
        rest = WaiversRepository(session).page("port", limit=2, cursor=first.next_cursor)
    assert [*first.items, *rest.items] == waivers
