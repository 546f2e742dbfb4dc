"""Ranked alternatives: every feasible surface on either or both sides, each couple judged again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, FinishRole
from service.catalogue.surfaces import Condition, Surface
from service.judgement import DEFAULT_POLICY, Couple, Judgement, Policy, Verdict
from service.judgement.exposed import outer_electrode_id
from service.remedies.acceptance import why
from service.remedies.batch import judge_cases
from service.remedies.blocking import Blocker, find_blockers
from service.remedies.comparison import Comparison, compare
from service.remedies.constraints import Constraints
from service.remedies.enumeration import Candidate
from service.remedies.measures import Measures
from service.remedies.ranking import order, pareto_front, scores
from service.remedies.reasons import CONSTRAINT_OF, Exclusion, Reason
from service.remedies.search import Question, Search, Trial, search, tried

DEFAULT_LIMIT = 25
"""Options that are shown where the caller states no number; all are ranked."""

_VERDICT_ORDER = (Verdict.SUITABLE, Verdict.CONDITIONAL, Verdict.UNDETERMINED, Verdict.UNSUITABLE)


@dataclass(frozen=True, slots=True)
class Alternative:
    """One way out.

    ``worn`` is the judgement with its finishes worn, ``None`` where it has none. ``alike`` are other ways out
    that show the electrolyte the same metals and came out with the same verdict and severity, best first.
    """

    candidate: Candidate
    judgement: Judgement
    measures: Measures
    score: float
    is_on_front: bool
    comparison: Comparison
    worn: Judgement | None
    alike: tuple[Couple, ...]


@dataclass(frozen=True, slots=True)
class ExcludedGroup:
    """Surfaces or couples left out for one reason; ``unit`` says which is counted."""

    reason: Reason
    constraint: str
    unit: str
    count: int
    example: str


@dataclass(frozen=True, slots=True)
class Alternatives:
    """The ranking with what was left out and why.

    ``found`` counts all ways out after the best thickness of each finish was chosen; ``ranking`` shows the
    first of them. ``blockers`` is empty unless nothing was found.
    """

    question: Question
    before: Trial
    ranking: tuple[Alternative, ...]
    found: int
    judged: int
    excluded: tuple[ExcludedGroup, ...]
    blockers: tuple[Blocker, ...]


def find_alternatives(
    couple: Couple,
    environment: Environment,
    constraints: Constraints,
    catalogue: Catalogue,
    policy: Policy = DEFAULT_POLICY,
    limit: int = DEFAULT_LIMIT,
) -> Alternatives:
    """Find, judge and rank everything that could stand in for a couple.

    Parameters
    ----------
    couple : Couple
        The couple as it is; its functions, temperature, wear and life bind the options.
    environment : Environment
    constraints : Constraints
        What may change and what options must satisfy.
    catalogue : Catalogue
    policy : Policy
        Bands, and the finishes that the house bans or prefers.
    limit : int
        Options shown [-].

    Returns
    -------
    Alternatives
        Every verdict is that of :func:`service.judgement.judge` on the couple shown.

    Raises
    ------
    InvalidConstraintError
        If a constraint names what does not exist or leaves nothing to change.
    """
    constraints.check(catalogue)
    question = Question(couple, environment, constraints, catalogue, policy)
    found = search(question)
    (before,) = tried(question, [Candidate(couple, found.first[0], found.second[0])])
    ways_out = [trial for trial in found.trials if not trial.shortfalls]
    ranking, count = _ranked(question, before, ways_out, limit)
    blockers = () if ways_out else find_blockers(question, found)
    return Alternatives(question, before, ranking, count, len(found.trials), _excluded(found), blockers)


def _ranked(
    question: Question, before: Trial, ways_out: Sequence[Trial], limit: int
) -> tuple[tuple[Alternative, ...], int]:
    if not ways_out:
        return (), 0
    measured = [trial.measured(question) for trial in ways_out]
    score = scores(np.stack([each.vector for each in measured]), question.constraints.weights)
    kept = _best_of_each_finish(ways_out, score)
    vectors = np.stack([measured[place].vector for place in kept])
    front = pareto_front(vectors)
    names = [_tie_break(ways_out[place].candidate.couple) for place in kept]
    ordered = [kept[place] for place in order(front, score[kept], names)]
    on_front = {kept[place] for place in np.flatnonzero(front)}
    groups = _alike(question, ways_out, ordered)[:limit]
    worn = _worn(question, [ways_out[group[0]] for group in groups])
    reference = (before.judgement, before.measured(question))
    rows = []
    for group, when_worn in zip(groups, worn, strict=True):
        trial, figures = ways_out[group[0]], measured[group[0]]
        rows.append(
            Alternative(
                trial.candidate,
                trial.judgement,
                figures,
                float(score[group[0]]),
                group[0] in on_front,
                _with_wear(
                    compare(reference, (trial.judgement, figures), question.catalogue, question.policy),
                    trial.judgement,
                    when_worn,
                ),
                when_worn,
                tuple(ways_out[place].candidate.couple for place in group[1:]),
            )
        )
    return tuple(rows), len(kept)


def _alike(question: Question, trials: Sequence[Trial], ordered: Sequence[int]) -> list[list[int]]:
    """Places grouped by what the electrolyte sees and by outcome, each group and all groups best first."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for place in ordered:
        couple, outcome = trials[place].candidate.couple, trials[place].judgement.outcome
        seen = (
            (side.material_id, outer_electrode_id(side, question.catalogue), _role(side, question.catalogue))
            for side in (couple.first, couple.second)
        )
        groups.setdefault((*seen, outcome.verdict, outcome.severity), []).append(place)
    return list(groups.values())


