"""The policy of a request: sent along, stored, or the default one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from typing import Any

import orjson
import pytest

from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY
from service.storage import Database
from service.storage.repositories.keys import TenantsRepository
from service.storage.repositories.policies import PoliciesRepository
from service.web.errors import Fault, InconsistentRequestError
from service.web.house_policies import Decider, HousePolicies
from service.web.schemas.assemblies import AssemblyRequest

PARTS = {"parts": [{"part_number": "1", "surface": "A4-80"}]}


@pytest.fixture
def policies(sqlite_url: str) -> Iterator[HousePolicies]:
    with closing(Database.open(sqlite_url)) as database:
        with database.writing() as session:
            for tenant_id in ("port", "yard"):
                TenantsRepository(session).ensure(tenant_id, tenant_id)
            stored = PoliciesRepository(session)
            stored.add("port", "harbour", "h1", {"name": "Port of Skerrivoe", "version": "a"}, "ada")
            stored.add("port", "harbour", "h2", {"name": "Port of Skerrivoe", "version": "b"}, "ada")
            stored.add("yard", "navy", "h3", {"name": "Yard"}, "eve")
        yield HousePolicies(database, "port")


def request(**fields: Any) -> AssemblyRequest:
    return AssemblyRequest.model_validate({**PARTS, **fields})


def fault(policies: HousePolicies, asked: AssemblyRequest) -> Fault:
    with pytest.raises(InconsistentRequestError) as caught:
        policies.of(asked)
    (found,) = caught.value.faults
    return found


def test_a_request_without_one_is_decided_by_the_default(policies: HousePolicies) -> None:
    assert policies.of(request()) == Decider(DEFAULT_HOUSE_POLICY, None)


def test_the_version_in_force_decides_unless_one_is_named(policies: HousePolicies) -> None:
    found = [policies.of(request(stored_policy=name)) for name in ("harbour", "harbour@1")]
    assert [(each.house.version, each.reference) for each in found] == [
        ("b", "harbour@2"),
        ("a", "harbour@1"),
    ]


def test_what_a_request_states_goes_before_what_holds_otherwise(policies: HousePolicies) -> None:
    assert policies.of(request(), "harbour@1").reference == "harbour@1"
    assert policies.of(request(stored_policy="harbour"), "harbour@1").reference == "harbour@2"
    sent = policies.of(request(policy={"name": "Sent"}), "harbour@1")
    assert (sent.house.name, sent.reference) == ("Sent", None)


def test_two_policies_are_refused(policies: HousePolicies) -> None:
    found = fault(policies, request(stored_policy="harbour", policy={"name": "Sent"}))
    assert (found.pointer, found.code) == ("/stored_policy", "one_way")


@pytest.mark.parametrize("name", ["harbor", "harbour@3", "navy"])
def test_what_is_not_stored_is_refused_and_only_own_names_are_suggested(
    policies: HousePolicies, name: str
) -> None:
    found = fault(policies, request(stored_policy=name))
    assert (found.pointer, found.code) == ("/stored_policy", "unknown")
    assert found.suggestions == (() if name == "navy" else ("harbour",))


def test_work_for_later_names_the_version_of_today(policies: HousePolicies) -> None:
    content = orjson.dumps({**PARTS, "stored_policy": "harbour"})
    asked = AssemblyRequest.model_validate(orjson.loads(content))
    assert orjson.loads(policies.pinned(asked, content)) == {**PARTS, "stored_policy": "harbour@2"}
    plain = orjson.dumps(PARTS)
    assert policies.pinned(request(), plain) is plain
