from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.remedies.arrangement import NotPossibleError, Obstacle
from service.remedies.covering import (
    BOND_FIRST,
    COAT_SOUND,
    coat_anode,
    coat_both,
    coat_cathode,
    only_anode_coated,
)
from tests.factories.remedies import ALUMINIUM, COPPER, STEEL, arrangement, coated, couple_of, situation


def test_the_cathode_is_coated_and_the_anode_left(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = coat_cathode(arrangement(given), {}, given)
    assert after.surface("first") == ALUMINIUM
    assert after.surface("second").layers[0].finish_id == "powder-coat"
    assert after.conditions == (COAT_SOUND,)


def test_both_sides_are_coated_after_bonding_if_asked(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (plain,) = coat_both(arrangement(given), {}, given)
    (bonded,) = coat_both(arrangement(given), {"after_bond": True}, given)
    assert all(plain.surface(side).layers for side in ("first", "second"))
    assert bonded.conditions == (COAT_SOUND, BOND_FIRST)


def test_the_named_coat_is_put_on_the_anode(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = coat_anode(arrangement(given), {"finish": "anod-iii-hard"}, given)
    assert after.surface("first").layers == (Layer("anod-iii-hard", 50.0),)


def test_paint_lies_on_top_of_what_is_there(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(second=coated("steel-s235", "ni-electro", 12.0)))
    (after,) = coat_cathode(arrangement(given), {}, given)
    assert [layer.finish_id for layer in after.surface("second").layers][1:] == ["ni-electro"]


def test_what_is_painted_is_not_painted_again(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(second=coated("cu-etp", "powder-coat", 80.0)))
    with pytest.raises(NotPossibleError) as caught:
        coat_cathode(arrangement(given), {}, given)
    assert caught.value.obstacle is Obstacle.DONE


def test_a_coat_that_the_metal_does_not_take_is_refused_by_name(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(STEEL, COPPER))
    with pytest.raises(NotPossibleError, match="Hard anodise cannot"):
        coat_anode(arrangement(given), {"finish": "anod-iii-hard"}, given)


def test_without_any_paint_it_says_so(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(joint_temperature_C=700.0))
    with pytest.raises(NotPossibleError, match="No paint of this release can"):
        coat_cathode(arrangement(given), {}, given)


def test_a_banned_paint_gives_way_to_the_next(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    house = replace(catalogue, bans={"powder-coat": "house rule"})
    banned = replace(given, catalogue=house)
    (after,) = coat_cathode(arrangement(given), {}, banned)
    assert after.surface("second").layers[0].finish_id != "powder-coat"


def test_the_usual_mistake_coats_the_anode_alone_and_scratches_it(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    wrong = only_anode_coated(arrangement(given), given)
    assert wrong.surface("first").condition is Condition.DAMAGED
    assert wrong.surface("first").layers
    assert wrong.surface("second") == COPPER


def test_an_open_basis_is_painted_by_its_family(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(second=Surface(None, basis_family="copper")))
    (after,) = coat_cathode(arrangement(given), {}, given)
    assert after.surface("second").layers