def _role(surface: Surface, catalogue: Catalogue) -> str:
    return catalogue.finishes[surface.layers[0].finish_id].role if surface.layers else FinishRole.BARE


def _best_of_each_finish(trials: Sequence[Trial], score: NDArray[np.float64]) -> list[int]:
    """Places of the best thickness of each pair of finishes, the usual one where others do no better."""
    best: dict[tuple[object, ...], int] = {}
    for place, trial in enumerate(trials):
        couple = trial.candidate.couple
        key = (*_stack(couple.first), *_stack(couple.second))
        if key not in best or _worth(trial, score[place]) < _worth(trials[best[key]], score[best[key]]):
            best[key] = place
    return list(best.values())


def _worth(trial: Trial, score: float) -> tuple[float, bool]:
    return score, not (trial.candidate.first.is_usual and trial.candidate.second.is_usual)


def _stack(surface: Surface) -> tuple[object, ...]:
    return surface.material_id, tuple(layer.finish_id for layer in surface.layers)


def _tie_break(couple: Couple) -> str:
    """Sort key among equals: the thicker coats first, then by name."""
    layers = (*couple.first.layers, *couple.second.layers)
    thickness = sum(layer.thickness_um or 0.0 for layer in layers)
    return f"{1e6 - thickness:014.3f} {couple.first!r} {couple.second!r}"


def _worn(question: Question, trials: Sequence[Trial]) -> list[Judgement | None]:
    """Judge the shown couples once more with the finishes worn."""
    couples = [_worn_couple(trial.candidate.couple) for trial in trials]
    cases = [(couple, question.environment) for couple in couples if couple is not None]
    judged = iter(judge_cases(cases, question.catalogue, question.policy))
    return [next(judged) if couple is not None else None for couple in couples]


def _with_wear(comparison: Comparison, fresh: Judgement, worn: Judgement | None) -> Comparison:
    """Say it where wear turns the verdict."""
    if worn is None or _VERDICT_ORDER.index(worn.outcome.verdict) <= _VERDICT_ORDER.index(
        fresh.outcome.verdict
    ):
        return comparison
    sentence = f"Worn, it becomes {worn.outcome.verdict.value}: {why(worn)}"
    return replace(comparison, worse=(*comparison.worse, sentence))


def _worn_couple(couple: Couple) -> Couple | None:
    if not couple.first.layers and not couple.second.layers:
        return None
    first, second = (
        replace(side, condition=Condition.WORN) if side.layers else side
        for side in (couple.first, couple.second)
    )
    return replace(couple, first=first, second=second)


def _excluded(found: Search) -> tuple[ExcludedGroup, ...]:
    surfaces = _groups(
        (option.blocked_by for side in (found.first, found.second) for option in side), "surface"
    )
    couples = _groups((trial.shortfalls for trial in found.trials), "couple")
    return (*surfaces, *couples)


def _groups(blocked: Iterator[tuple[Exclusion, ...]], unit: str) -> Iterator[ExcludedGroup]:
    """Count each thing once under its first reason, so that the counts add up."""
    counts: Counter[Reason] = Counter()
    examples: dict[Reason, str] = {}
    for exclusions in blocked:
        if exclusions:
            leading = exclusions[0]
            counts[leading.reason] += 1
            examples.setdefault(leading.reason, leading.detail)
    for reason, count in sorted(counts.items(), key=lambda item: (-item[1], item[0])):
        yield ExcludedGroup(reason, CONSTRAINT_OF[reason], unit, count, examples[reason])
