from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

STACKS = [
    ("CuZn37 Ni2Sn4", "brass-cuzn37 | sn-over-ni:4 / ni-sulfamate:2"),
    ("Zamak 5 Cu5Ni8Cr", "zn-zamak5 | cr-decorative / ni-electro:8 / cu-plate:5"),
    ("S235JR, zinc phosphate, e-coat, powder coat", "steel-s235 | powder-coat / e-coat / phosphate-zn"),
    ("8.8, clear zinc plated, powder coated", "steel-8-8 | powder-coat / zn-passivated-clear"),
    ("PdNi 0.75 um, Au flash", "() | pd-ni:0.75"),
    ("ENIG, electroless nickel 4 µm, gold 0.05 µm", "(copper) | enig"),
    ("6061-T6, hard anodized, dry film lube", "al-6061-t6 | dry-film-lube / anod-iii-hard"),
]


@pytest.mark.parametrize(("text", "wanted"), STACKS)
def test_coats_lie_in_their_usual_order(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


QUALIFIED = [
    ("8.8 zinc plated, blackened", "steel-8-8 | zn-black"),
    ("8.8 zinc plated, phosphated", "steel-8-8 | zn-phosphate"),
    ("CuZn37 silver plated, passivated", "brass-cuzn37 | ag-ni-ag-passivated"),
    ("1.4404 pickled and passivated", "ss-316l | ss-passivated"),
    ("6061-T6 hard anodized, passivated", "al-6061-t6 | anod-iii-hard"),
    ("S235JR, painted, powder coat RAL 7035 80 µm", "steel-s235 | powder-coat:80"),
    ("CuZn37 tin plated matte, passivated", "brass-cuzn37 | sn-matte"),
    ("6101-T6 tin plated over copper strike 12 µm", "al-6101-t6 | sn-over-cu-al:12"),
    ("electroless nickel high phosphorus, nickel plated, S235JR", "steel-s235 | en-high"),
]


@pytest.mark.parametrize(("text", "wanted"), QUALIFIED)
def test_a_coat_may_only_qualify_another(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


def test_two_zones_are_two_readings(resolver: Resolver) -> None:
    reading = resolver.resolve("CuSn8, contact 0.8 µm hard Au, tails 4 µm Sn, over 1.3 µm Ni")
    assert torn(reading) == [
        "bronze-cusn8 | au-hard-over-ni:0.8 / ni-matte-underplate:1.3",
        "bronze-cusn8 | sn-over-ni:4 / ni-sulfamate:1.3",
    ]
    assert "zones" in reading.question


def test_coats_that_exclude_each_other_are_two_readings(resolver: Resolver) -> None:
    reading = resolver.resolve("8.8 zinc flake, zinc nickel plated")
    assert set(torn(reading)) == {"steel-8-8 | zn-flake", "steel-8-8 | znni"}
    assert "exclude" in reading.question


def test_mentions_that_disagree_stay_open(resolver: Resolver) -> None:
    reading = resolver.resolve("hot dip galvanized, mechanically galvanized, S235JR")
    assert set(torn(reading)) == {"steel-s235 | zn-hdg", "steel-s235 | zn-mechanical"}
    assert "two different finishes" in reading.question


def test_mentions_that_agree_narrow_each_other(resolver: Resolver) -> None:
    assert firm(resolver.resolve("galvanized per ASTM A153")) == "(carbon steel) | zn-hdg"
    assert firm(resolver.resolve("zinc plated yellow per ASTM B633 Type II SC2")) == (
        "(carbon steel) | zn-chromate-yellow:8"
    )


def test_a_colour_code_means_paint_where_nothing_else_has_a_colour(resolver: Resolver) -> None:
    assert torn(resolver.resolve("S235JR RAL 7035"))[0] == "steel-s235 | pu-topcoat"
    assert firm(resolver.resolve("S235JR powder coated RAL 7035")) == "steel-s235 | powder-coat"


def test_a_finish_that_this_catalogue_does_not_hold_is_left_out(resolver: Resolver) -> None:
    readings = [resolver.resolve(text) for text in ("zinc plated", "gold plated", "tin plated")]
    known = resolver.catalogue.finishes
    assert all(layer.finish_id in known for r in readings for c in r.candidates for layer in c.surface.layers)
