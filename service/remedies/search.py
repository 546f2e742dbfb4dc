"""One search: the options of both sides, and every couple of them judged and measured in one batch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement import Couple, Judgement, Policy
from service.remedies.acceptance import shortfalls
from service.remedies.batch import judge_cases
from service.remedies.constraints import Constraints
from service.remedies.enumeration import Candidate, Option, candidates_of, options_of
from service.remedies.measures import Measures, life_of, measure
from service.remedies.reasons import Exclusion


@dataclass(frozen=True, slots=True)
class Question:
    """The joint that is to be replaced, with all that bounds the search."""

    couple: Couple
    environment: Environment
    constraints: Constraints
    catalogue: Catalogue
    policy: Policy


@dataclass(frozen=True, slots=True)
class Trial:
    """A candidate that was judged; ``shortfalls`` is empty where it is a way out."""

    candidate: Candidate
    judgement: Judgement
    shortfalls: tuple[Exclusion, ...]

    def measured(self, question: Question) -> Measures:
        """Figures by which it is compared."""
        return measure(
            self.judgement,
            self.candidate.cost_tier,
            self.candidate.effort,
            question.catalogue,
            question.policy,
        )


@dataclass(frozen=True, slots=True)
class Search:
    """Options of both sides, blocked ones included, and the trials of all couples of the rest."""

    first: tuple[Option, ...]
    second: tuple[Option, ...]
    trials: tuple[Trial, ...]


def search(question: Question) -> Search:
    """Enumerate and judge.

    Parameters
    ----------
    question : Question

    Returns
    -------
    Search
    """
    first, second = (
        options_of(
            question.couple,
            question.environment,
            question.constraints,
            question.catalogue,
            is_second=is_second,
        )
        for is_second in (False, True)
    )
    return Search(first, second, tried(question, candidates_of(question.couple, first, second)))


def tried(question: Question, candidates: Sequence[Candidate]) -> tuple[Trial, ...]:
    """Judge candidates in one batch.

    Parameters
    ----------
    question : Question
    candidates : sequence of Candidate

    Returns
    -------
    tuple of Trial
        In the order of ``candidates``.
    """
    cases = [(candidate.couple, question.environment) for candidate in candidates]
    judged = judge_cases(cases, question.catalogue, question.policy)
    trials = []
    for candidate, judgement in zip(candidates, judged, strict=True):
        life = life_of(judgement, question.catalogue, question.policy)
        trials.append(Trial(candidate, judgement, shortfalls(judgement, life, question.constraints)))
    return tuple(trials)
