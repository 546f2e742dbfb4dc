from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, judge
from service.remedies.batch import judge_cases
from tests.factories.remedies import STAINLESS, couple_of, place


def test_cases_come_back_in_order_whatever_their_place(catalogue: Catalogue) -> None:
    sea, town = place(catalogue), place(catalogue, "urban-atmosphere")
    cases = [
        (couple_of(), sea),
        (couple_of(second=STAINLESS), town),
        (couple_of(), town),
        (couple_of(), sea),
    ]
    found = judge_cases(cases, catalogue, DEFAULT_POLICY)
    assert [(each.couple, each.environment) for each in found] == cases
    assert found[0] is found[3]


def test_nothing_is_judged_of_nothing(catalogue: Catalogue) -> None:
    assert judge_cases([], catalogue, DEFAULT_POLICY) == []


def test_equal_places_are_one_place(catalogue: Catalogue) -> None:
    one, twin = place(catalogue), place(catalogue)
    assert one is not twin
    first, second = judge_cases([(couple_of(), one), (couple_of(), twin)], catalogue, DEFAULT_POLICY)
    assert first is second
    (alone,) = judge([couple_of()], one, catalogue, DEFAULT_POLICY)
    assert first.outcome == alone.outcome
