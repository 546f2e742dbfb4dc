"""Open releases as tenants see them, in the memory of one process."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass

import pytest

from service.catalogue.overlay import hash_of_both
from service.curation import Views, change_overlay
from service.curation.overlays import overlays_in_force
from service.storage import Database, Shelf
from service.storage.repositories.keys import TenantsRepository
from service.web.shelf import ReleaseShelf
from service.web.tenant_shelf import TenantShelf
from tests.factories.http import LABEL, publish_package

BAN = {"finish_id": "nickel-plate", "reason": "house rule 7"}


@dataclass
class Held:
    database: Database
    shelf: ReleaseShelf
    tenants: TenantShelf

    def put(self, tenant_id: str, reason: str) -> str:
        with self.database.writing() as session:
            TenantsRepository(session).ensure(tenant_id, tenant_id)
            rows = [("bans", BAN | {"reason": reason})]
            on = self.shelf.current.catalogue
            return change_overlay(session, tenant_id, put=rows, on=on, by="ada").content_hash


@pytest.fixture
def held(sqlite_url: str) -> Iterator[Held]:
    publish_package(sqlite_url)
    with closing(Database.open(sqlite_url)) as database:
        stored = Shelf(database)
        shelf = ReleaseShelf(stored, 2)
        shelf.refresh()
        views = Views(database, stored)
        yield Held(database, shelf, TenantShelf(shelf, views, lambda: overlays_in_force(database), 1))


def test_without_overlays_everybody_reads_the_same(held: Held) -> None:
    held.tenants.refresh()
    assert held.tenants.at_hand(None, "port") is held.shelf.current
    assert held.tenants.fetch(LABEL, "yard") is held.shelf.current
    assert held.tenants.current_hash("port") == held.shelf.current_hash


def test_an_overlay_is_in_force_from_the_next_look_on(held: Held) -> None:
    overlay_hash = held.put("port", "rule 7")
    assert held.tenants.overlay_hash("port") == ""
    held.tenants.refresh()
    assert held.tenants.overlay_hash("port") == overlay_hash
    assert held.tenants.current_hash("port") == hash_of_both(held.shelf.current_hash, overlay_hash)
    assert held.tenants.at_hand(None, "port") is None
    opened = held.tenants.fetch(None, "port")
    assert opened.catalogue.bans == {"nickel-plate": "rule 7"}
    assert opened.content_hash == held.tenants.current_hash("port")
    assert held.tenants.at_hand(None, "port") is opened is held.tenants.at_hand(LABEL, "port")
    assert held.tenants.at_hand(None, "yard") is held.shelf.current


def test_a_changed_overlay_is_never_taken_for_the_one_before(held: Held) -> None:
    first = held.put("port", "rule 7")
    held.tenants.refresh()
    held.tenants.fetch(None, "port")
    held.put("port", "rule 8")
    held.tenants.refresh()
    assert held.tenants.at_hand(None, "port") is None
    assert held.tenants.fetch(None, "port").catalogue.bans == {"nickel-plate": "rule 8"}
    assert held.tenants.fetch(LABEL, "port", first).catalogue.bans == {"nickel-plate": "rule 7"}


def test_what_was_dropped_is_opened_again(held: Held) -> None:
    for tenant in ("port", "yard"):
        held.put(tenant, f"rule of the {tenant}")
    held.tenants.refresh()
    for tenant in ("port", "yard", "port"):
        assert held.tenants.fetch(None, tenant).catalogue.bans == {"nickel-plate": f"rule of the {tenant}"}
    assert held.tenants.at_hand(None, "yard") is None
