"""Assemblies under watch: what was stored, what was said about it, and how long that holds."""

from __future__ import annotations

import pytest
from sqlalchemy.exc import IntegrityError

from service.storage import Database, publish
from service.storage.errors import NotStoredError, StaleVersionError
from service.storage.repositories.assemblies import AssembliesRepository, JudgedVersion, StoredAssembly
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.factories.knowledge import small_package

BODY: dict[str, list[int]] = {"parts": [], "joints": []}


def added(database: Database, name: str = "mast", tenant: str = "port") -> StoredAssembly:
    with database.writing() as session:
        return AssembliesRepository(session).add(tenant, name, BODY)


def judged(label: str, version: int = 1) -> JudgedVersion:
    return JudgedVersion(version, "1", label, 3, ("electrode:zinc",), {"worst": "x"}, b"full")


def later_release(database: Database) -> str:
    limit = small_package()["limits"][0]
    with database.writing() as session:
        KnowledgeRepository(session).update("limits", [limit | {"limit_V": 0.1}])
        return publish(session, by="test").label


def test_an_assembly_reads_back_and_has_one_name(tenants: Database) -> None:
    mast = added(tenants)
    assert (mast.version, mast.holds_under) == (1, None)
    with tenants.reading() as session:
        assemblies = AssembliesRepository(session)
        assert assemblies.get(mast.id) == mast
        assert assemblies.find("port", "mast") == mast
        assert assemblies.find("yard", "mast") is None
        assert assemblies.body(mast.id) == BODY
        assert (assemblies.summary(mast.id), assemblies.report(mast.id)) == (None, None)
    with pytest.raises(IntegrityError):
        added(tenants)
    added(tenants, tenant="yard")


def test_a_change_needs_the_version_that_was_seen(tenants: Database, release_label: str) -> None:
    mast = added(tenants)
    with tenants.writing() as session:
        assemblies = AssembliesRepository(session)
        assert assemblies.keep_report(mast.id, judged(release_label), held_under=None)
        changed = assemblies.replace(mast.id, {"parts": [1]}, version=1)
        assert (changed.version, changed.holds_under) == (2, None)
        assert assemblies.body(mast.id) == {"parts": [1]}
        assert assemblies.summary(mast.id) == {"worst": "x"}
        assert changed.updated_at > mast.updated_at
        with pytest.raises(StaleVersionError):
            assemblies.replace(mast.id, {}, version=1)


def test_a_report_belongs_to_one_version_and_follows_the_one_before(
    tenants: Database, release_label: str
) -> None:
    mast = added(tenants)
    with tenants.writing() as session:
        assemblies = AssembliesRepository(session)
        assert not assemblies.keep_report(mast.id, judged(release_label, version=2), held_under=None)
        assert not assemblies.keep_report(mast.id, judged(release_label), held_under=release_label)
        assert assemblies.keep_report(mast.id, judged(release_label), held_under=None)
        assert assemblies.report(mast.id) == b"full"
        kept = assemblies.get(mast.id)
        assert (kept.joints, kept.release_label, kept.holds_under) == (3, release_label, release_label)
        assert kept.updated_at == mast.updated_at


def test_who_is_behind_a_release_is_known_with_what_it_rests_on(
    tenants: Database, release_label: str
) -> None:
    mast, cabinet = added(tenants), added(tenants, "cabinet")
    with tenants.writing() as session:
        AssembliesRepository(session).keep_report(mast.id, judged(release_label), held_under=None)
    with tenants.reading() as session:
        assemblies = AssembliesRepository(session)
        assert assemblies.behind("port", release_label, "1") == [(cabinet, [])]
        assert assemblies.tenants_behind(release_label, "1") == []
        assert assemblies.tenants_behind(release_label, "2") == ["port"]
    later = later_release(tenants)
    with tenants.writing() as session:
        assemblies = AssembliesRepository(session)
        found = assemblies.behind("port", later, "1")
        assert [(each.id, keys) for each, keys in found] == [(mast.id, ["electrode:zinc"]), (cabinet.id, [])]
        assert assemblies.behind("port", later, "1", after=mast.id) == [found[1]]
        assemblies.say_holding([mast.id, cabinet.id], before=(release_label, ""), after=(later, "abc"))
        assert [each.id for each, _ in assemblies.behind("port", later, "1", "abc")] == [cabinet.id]
        held = assemblies.get(mast.id)
    assert (held.release_label, held.holds_under) == (release_label, later)


def test_a_removed_name_is_free_again(tenants: Database) -> None:
    mast = added(tenants)
    with tenants.writing() as session:
        AssembliesRepository(session).remove(mast.id)
    with pytest.raises(NotStoredError), tenants.reading() as session:
        AssembliesRepository(session).get(mast.id)
    added(tenants)


def test_pages_are_in_order_of_adding_and_of_one_tenant(tenants: Database) -> None:
    all_three = [added(tenants, name) for name in ("mast", "cabinet", "battery box")]
    added(tenants, tenant="yard")
    with tenants.reading() as session:
        first = AssembliesRepository(session).page("port", limit=2)
        rest = AssembliesRepository(session).page("port", limit=2, cursor=first.next_cursor)
    assert [*first.items, *rest.items] == all_three


def test_who_follows_a_policy_is_known_and_can_be_doubted(tenants: Database, release_label: str) -> None:
    with tenants.writing() as session:
        assemblies = AssembliesRepository(session)
        policies = ("house", "house@2", {"name": "house"}, None)
        for place, named in enumerate(policies):
            assemblies.add("port", f"mast {place}", BODY | {"stored_policy": named})
        assemblies.add("yard", "mast", BODY | {"stored_policy": "house"})
        (mast,) = assemblies.naming_policy("port", "house")
        assert mast.name == "mast 0"
        assert assemblies.keep_report(mast.id, judged(release_label), held_under=None)
        before = assemblies.find("port", "mast 0")
        assemblies.say_doubtful([mast.id])
        doubted = assemblies.find("port", "mast 0")
    assert before is not None
    assert doubted is not None
    assert (before.holds_under, doubted.holds_under) == (release_label, None)
    assert (doubted.version, doubted.updated_at) == (before.version, before.updated_at)


def test_what_reports_rest_on_is_given_for_all_tenants(tenants: Database, release_label: str) -> None:
    stored = [added(tenants), added(tenants, tenant="yard"), added(tenants, "cabinet")]
    with tenants.writing() as session:
        assemblies = AssembliesRepository(session)
        for assembly in stored[:2]:
            assert assemblies.keep_report(assembly.id, judged(release_label), held_under=None)
        assert list(assemblies.all_resting()) == [(3, ["electrode:zinc"])] * 2
