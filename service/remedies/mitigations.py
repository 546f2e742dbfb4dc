"""Ranked measures for a joint that has to stay: each applied, judged again, and told with what it costs.

Every measure of the knowledge base is tried alone and, where that is sensible, with others (``packages``).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Compound, Environment, Mitigation
from service.judgement import DEFAULT_POLICY, Couple, Judgement, Policy, Verdict, judge
from service.judgement.compound_effect import attacked_family
from service.judgement.findings import Condition
from service.remedies.acceptance import why
from service.remedies.arrangement import Obstacle, Situation, as_it_is
from service.remedies.assessment import Assessment, assess, conditions_of
from service.remedies.attempts import Package, Ruled, attempt_each
from service.remedies.botching import botched
from service.remedies.comparison import Comparison, compare
from service.remedies.constraints import Constraints
from service.remedies.directions import Step, directions
from service.remedies.functions import FunctionEffect, effects
from service.remedies.packages import packages_of


@dataclass(frozen=True, slots=True)
class Mistake:
    """What goes wrong when a measure is done badly, and the verdict then."""

    mitigation: Mitigation
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class Remedy:
    """Measures that make the joint better.

    ``conditions`` are what the verdict hangs on; ``attacked`` are metals of the joint that a compound used
    here would attack, which is empty unless the caller's own compound does.
    """

    measures: tuple[Mitigation, ...]
    after: Assessment
    comparison: Comparison
    conditions: tuple[Condition, ...]
    functions: tuple[FunctionEffect, ...]
    compounds: tuple[Compound, ...]
    attacked: tuple[tuple[str, str], ...]
    mistakes: tuple[Mistake, ...]
    steps: tuple[tuple[str, tuple[Step, ...]], ...]
    cautions: tuple[str, ...]

    @property
    def life_years(self) -> tuple[float | None, float | None]:
        """Years until the shortest-lived measure has to be renewed."""
        lows = [each.life_years_low for each in self.measures if each.life_years_low is not None]
        highs = [each.life_years_high for each in self.measures if each.life_years_high is not None]
        return min(lows, default=None), min(highs, default=None)


@dataclass(frozen=True, slots=True)
class Mitigations:
    """All measures of the knowledge base, sorted out.

    ``ranking`` holds ways out, best first. ``insufficient`` may be taken and are no way out by themselves:
    they change nothing, or not enough. ``infeasible`` may not be taken. ``hidden`` counts measures by the
    substances that need the caller's consent.
    """

    situation: Situation
    before: Assessment
    ranking: tuple[Remedy, ...]
    insufficient: tuple[Ruled, ...]
    infeasible: tuple[Ruled, ...]
    hidden: tuple[tuple[str, int], ...]


def find_mitigations(
    couple: Couple,
    environment: Environment,
    catalogue: Catalogue,
    policy: Policy = DEFAULT_POLICY,
    constraints: Constraints | None = None,
) -> Mitigations:
    """Apply every measure to a couple, judge it again, and rank what helps.

    Parameters
    ----------
    couple : Couple
        The couple that has to stay.
    environment : Environment
    catalogue : Catalogue
    policy : Policy
    constraints : Constraints, optional
        Substances that may be used, finishes that may not.

    Returns
    -------
    Mitigations
        A verdict here is that of :func:`service.judgement.judge` on the changed joint, or worse where the
        measure has no source or does not last.
    """
    (judged,) = judge([couple], environment, catalogue, policy)
    situation = Situation(judged, constraints or Constraints(), catalogue, policy)
    (before,) = assess([as_it_is(judged)], [()], situation)
    offered, hidden = _consented(situation)
    singles, ruled = attempt_each(offered, before, situation)
    combined = packages_of(singles, ruled, before, situation)
    ranked = sorted((each for each in (*singles, *combined) if _is_way_out(each, before)), key=_rank)
    insufficient = [_insufficient(each, before) for each in singles if not _is_way_out(each, before)]
    mistakes = _mistakes(ranked, situation)
    remedies = tuple(
        _remedy(package, made, before, situation) for package, made in zip(ranked, mistakes, strict=True)
    )
    return Mitigations(situation, before, remedies, tuple(insufficient), tuple(ruled), hidden)


def _consented(situation: Situation) -> tuple[list[Mitigation], tuple[tuple[str, int], ...]]:
    """Measures whose substances the caller allows, and how many others there are by substance."""
    allowed = set(situation.constraints.allowed_substances) - set(situation.constraints.forbidden_substances)
    offered, hidden = [], Counter[str]()
    for mitigation in situation.catalogue.mitigations.values():
        lacking = sorted(set(mitigation.needs_opt_in) - allowed)
        if lacking:
            hidden[";".join(lacking)] += 1
        else:
            offered.append(mitigation)
    return offered, tuple(sorted(hidden.items()))


def _rank(package: Package) -> tuple[object, ...]:
    """Best verdict and severity first, then the fewest measures, the fewest hazards, the published order."""
    verdict, severity, score = package.after.standing
    return (
        verdict,
        severity,
        len(package.measures),
        package.after.measures.hazard_points,
        tuple(measure.rank for measure in package.measures),
        score,
    )


def _is_way_out(package: Package, before: Assessment) -> bool:
    is_accepted = package.after.verdict in {Verdict.SUITABLE, Verdict.CONDITIONAL}
    return is_accepted and package.after.is_better_than(before)


def _insufficient(package: Package, before: Assessment) -> Ruled:
    verdict = package.after.verdict.value
    if package.after.is_better_than(before):
        detail = f"It helps, and the joint is {verdict} still: {why(package.after.judgement)}"
        return Ruled(package.measures, Obstacle.NOT_ENOUGH, detail)
    detail = f"The joint judged with it is {verdict} as before, and no better in any figure worth telling."
    return Ruled(package.measures, Obstacle.NO_EFFECT, detail)


def _mistakes(ranked: Sequence[Package], situation: Situation) -> list[tuple[Mistake, ...]]:
    """Judge the usual mistake of every measure of every package in one batch."""
    made = [
        (measure, botched(measure, package.after.arrangement, situation))
        for package in ranked
        for measure in package.measures
    ]
    assessed = iter(assess([arrangement for _, arrangement in made], [()] * len(made), situation))
    return [
        tuple(Mistake(measure, next(assessed).judgement) for measure in package.measures)
        for package in ranked
    ]


def _remedy(
    package: Package, mistakes: tuple[Mistake, ...], before: Assessment, situation: Situation
) -> Remedy:
    after, catalogue = package.after, situation.catalogue
    compounds = tuple(catalogue.compounds[name] for name in dict.fromkeys(after.arrangement.compounds))
    cautions = [measure.caution for measure in package.measures]
    cautions += [compound.caution for compound in compounds]
    cautions += [text for finding in after.judgement.findings.values() for text in finding.cautions]
    return Remedy(
        package.measures,
        after,
        compare(
            (before.judgement, before.measures),
            (after.judgement, replace(after.measures, verdict=after.verdict)),
            catalogue,
            situation.policy,
        ),
        conditions_of(after, package.measures),
        effects(package.measures, after.arrangement, situation.before, after.judgement),
        compounds,
        tuple(_attacked(after, catalogue)),
        mistakes,
        tuple((measure.id, directions(measure, compounds)) for measure in package.measures),
        tuple(dict.fromkeys(caution for caution in cautions if caution)),
    )


def _attacked(after: Assessment, catalogue: Catalogue) -> list[tuple[str, str]]:
    """Compound and family for every metal of the joint that a compound between the faces attacks."""
    found = [
        (compound.id, family)
        for couple in after.arrangement.couples
        for compound in (catalogue.compounds.get(couple.compound_id),)
        for surface in (couple.first, couple.second)
        if compound is not None and (family := attacked_family(surface, compound, catalogue))
    ]
    return list(dict.fromkeys(found))
