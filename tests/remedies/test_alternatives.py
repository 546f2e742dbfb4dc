from __future__ import annotations

import itertools
import random

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function, Verdict, judge
from service.remedies import Change, Constraints, alternatives_document, find_alternatives
from tests.factories.remedies import couple_of, place


def test_a_way_out_is_better_than_what_it_replaces(catalogue: Catalogue) -> None:
    found = find_alternatives(couple_of(), place(catalogue), Constraints(), catalogue)
    assert found.before.judgement.outcome.verdict is Verdict.UNSUITABLE
    assert found.ranking
    assert all(row.judgement.outcome.verdict is not Verdict.UNSUITABLE for row in found.ranking)


def test_no_stored_verdict_differs_from_judging_it_directly(catalogue: Catalogue) -> None:
    environment = place(catalogue)
    found = find_alternatives(couple_of(), environment, Constraints(), catalogue)
    couples = [row.candidate.couple for row in found.ranking]
    again = judge(couples, environment, catalogue)
    assert [row.judgement.outcome for row in found.ranking] == [one.outcome for one in again]


def test_restricted_substances_stay_out_unless_opted_in(catalogue: Catalogue) -> None:
    steel = Couple(Surface("al-6082-t6"), Surface("steel-s235"))
    found = find_alternatives(steel, place(catalogue), Constraints(), catalogue, limit=500)
    for row in found.ranking:
        for layer in (*row.candidate.couple.first.layers, *row.candidate.couple.second.layers):
            assert not {"Cd", "CrVI", "Pb", "Be"} & set(catalogue.finishes[layer.finish_id].substances)


def test_what_was_excluded_is_counted_by_reason(catalogue: Catalogue) -> None:
    document = alternatives_document(
        find_alternatives(
            couple_of(functions=(Function.ELECTRICAL_BOND,)), place(catalogue), Constraints(), catalogue
        )
    )
    assert document["alternatives"]
    assert sum(group["count"] for group in document["excluded"]) > 0


def unsuitable_couples(catalogue: Catalogue) -> list[Couple]:
    materials = sorted(catalogue.materials)
    pairs = random.Random(20261125).sample(list(itertools.combinations(materials, 2)), 200)  # noqa: S311 - a fixed sample
    couples = [Couple(Surface(first), Surface(second)) for first, second in pairs]
    judged = judge(couples, place(catalogue), catalogue)
    return [one.couple for one in judged if one.outcome.verdict is Verdict.UNSUITABLE]


@pytest.mark.parametrize("part", range(4))
def test_every_unsuitable_couple_has_a_way_out_or_a_named_obstacle(catalogue: Catalogue, part: int) -> None:
    either = Constraints(first=Change.FINISH, second=Change.FINISH)
    couples = unsuitable_couples(catalogue)[part::8]
    assert couples
    for couple in couples:
        found = find_alternatives(couple, place(catalogue), either, catalogue, limit=3)
        assert found.ranking or found.blockers, couple
