from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import Function
from service.remedies.arrangement import NotPossibleError, Obstacle
from service.remedies.separation import NO_OTHER_PATH, isolate, raise_resistance
from tests.factories.remedies import arrangement, couple_of, situation


def test_isolation_parts_the_sides(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = isolate(arrangement(given), {}, given)
    assert after.couples[0].is_isolated
    assert after.conditions == (NO_OTHER_PATH,)


def test_what_is_isolated_cannot_be_isolated_again(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(is_isolated=True))
    with pytest.raises(NotPossibleError) as caught:
        isolate(arrangement(given), {}, given)
    assert caught.value.obstacle is Obstacle.DONE


@pytest.mark.parametrize(
    ("functions", "left"),
    [
        ((Function.POWER_CONTACT,), (Function.STRUCTURAL,)),
        ((Function.POWER_CONTACT, Function.THERMAL), (Function.THERMAL,)),
    ],
)
def test_a_current_that_is_led_elsewhere_leaves_the_joint(
    functions: tuple[Function, ...], left: tuple[Function, ...], catalogue: Catalogue
) -> None:
    given = situation(catalogue, couple_of(functions=functions))
    (after,) = isolate(arrangement(given), {"path": "fastener only"}, given)
    assert after.couples[0].functions == left
    assert after.moved == (Function.POWER_CONTACT,)
    assert not after.couples[0].is_isolated


def test_a_strap_gives_the_bond_back_and_joins_the_metals(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = raise_resistance(arrangement(given), {"parallel_path": True}, given)
    assert after.couples == arrangement(given).couples
    assert Function.ELECTRICAL_BOND in after.restored


def test_a_strap_across_an_isolation_undoes_it(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(is_isolated=True))
    with pytest.raises(NotPossibleError):
        raise_resistance(arrangement(given), {"parallel_path": True}, given)


def test_a_spool_that_does_not_conduct_parts_the_metals(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    (after,) = raise_resistance(arrangement(given), {"spool_diameters": 6}, given)
    assert after.couples[0].is_isolated
