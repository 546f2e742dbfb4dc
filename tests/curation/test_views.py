"""Releases as tenants see them, today and then."""

from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError
from service.curation import Views, change_overlay
from service.curation.errors import UnknownOverlayError
from service.curation.overlays import overlays_in_force
from service.storage import Database, Shelf, load, publish, seed
from service.storage.errors import UnknownReleaseError
from service.storage.repositories.keys import TenantsRepository
from tests.factories.knowledge import row, small_package

LABEL = "2026.01.01-1"
BAN = {"finish_id": "nickel-plate", "reason": "house rule 7"}


@pytest.fixture
def station(database: Database) -> Database:
    with database.writing() as session:
        seed(session, small_package())
        publish(session, LABEL, by="setup")
        for tenant in ("port", "yard"):
            TenantsRepository(session).ensure(tenant, tenant)
    return database


def put(database: Database, tenant_id: str, reason: str) -> str:
    release = Shelf(database).as_of(LABEL)
    with database.writing() as session:
        rows = [("bans", BAN | {"reason": reason})]
        return change_overlay(session, tenant_id, put=rows, on=release, by="ada").content_hash


def bans(views: Views, tenant_id: str, overlay_hash: str) -> dict[str, str]:
    return dict(views.of(LABEL, tenant_id, overlay_hash).bans)


def test_without_an_overlay_it_is_the_release_itself(station: Database) -> None:
    shelf = Shelf(station)
    assert Views(station, shelf).of(LABEL, "port", "") is shelf.as_of(LABEL)


def test_every_overlay_that_ever_was_can_be_seen_again(station: Database) -> None:
    first, second = put(station, "port", "rule 7"), put(station, "port", "rule 8")
    views = Views(station, Shelf(station))
    assert bans(views, "port", first) == {"nickel-plate": "rule 7"}
    assert bans(views, "port", second) == {"nickel-plate": "rule 8"}
    assert overlays_in_force(station) == {"port": second}


def test_a_view_is_made_once_and_again_when_it_was_dropped(station: Database) -> None:
    hashes = [put(station, "port", f"rule {number}") for number in range(3)]
    views = Views(station, Shelf(station), size=2)
    made: list[Catalogue] = [views.of(LABEL, "port", each) for each in hashes]
    assert views.of(LABEL, "port", hashes[2]) is made[2]
    again = views.of(LABEL, "port", hashes[0])
    assert again is not made[0]
    assert (again.content_hash, again.bans) == (made[0].content_hash, made[0].bans)


def test_nobody_sees_by_the_hash_of_another_tenant(station: Database) -> None:
    theirs = put(station, "port", "rule 7")
    assert put(station, "yard", "rule 7") != theirs
    with pytest.raises(UnknownOverlayError):
        Views(station, Shelf(station)).of(LABEL, "yard", theirs)


def test_what_does_not_fit_is_told(station: Database) -> None:
    with station.writing() as session:
        package = small_package()
        package["finishes"].append(row("finishes", id="new-plate"))
        seed(session, package)
        later = publish(session, by="setup").label
        rows = [("bans", {"finish_id": "new-plate", "reason": "untried"})]
        held = change_overlay(session, "port", put=rows, on=load(session, later), by="ada").content_hash
    views = Views(station, Shelf(station))
    assert views.of(later, "port", held).bans == {"new-plate": "untried"}
    with pytest.raises(DanglingOverlayError):
        views.of(LABEL, "port", held)
    with pytest.raises(UnknownReleaseError):
        views.of("1999", "port", held)
