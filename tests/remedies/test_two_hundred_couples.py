"""A fixed sample of two hundred couples: whatever is unsuitable gets a way out, or is told what blocks it."""

from __future__ import annotations

import random
from dataclasses import dataclass
from functools import cache

import pytest

from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement import DEFAULT_POLICY, Couple, Function, Judgement, Verdict, judge
from service.remedies import Change, Constraints, find_alternatives
from service.remedies.batch import judge_cases
from service.remedies.enumeration import STRUCTURAL_FAMILIES
from tests.seed_catalogue import seed_catalogue

SIZE = 200
PARTS = 8
PLACES = (
    "marine-atmosphere-0-100-m",
    "urban-atmosphere",
    "splash-and-tidal-zone",
    "seawater-quiescent",
    "tap-water-hard",
    "gasketed-enclosure-marine",
    "soil-corrosive",
    "vehicle-underbody",
)
FUNCTIONS = (
    (Function.STRUCTURAL,),
    (Function.STRUCTURAL, Function.SEAL),
    (Function.ELECTRICAL_BOND,),
    (Function.POWER_CONTACT,),
)


@dataclass(frozen=True)
class Case:
    judgement: Judgement
    constraints: Constraints

    @property
    def couple(self) -> Couple:
        return self.judgement.couple

    @property
    def environment(self) -> Environment:
        return self.judgement.environment


@cache
def unsuitable() -> tuple[Case, ...]:
    catalogue = seed_catalogue()
    families = STRUCTURAL_FAMILIES | {"magnesium", "low-alloy steel"}
    names = sorted(each.id for each in catalogue.materials.values() if each.family in families)
    draw = random.Random(20261125)  # noqa: S311 - a fixed sample, not a secret
    asked = []
    for _ in range(SIZE):
        first, second = draw.sample(names, 2)
        couple = Couple(Surface(first), Surface(second), functions=draw.choice(FUNCTIONS))
        asked.append((couple, catalogue.environments[draw.choice(PLACES)]))
    judged = judge_cases(asked, catalogue, DEFAULT_POLICY)
    one_side = (Constraints(first=Change.NOTHING), Constraints(second=Change.NOTHING))
    return tuple(
        Case(each, one_side[place % 2] if place % 40 else Constraints())
        for place, each in enumerate(judged)
        if each.outcome.verdict is Verdict.UNSUITABLE
    )


def test_the_sample_has_enough_to_mend() -> None:
    assert len(unsuitable()) >= SIZE // 3


@pytest.mark.parametrize("part", range(PARTS))
def test_every_unsuitable_couple_has_a_way_out_or_a_named_obstacle(part: int) -> None:
    catalogue = seed_catalogue()
    for case in unsuitable()[part::PARTS]:
        found = find_alternatives(case.couple, case.environment, case.constraints, catalogue, limit=3)
        assert found.ranking or found.blockers, case.couple
        for row in found.ranking:
            assert row.judgement.outcome.verdict in {Verdict.SUITABLE, Verdict.CONDITIONAL}
            (direct,) = judge([row.candidate.couple], case.environment, catalogue, DEFAULT_POLICY)
            assert row.judgement.outcome == direct.outcome
            if direct.outcome.verdict is Verdict.CONDITIONAL:
                assert direct.outcome.conditions
        for blocker in found.blockers:
            assert blocker.constraint
            assert blocker.example
