"""Assessing arrangements: each is judged, capped by what is known of its measures, given its conditions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.catalogue.records import Mitigation
from service.judgement import Judgement, Verdict
from service.judgement.findings import Anode, Condition
from service.remedies.arrangement import Arrangement, Situation, worst
from service.remedies.batch import judge_cases
from service.remedies.measures import Measures, measure
from service.remedies.ranking import scores
from service.remedies.transforms import kind_of

_ORDER = (Verdict.SUITABLE, Verdict.CONDITIONAL, Verdict.UNDETERMINED, Verdict.UNSUITABLE)
REMARKABLE = 0.01
"""Difference of scores from which a joint counts as better (0 is best, 1 worst). House rule."""

_KEPT_UP = frozenset({"cover", "separate", "wetness", "drain", "inhibitor", "protection"})
"""Kinds of measures that hold only as long as somebody keeps them up."""


@dataclass(frozen=True, slots=True)
class Assessment:
    """A judged arrangement.

    ``judgement`` is its worst, ``score`` the weighted sum of its objectives (0 is best), ``verdict`` what is
    told, never better than what was judged.
    """

    arrangement: Arrangement
    judgements: tuple[Judgement, ...]
    judgement: Judgement
    measures: Measures
    score: float
    verdict: Verdict
    capped_because: str

    @property
    def standing(self) -> tuple[int, int, float]:
        """Sort key, best first: verdict as told, severity, score."""
        severity = self.measures.severity
        rank = severity.rank if severity is not None else len(_ORDER)
        return _ORDER.index(self.verdict), rank, self.score

    def is_better_than(self, other: Assessment) -> bool:
        """Whether it stands clearly better, not by a hair."""
        if self.standing[:2] != other.standing[:2]:
            return self.standing[:2] < other.standing[:2]
        return self.score < other.score - REMARKABLE


def assess(
    arrangements: Sequence[Arrangement], measures: Sequence[Sequence[Mitigation]], situation: Situation
) -> list[Assessment]:
    """Judge arrangements in one batch.

    Parameters
    ----------
    arrangements : sequence of Arrangement
    measures : sequence of sequence of Mitigation
        Measures that each arrangement is made of.
    situation : Situation

    Returns
    -------
    list of Assessment
    """
    cases = [
        (couple, arrangement.environment) for arrangement in arrangements for couple in arrangement.couples
    ]
    judged = iter(judge_cases(cases, situation.catalogue, situation.policy))
    return [
        _assessed(arrangement, tuple(next(judged) for _ in arrangement.couples), taken, situation)
        for arrangement, taken in zip(arrangements, measures, strict=True)
    ]


def protects(assessment: Assessment) -> bool:
    """Whether the metal that is meant to be eaten is the anode of every couple."""
    if not assessment.arrangement.is_sacrificial:
        return True
    return all(_is_eaten_second(judgement) for judgement in assessment.judgements)


def conditions_of(assessment: Assessment, measures: Sequence[Mitigation]) -> tuple[Condition, ...]:
    """Everything that must be done for the verdict to hold.

    Parameters
    ----------
    assessment : Assessment
    measures : sequence of Mitigation

    Returns
    -------
    tuple of Condition
        Application and inspection of each measure first, then what the judgements ask.
    """
    found: list[Condition] = []
    for taken in measures:
        found.append(
            Condition(
                f"apply-{taken.id}",
                f"{taken.name}: {taken.directions}",
                "assembler",
                "inspection of the work",
            )
        )
        if taken.inspection:
            found.append(
                Condition(
                    f"inspect-{taken.id}",
                    f"Inspect: {_inspection(taken)}.",
                    "maintainer",
                    "inspection record at the stated intervals",
                )
            )
    found.extend(assessment.arrangement.conditions)
    found.extend(
        condition for judgement in assessment.judgements for condition in judgement.outcome.conditions
    )
    return tuple(dict.fromkeys(found))


def _inspection(taken: Mitigation) -> str:
    """What to inspect, named after its measure where it is inspected as something else is."""
    return f"{taken.name.lower()}, {taken.inspection}" if taken.inspection else ""


def _assessed(
    arrangement: Arrangement,
    judgements: tuple[Judgement, ...],
    measures: Sequence[Mitigation],
    situation: Situation,
) -> Assessment:
    deciding = worst(judgements)
    figures = measure(deciding, 0, len(measures), situation.catalogue, situation.policy)
    verdict, because = _capped(deciding.outcome.verdict, measures, situation)
    score = float(scores(figures.vector[None], situation.constraints.weights)[0])
    return Assessment(arrangement, judgements, deciding, figures, score, verdict, because)


def _capped(verdict: Verdict, measures: Sequence[Mitigation], situation: Situation) -> tuple[Verdict, str]:
    """Measures without a source, or that do not last, make nothing more than conditional."""
    if verdict is not Verdict.SUITABLE or not measures:
        return verdict, ""
    unsourced = [taken.name for taken in measures if not taken.has_sourced_efficacy]
    if unsourced:
        return Verdict.CONDITIONAL, f"no source shows how well this works: {', '.join(unsourced).lower()}"
    passing = [taken.name for taken in measures if kind_of(taken) in _KEPT_UP]
    if passing:
        return Verdict.CONDITIONAL, f"it has to be kept up: {', '.join(passing).lower()}"
    life = situation.policy.life_years(situation.before.couple)
    short = [taken.name for taken in measures if (taken.life_years_low or 0.0) < life]
    if short:
        names = ", ".join(short).lower()
        return Verdict.CONDITIONAL, f"it may have to be renewed within {life:g} years: {names}"
    return verdict, ""


def _is_eaten_second(judgement: Judgement) -> bool:
    known = judgement.kinetics.less_noble or judgement.outcome.anode
    return known is Anode.SECOND
