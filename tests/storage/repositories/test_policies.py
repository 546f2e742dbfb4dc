from __future__ import annotations

import pytest

from service.storage import Database
from service.storage.errors import NotStoredError
from service.storage.repositories.policies import PoliciesRepository


def test_each_new_content_is_a_version(tenants: Database) -> None:
    with tenants.writing() as session:
        policies = PoliciesRepository(session)
        first = policies.add("port", "house", "h1", {"life": 10}, "ada")
        second = policies.add("port", "house", "h2", {"life": 20}, "ada")
        again = policies.add("port", "house", "h2", {"life": 20}, "ben")
    assert (first.reference, second.reference, again) == ("house@1", "house@2", second)
    with tenants.reading() as session:
        policies = PoliciesRepository(session)
        assert policies.find("port", "house") == second
        assert policies.find("port", "house", 1) == first
        assert policies.find("port", "house", 3) is None


def test_a_removed_policy_can_be_read_by_version_and_comes_back_as_a_later_one(tenants: Database) -> None:
    with tenants.writing() as session:
        policies = PoliciesRepository(session)
        first = policies.add("port", "house", "h1", {"life": 10}, "ada")
        policies.remove("port", "house", "ada")
        assert policies.find("port", "house") is policies.find("port", "house", 2) is None
        assert policies.find("port", "house", 1) == first
        assert policies.page("port").items == ()
        with pytest.raises(NotStoredError):
            policies.remove("port", "house", "ada")
        assert policies.add("port", "house", "h1", {"life": 10}, "ada").version == 3


def test_policies_belong_to_their_tenant(tenants: Database) -> None:
    with tenants.writing() as session:
        policies = PoliciesRepository(session)
        policies.add("port", "house", "h1", {}, "ada")
        policies.add("yard", "house", "h2", {}, "eve")
        policies.add("yard", "house", "h3", {}, "eve")
        found = policies.find("port", "house")
        assert found is not None
        assert found.content_hash == "h1"
        assert policies.find("yard", "export") is None


def test_policies_are_listed_by_name_in_their_newest_version(tenants: Database) -> None:
    with tenants.writing() as session:
        policies = PoliciesRepository(session)
        for name, content in (("house", "h1"), ("export", "h2"), ("house", "h3"), ("navy", "h4")):
            policies.add("port", name, content, {}, "ada")
        policies.add("yard", "house", "h5", {}, "eve")
        page = policies.page("port", limit=2)
        rest = policies.page("port", limit=2, cursor=page.next_cursor)
    assert [policy.reference for policy in page.items] == ["export@1", "house@2"]
    assert [policy.reference for policy in rest.items] == ["navy@1"]
    assert rest.next_cursor == ""
