from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition
from service.judgement import judge
from service.remedies.arrangement import as_it_is
from service.remedies.botching import botched
from tests.factories.remedies import COPPER, coated, couple_of, situation


def test_a_coat_done_badly_is_on_the_anode_alone_and_worse_than_bare(catalogue: Catalogue) -> None:
    given = situation(catalogue, couple_of(second=COPPER), "seawater-quiescent")
    wrong = botched(catalogue.mitigations["paint-cathode"], as_it_is(given.before), given)
    assert wrong.surface("first").condition is Condition.DAMAGED
    bare, painted = judge([couple_of(), wrong.couples[0]], wrong.environment, catalogue, given.policy)
    rates = [
        each.kinetics.lanes[0].figures["galvanic_rate_um_per_year"]["median"] for each in (bare, painted)
    ]
    assert rates[1] > rates[0]


def test_a_coat_that_cannot_go_on_the_anode_leaves_the_joint(catalogue: Catalogue) -> None:
    painted = couple_of(first=coated("al-6082-t6", "powder-coat", 80.0))
    given = situation(catalogue, painted)
    wrong = botched(catalogue.mitigations["paint-cathode"], as_it_is(given.before), given)
    assert wrong.couples == (painted,)


def test_a_finish_done_badly_is_worn(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    plated = as_it_is(given.before).with_surface("second", coated("cu-etp", "sn-matte", 5.0))
    wrong = botched(catalogue.mitigations["plate-cathode-compatible"], plated, given)
    assert wrong.surface("second").condition is Condition.WORN
    assert wrong.surface("first").condition is Condition.INTACT


def test_all_else_done_badly_is_the_joint_unaided(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    isolated = as_it_is(given.before).on_each(is_isolated=True)
    wrong = botched(catalogue.mitigations["isolating-washer"], isolated, given)
    assert wrong.couples == (couple_of(),)
