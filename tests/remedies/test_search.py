from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.judgement import judge
from service.remedies.constraints import Change
from service.remedies.enumeration import candidates_of
from service.remedies.search import search, tried
from tests.factories.remedies import question


def test_a_search_judges_every_couple_of_what_may_be_offered(catalogue: Catalogue) -> None:
    asked = question(catalogue, first=Change.NOTHING)
    found = search(asked)
    assert len(found.first) == 1
    assert len(found.trials) == sum(not option.blocked_by for option in found.second) - 1
    assert {bool(trial.shortfalls) for trial in found.trials} == {True, False}


def test_each_trial_is_what_judging_it_alone_gives(catalogue: Catalogue) -> None:
    asked = question(catalogue, first=Change.NOTHING)
    for trial in search(asked).trials[::17]:
        alone = judge([trial.candidate.couple], asked.environment, catalogue, asked.policy)[0]
        assert trial.judgement.outcome == alone.outcome


def test_a_trial_is_measured_with_its_cost_and_effort(catalogue: Catalogue) -> None:
    asked = question(catalogue, first=Change.NOTHING)
    found = search(asked)
    (trial, *_) = tried(asked, candidates_of(asked.couple, found.first, found.second)[:1])
    measures = trial.measured(asked)
    assert (measures.cost_tier, measures.effort) == (trial.candidate.cost_tier, trial.candidate.effort)
