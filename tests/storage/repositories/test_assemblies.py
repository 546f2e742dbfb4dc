from __future__ import annotations

import pytest
from sqlalchemy.exc import IntegrityError

from service.storage import Database
from service.storage.errors import NotStoredError, StaleVersionError
from service.storage.repositories.assemblies import AssembliesRepository, StoredAssembly

BODY: dict[str, list[int]] = {"parts": [], "joints": []}


def added(database: Database, name: str = "mast", tenant: str = "port") -> StoredAssembly:
    with database.writing() as session:
        return AssembliesRepository(session).add(tenant, name, BODY)


def test_an_assembly_reads_back_and_has_one_name(tenants: Database) -> None:
    mast = added(tenants)
    assert (mast.version, mast.body, mast.summary) == (1, BODY, None)
    with tenants.reading() as session:
        assert AssembliesRepository(session).get("port", mast.id) == mast
        assert AssembliesRepository(session).report("port", mast.id) is None
    with pytest.raises(IntegrityError):
        added(tenants)
    added(tenants, tenant="yard")


def test_a_change_needs_the_version_that_was_seen(tenants: Database, release_label: str) -> None:
    mast = added(tenants)
    with tenants.writing() as session:
        assemblies = AssembliesRepository(session)
        assemblies.keep_report(
            mast.id, version=1, release_label=release_label, summary={"worst": "x"}, report=b"r"
        )
        changed = assemblies.replace("port", mast.id, {"parts": [1]}, version=1)
        assert (changed.version, changed.body, changed.summary) == (2, {"parts": [1]}, None)
        assert changed.updated_at > mast.updated_at
        with pytest.raises(StaleVersionError):
            assemblies.replace("port", mast.id, {}, version=1)


def test_a_report_belongs_to_one_version(tenants: Database, release_label: str) -> None:
    mast = added(tenants)
    with tenants.writing() as session:
        assemblies = AssembliesRepository(session)
        facts = {"release_label": release_label, "summary": {"worst": "x"}, "report": b"full"}
        assert not assemblies.keep_report(mast.id, version=2, **facts)  # type: ignore[arg-type]
        assert assemblies.outdated(release_label) == [mast]
        assert assemblies.keep_report(mast.id, version=1, **facts)  # type: ignore[arg-type]
        assert assemblies.outdated(release_label) == []
        assert assemblies.report("port", mast.id) == b"full"
        assert assemblies.get("port", mast.id).summary == {"worst": "x"}


def test_a_removed_name_is_free_again(tenants: Database) -> None:
    mast = added(tenants)
    with tenants.writing() as session:
        AssembliesRepository(session).remove("port", mast.id)
    with pytest.raises(NotStoredError), tenants.reading() as session:
        AssembliesRepository(session).get("port", mast.id)
    added(tenants)


def test_assemblies_belong_to_their_tenant(tenants: Database) -> None:
    mast = added(tenants)
    with tenants.reading() as session:
        assemblies = AssembliesRepository(session)
        with pytest.raises(NotStoredError):
            assemblies.get("yard", mast.id)
        assert assemblies.page("yard").items == ()


def test_pages_are_in_order_of_adding(tenants: Database) -> None:
    all_three = [added(tenants, name) for name in ("mast", "cabinet", "battery box")]
    with tenants.reading() as session:
        first = AssembliesRepository(session).page("port", limit=2)
        rest = AssembliesRepository(session).page("port", limit=2, cursor=first.next_cursor)
    assert [*first.items, *rest.items] == all_three
