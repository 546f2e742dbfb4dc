from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY
from service.judgement.findings import Anode, Condition, Witness
from service.remedies.arrangement import NotPossibleError, Obstacle, Situation, as_it_is, worst
from service.remedies.constraints import Constraints
from tests.factories.remedies import COPPER, STAINLESS, STEEL, couple_of, judged, situation

CONDITION = Condition("dry", "Keep it dry.", "maintainer", "inspection")


def test_the_eaten_side_is_known_from_the_outcome(catalogue: Catalogue) -> None:
    assert (situation(catalogue).anode, situation(catalogue).cathode) == ("first", "second")
    turned = situation(catalogue, couple_of(COPPER, STEEL))
    assert (turned.anode, turned.cathode) == ("second", "first")


def test_the_side_that_would_be_eaten_counts_where_nothing_flows(catalogue: Catalogue) -> None:
    isolated = situation(catalogue, couple_of(is_isolated=True))
    before = isolated.before
    assert before.outcome.anode is Anode.NONE
    known = replace(before, kinetics=replace(before.kinetics, less_noble=Anode.SECOND))
    assert replace(isolated, before=known).anode == "second"


def test_a_side_that_nobody_knows_is_not_guessed(catalogue: Catalogue) -> None:
    before = judged(catalogue)
    findings = {**before.findings, Witness.SCREENING: replace(before.findings[Witness.SCREENING], anode=None)}
    silent = replace(
        before,
        outcome=replace(before.outcome, anode=Anode.NONE),
        kinetics=replace(before.kinetics, less_noble=None),
        findings=findings,
    )
    with pytest.raises(NotPossibleError) as caught:
        _ = Situation(silent, Constraints(), catalogue, DEFAULT_POLICY).anode
    assert caught.value.obstacle is Obstacle.SIDE


def test_the_screening_witness_may_name_the_side(catalogue: Catalogue) -> None:
    before = judged(catalogue)
    silent = replace(
        before,
        outcome=replace(before.outcome, anode=Anode.BOTH),
        kinetics=replace(before.kinetics, less_noble=None),
    )
    assert Situation(silent, Constraints(), catalogue, DEFAULT_POLICY).anode == "first"


def test_changes_leave_the_original_alone(catalogue: Catalogue) -> None:
    start = as_it_is(judged(catalogue))
    isolated = start.on_each(is_isolated=True)
    swapped = start.with_surface("first", STEEL).with_surface("second", STAINLESS)
    assert start.couples == (couple_of(),)
    assert isolated.couples[0].is_isolated
    assert (swapped.surface("first"), swapped.surface("second")) == (STEEL, STAINLESS)


def test_a_condition_is_kept_once(catalogue: Catalogue) -> None:
    assert as_it_is(judged(catalogue)).needing(CONDITION).needing(CONDITION).conditions == (CONDITION,)


def test_the_worst_couple_decides(catalogue: Catalogue) -> None:
    bad, alike = judged(catalogue), judged(catalogue, couple_of(second=couple_of().first))
    assert worst([alike, bad, alike]) is bad
    unknown = replace(alike, outcome=replace(alike.outcome, severity=None))
    assert worst([unknown, alike]) is alike
