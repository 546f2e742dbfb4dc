from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, judge
from service.remedies import batch
from service.remedies.batch import judge_cases
from tests.factories.remedies import STAINLESS, coated, couple_of, place


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


def test_threads_give_what_one_thread_gives(catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(batch, "WORTH_A_THREAD", 2)
    monkeypatch.setattr(batch.os, "cpu_count", lambda: 2)
    sea = place(catalogue)
    couples = [
        couple_of(first=coated("al-6082-t6", "ivd-al", value)) for value in (8.0, 12.0, 18.0, 20.0, 25.0)
    ]
    threaded = judge_cases([(couple, sea) for couple in couples], catalogue, DEFAULT_POLICY)
    assert [each.outcome for each in threaded] == [
        each.outcome for each in judge(couples, sea, catalogue, DEFAULT_POLICY)
    ]
