from __future__ import annotations

from service.storage import Database
from service.storage.repositories.policies import PoliciesRepository


def test_each_new_content_is_a_version(tenants: Database) -> None:
    with tenants.writing() as session:
        policies = PoliciesRepository(session)
        first = policies.add("port", "house", "h1", {"life": 10}, "ada")
        second = policies.add("port", "house", "h2", {"life": 20}, "ada")
        again = policies.add("port", "house", "h2", {"life": 20}, "ben")
    assert (first.version, second.version, again) == (1, 2, second)
    with tenants.reading() as session:
        policies = PoliciesRepository(session)
        assert policies.versions("port", "house") == [second, first]
        assert policies.newest("port", "house") == second
        assert policies.find_by_hash("port", "h1") == first


def test_policies_belong_to_their_tenant(tenants: Database) -> None:
    with tenants.writing() as session:
        policies = PoliciesRepository(session)
        policies.add("port", "house", "h1", {}, "ada")
        policies.add("port", "export", "h2", {}, "ada")
        assert policies.newest("yard", "house") is None
        assert policies.find_by_hash("yard", "h1") is None
        assert (policies.names("port"), policies.names("yard")) == (["export", "house"], [])
