from __future__ import annotations

from collections.abc import Callable

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError, MalformedRowError, NotForOverlaysError
from service.catalogue.overlay import NO_OVERLAY, apply_overlay
from service.curation import change_overlay, read_overlay
from service.curation.errors import UnknownRowError
from service.storage import Database
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.keys import TenantsRepository
from service.storage.repositories.overlays import OverlaysRepository
from tests.factories.knowledge import Values, catalogue_of, row, small_package

CATALOGUE = catalogue_of(small_package())
STEEL = row("materials", id="house-steel", electrode_id="steel")
BAN = {"finish_id": "nickel-plate", "reason": "house rule 7"}
Put = Callable[..., None]


@pytest.fixture
def put(knowledge: Database) -> Put:
    with knowledge.writing() as session:
        for tenant in ("port", "yard"):
            TenantsRepository(session).ensure(tenant, tenant)

    def do(tenant_id: str, table: str, values: Values) -> None:
        with knowledge.writing() as session:
            change_overlay(session, tenant_id, put=[(table, values)], on=CATALOGUE, by="ada")

    return do


def seen(database: Database, tenant_id: str) -> Catalogue:
    with database.reading() as session:
        return apply_overlay(CATALOGUE, read_overlay(session, tenant_id))


def test_own_rows_lie_on_top_of_the_release(knowledge: Database, put: Put) -> None:
    put("port", "materials", STEEL)
    put("port", "limits", row("limits", id="normal", scale_id="series", limit_V=0.1))
    put("port", "bans", BAN)
    catalogue = seen(knowledge, "port")
    assert catalogue.materials["house-steel"].electrode_id == "steel"
    assert catalogue.limits["normal"].limit_V == 0.1
    assert catalogue.bans == {"nickel-plate": "house rule 7"}


def test_another_tenant_never_sees_them(knowledge: Database, put: Put) -> None:
    put("port", "materials", STEEL)
    assert seen(knowledge, "yard") is CATALOGUE
    put("yard", "materials", STEEL | {"electrode_id": "zinc"})
    assert seen(knowledge, "port").materials["house-steel"].electrode_id == "steel"
    assert seen(knowledge, "yard").materials["house-steel"].electrode_id == "zinc"
    assert seen(knowledge, "port").content_hash != seen(knowledge, "yard").content_hash


def test_putting_again_replaces(knowledge: Database, put: Put) -> None:
    put("port", "bans", BAN)
    put("port", "bans", BAN | {"reason": "house rule 8"})
    assert seen(knowledge, "port").bans == {"nickel-plate": "house rule 8"}


def test_removing_brings_the_release_back(knowledge: Database, put: Put) -> None:
    put("port", "bans", BAN)
    with knowledge.writing() as session:
        change_overlay(session, "port", remove=[("bans", "nickel-plate")], on=CATALOGUE, by="ada")
        assert read_overlay(session, "port") is NO_OVERLAY
    with pytest.raises(UnknownRowError), knowledge.writing() as session:
        change_overlay(session, "port", remove=[("bans", "nickel-plate")], on=CATALOGUE, by="ada")


def test_another_tenants_row_cannot_be_removed(knowledge: Database, put: Put) -> None:
    put("port", "bans", BAN)
    with pytest.raises(UnknownRowError), knowledge.writing() as session:
        change_overlay(session, "yard", remove=[("bans", "nickel-plate")], on=CATALOGUE, by="eve")
    assert seen(knowledge, "port").bans


def test_a_row_that_another_names_stays(knowledge: Database, put: Put) -> None:
    put("port", "materials", STEEL)
    put("port", "designations", row("designations", material_id="house-steel", system="common", text="HS"))
    with pytest.raises(DanglingOverlayError), knowledge.writing() as session:
        change_overlay(session, "port", remove=[("materials", "house-steel")], on=CATALOGUE, by="ada")
    assert "house-steel" in seen(knowledge, "port").materials


@pytest.mark.parametrize(
    ("table", "values", "error"),
    [
        ("measurements", {}, NotForOverlaysError),
        ("materials", STEEL | {"strength_MPa": "high"}, MalformedRowError),
        ("bans", {"finish_id": "nickel-plate"}, MalformedRowError),
        ("materials", STEEL | {"electrode_id": "bronze"}, DanglingOverlayError),
    ],
)
def test_what_does_not_fit_is_not_kept(
    knowledge: Database, put: Put, table: str, values: Values, error: type[Exception]
) -> None:
    with pytest.raises(error):
        put("port", table, values)
    with knowledge.reading() as session:
        assert OverlaysRepository(session).rows("port") == []


def test_the_audit_trail_names_the_row_and_not_its_content(knowledge: Database, put: Put) -> None:
    put("port", "materials", STEEL | {"note": "secret recipe"})
    with knowledge.reading() as session:
        line = AuditRepository(session).page(subject_kind="overlay", subject_id="port").items[0]
        overlay = read_overlay(session, "port")
    assert (line.actor, line.action) == ("ada", "overlay.put")
    assert line.detail == {"table": "materials", "key": "house-steel", "overlay_hash": overlay.content_hash}
