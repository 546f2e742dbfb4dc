"""Where nothing is left: which single constraint stands in the way, and what would be possible without it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from service.judgement.surface_names import surface_name
from service.remedies.acceptance import why
from service.remedies.constraints import Change
from service.remedies.enumeration import Candidate, Option
from service.remedies.reasons import CONSTRAINT_OF, Reason
from service.remedies.search import Question, Search, Trial, search, tried

_JUDGED = frozenset({Reason.LIFE, Reason.BOND_LIMIT})
_WIDER = {Change.NOTHING: Change.FINISH, Change.FINISH: Change.MATERIAL}


@dataclass(frozen=True, slots=True)
class Blocker:
    """A constraint without which there would be options; ``options`` counts them, 0 where none would be."""

    constraint: str
    options: int
    example: str


def find_blockers(question: Question, found: Search) -> tuple[Blocker, ...]:
    """Say what blocks a search that found no way out.

    Parameters
    ----------
    question : Question
    found : Search
        Its trials all fall short.

    Returns
    -------
    tuple of Blocker
        At least one: constraints by the number of options that they hold back, then the scope of the
        change, and where neither helps what holds back the nearest couple.
    """
    ways: dict[str, list[Trial]] = defaultdict(list)
    for trial in found.trials:
        reasons = {each.reason for each in trial.shortfalls}
        if len(reasons) == 1 and reasons <= _JUDGED:
            ways[CONSTRAINT_OF[reasons.pop()]].append(trial)
        elif reasons == {Reason.UNSUITABLE} and trial.judgement.outcome.conditions:
            ways[CONSTRAINT_OF[Reason.UNSUITABLE]].append(trial)
    for reason, trial in _held_back(question, found):
        ways[CONSTRAINT_OF[reason]].append(trial)
    blockers = _counted(ways, question) or _counted(_wider_scope(question), question)
    return blockers or (_nearest(question, found),)


def _held_back(question: Question, found: Search) -> Iterator[tuple[Reason, Trial]]:
    """Ways out among the surfaces that exactly one reason keeps out, the other side as it is."""
    present = found.first[0], found.second[0]
    pairs = [(option, option, present[1]) for option in found.first]
    pairs += [(option, present[0], option) for option in found.second]
    sides = [
        (reason, _candidate(question, first, second))
        for option, first, second in pairs
        if (reason := _only_reason(option)) is not None
    ]
    trials = tried(question, [candidate for _, candidate in sides])
    for (reason, _), trial in zip(sides, trials, strict=True):
        if not trial.shortfalls:
            yield reason, trial


def _only_reason(option: Option) -> Reason | None:
    reasons = {each.reason for each in option.blocked_by}
    return reasons.pop() if len(reasons) == 1 else None


def _candidate(question: Question, first: Option, second: Option) -> Candidate:
    couple = replace(question.couple, first=first.surface, second=second.surface)
    return Candidate(couple, first, second)


def _wider_scope(question: Question) -> Mapping[str, list[Trial]]:
    """Ways out if one side may be changed one step further."""
    ways: dict[str, list[Trial]] = {}
    for side, change in (("first", question.constraints.first), ("second", question.constraints.second)):
        wider = _WIDER.get(change)
        if wider is None:
            continue
        constraints = replace(
            question.constraints,
            first=wider if side == "first" else Change.NOTHING,
            second=wider if side == "second" else Change.NOTHING,
        )
        trials = search(replace(question, constraints=constraints)).trials
        ways[f"scope of change: {wider.value} of the {side} side"] = [
            trial for trial in trials if not trial.shortfalls
        ]
    return ways


def _counted(ways: Mapping[str, list[Trial]], question: Question) -> tuple[Blocker, ...]:
    blockers = [
        Blocker(constraint, len(trials), _named(_best(trials, question), question))
        for constraint, trials in ways.items()
        if trials
    ]
    return tuple(sorted(blockers, key=lambda blocker: (-blocker.options, blocker.constraint)))


def _nearest(question: Question, found: Search) -> Blocker:
    """The couple that comes nearest, and what holds it back: no single constraint of the caller does."""
    if not found.trials:
        return Blocker("surfaces known for these materials", 0, "The catalogue knows no other surface.")
    nearest = _best(found.trials, question)
    deciding = nearest.judgement.outcome.deciding
    witness = deciding.value if deciding else "evidence"
    name = _named(nearest, question)
    return Blocker(f"environment and function ({witness})", 0, f"{name}: {why(nearest.judgement)}")


def _best(trials: Sequence[Trial], question: Question) -> Trial:
    """The first by verdict, loss and effort."""
    return min(
        trials, key=lambda trial: (trial.measured(question).vector[:3].tolist(), trial.candidate.effort)
    )


def _named(trial: Trial, question: Question) -> str:
    first, second = trial.candidate.couple.first, trial.candidate.couple.second
    return f"{surface_name(first, question.catalogue)} and {surface_name(second, question.catalogue)}"
