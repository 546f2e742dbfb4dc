from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError, MalformedRowError, NotForOverlaysError
from service.catalogue.overlay import NO_OVERLAY, Overlay, apply_overlay, dangling, overlay_from_rows
from tests.factories.knowledge import catalogue_of, row, small_package

BAN = {"finish_id": "nickel-plate", "reason": "house rule 7"}


@pytest.fixture
def catalogue() -> Catalogue:
    return catalogue_of(small_package())


def house(**rows: list[dict[str, Any]]) -> Overlay:
    return overlay_from_rows(rows)


def test_no_rows_are_no_overlay(catalogue: Catalogue) -> None:
    assert house() is NO_OVERLAY
    assert house(materials=[], bans=[]) is NO_OVERLAY
    assert apply_overlay(catalogue, NO_OVERLAY) is catalogue


def test_own_rows_are_added_and_the_release_stays_as_it_is(catalogue: Catalogue) -> None:
    before = catalogue.content_hash, dict(catalogue.materials)
    overlay = house(
        materials=[row("materials", id="house-steel", name="Our steel", electrode_id="steel")],
        designations=[row("designations", material_id="house-steel", system="common", text="HS 1")],
    )
    seen = apply_overlay(catalogue, overlay)
    assert set(seen.materials) == {*catalogue.materials, "house-steel"}
    assert seen.designations[-1].text == "HS 1"
    assert (catalogue.content_hash, dict(catalogue.materials)) == before


def test_a_house_limit_takes_the_place_of_the_published_one(catalogue: Catalogue) -> None:
    overlay = house(limits=[row("limits", id="normal", scale_id="series", limit_V=0.1)])
    assert apply_overlay(catalogue, overlay).limits["normal"].limit_V == 0.1
    assert catalogue.limits["normal"].limit_V == 0.25


def test_bans_carry_their_reason(catalogue: Catalogue) -> None:
    assert apply_overlay(catalogue, house(bans=[BAN])).bans == {"nickel-plate": "house rule 7"}
    assert catalogue.bans == {}


def test_substrates_of_a_house_finish_are_found_with_it(catalogue: Catalogue) -> None:
    overlay = house(
        finishes=[row("finishes", id="house-plate", role="metallic", underplate_id="nickel-plate")],
        finish_substrates=[
            row("finish_substrates", finish_id="house-plate", substrate_family="carbon steel"),
            row(
                "finish_substrates", finish_id="gold-plate", substrate_family="copper alloy", suitability="no"
            ),
        ],
    )
    seen = apply_overlay(catalogue, overlay)
    assert [found.substrate_family for found in seen.finish_substrates["house-plate"]] == ["carbon steel"]
    assert [found.suitability for found in seen.finish_substrates["gold-plate"]] == ["no"]


def test_the_identity_depends_on_release_and_overlay(catalogue: Catalogue) -> None:
    one, two = house(bans=[BAN]), house(bans=[BAN | {"reason": "house rule 8"}])
    other = catalogue_of(small_package(), "2026.01.02-1")
    seen = [apply_overlay(catalogue, one), apply_overlay(catalogue, two), apply_overlay(other, one)]
    assert len({catalogue.content_hash, *(each.content_hash for each in seen)}) == 4
    assert [each.overlay_hash for each in seen] == [
        one.content_hash,
        two.content_hash,
        one.content_hash,
    ]
    assert catalogue.overlay_hash == ""
    assert {each.label for each in seen} == {catalogue.label, other.label}


def test_the_hash_does_not_depend_on_the_order_of_rows() -> None:
    rows = [row("materials", id="a"), row("materials", id="b")]
    bans = [BAN, BAN | {"finish_id": "gold-plate"}]
    assert (
        house(materials=rows, bans=bans).content_hash
        == house(bans=bans[::-1], materials=rows[::-1]).content_hash
    )


@pytest.mark.parametrize("table", ["electrodes", "measurements", "kinetics", "rules", "weather"])
def test_what_is_known_of_metals_is_not_the_houses_to_change(table: str) -> None:
    with pytest.raises(NotForOverlaysError, match=table):
        overlay_from_rows({table: []})


def test_a_row_must_fit_its_record() -> None:
    with pytest.raises(MalformedRowError, match="limit_V"):
        house(limits=[row("limits", id="own") | {"limit_V": "a quarter"}])


@pytest.mark.parametrize(
    ("ban", "column"),
    [({"finish_id": "x"}, "reason"), (BAN | {"reason": " "}, "reason"), (BAN | {"until": "2030"}, "until")],
)
def test_a_ban_needs_a_finish_and_a_reason_and_no_more(ban: dict[str, str], column: str) -> None:
    with pytest.raises(MalformedRowError) as caught:
        house(bans=[ban])
    assert caught.value.field == column


@pytest.mark.parametrize(
    ("overlay", "field"),
    [
        (house(materials=[row("materials", id="own", electrode_id="bronze")]), "electrode_id"),
        (house(materials=[row("materials", id="own", source_id="nowhere")]), "source_id"),
        (house(designations=[row("designations", material_id="own", text="x")]), "material_id"),
        (house(finishes=[row("finishes", id="own", underplate_id="nowhere")]), "underplate_id"),
        (house(limits=[row("limits", id="own", scale_id="nowhere")]), "scale_id"),
        (house(bans=[BAN | {"finish_id": "nowhere"}]), "finish_id"),
    ],
)
def test_a_row_may_not_name_what_is_not_there(catalogue: Catalogue, overlay: Overlay, field: str) -> None:
    with pytest.raises(DanglingOverlayError) as caught:
        apply_overlay(catalogue, overlay)
    assert caught.value.field == field


def test_everything_that_is_not_there_is_told_and_own_rows_are(catalogue: Catalogue) -> None:
    own = [
        row("finishes", id="own", underplate_id="nowhere"),
        row("finishes", id="other", underplate_id="own"),
    ]
    overlay = house(finishes=own, bans=[BAN | {"finish_id": "nowhere"}])
    assert [(error.table, error.value) for error in dangling(catalogue, overlay)] == [
        ("finishes", "nowhere"),
        ("bans", "nowhere"),
    ]
