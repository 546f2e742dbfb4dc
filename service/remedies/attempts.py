"""Trying each measure of the knowledge base by itself, and sorting out what cannot be done here."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from service.catalogue.records import Mitigation, Rule, RuleKind
from service.judgement import Judgement
from service.judgement.facts import facts_of
from service.judgement.findings import Witness
from service.judgement.rules import Hit, matches
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation, as_it_is
from service.remedies.assessment import Assessment, assess, protects
from service.remedies.functions import ended_functions
from service.remedies.transforms import variants_of

ALWAYS = "{}"


@dataclass(frozen=True, slots=True)
class Package:
    """Measures taken together, and the joint judged with them."""

    measures: tuple[Mitigation, ...]
    after: Assessment


@dataclass(frozen=True, slots=True)
class Ruled:
    """Measures that are not ranked, with the reason."""

    measures: tuple[Mitigation, ...]
    obstacle: Obstacle
    detail: str


def attempt_each(
    offered: Iterable[Mitigation], before: Assessment, situation: Situation
) -> tuple[list[Package], list[Ruled]]:
    """Apply each measure to the joint as it is and judge all of them in one batch.

    Parameters
    ----------
    offered : iterable of Mitigation
    before : Assessment
        The joint without any measure.
    situation : Situation

    Returns
    -------
    packages : list of Package
        Measures that can be taken, each with its best variant.
    ruled : list of Ruled
        Those that cannot.
    """
    ruled: list[Ruled] = []
    trials: list[tuple[Mitigation, Arrangement]] = []
    for mitigation in offered:
        try:
            _check_applies(mitigation, situation)
            variants = variants_of(mitigation, as_it_is(situation.before), situation)
        except NotPossibleError as error:
            ruled.append(Ruled((mitigation,), error.obstacle, error.detail))
        else:
            trials.extend((mitigation, variant) for variant in variants)
    assessed = assess([variant for _, variant in trials], [(taken,) for taken, _ in trials], situation)
    by_measure: dict[str, list[Package]] = defaultdict(list)
    for (mitigation, _), assessment in zip(trials, assessed, strict=True):
        by_measure[mitigation.id].append(Package((mitigation,), assessment))
    packages = []
    for variants_tried in by_measure.values():
        package, obstacle = best_of(variants_tried, before, situation)
        if obstacle is None:
            packages.append(package)
        else:
            ruled.append(obstacle)
    return packages, ruled


def best_of(
    variants: Sequence[Package], before: Assessment, situation: Situation
) -> tuple[Package, Ruled | None]:
    """Return the best variant that breaks nothing, or else the best with what it breaks.

    Parameters
    ----------
    variants : sequence of Package
        At least one.
    before : Assessment
    situation : Situation

    Returns
    -------
    package : Package
    obstacle : Ruled or None
        ``None`` where the package may be ranked.
    """
    ordered = sorted(variants, key=lambda package: (package.after.standing, -_thickness_um(package)))
    for package in ordered:
        if _obstacle(package, before, situation) is None:
            return package, None
    return ordered[0], _obstacle(ordered[0], before, situation)


def _thickness_um(package: Package) -> float:
    """Thickness of all coats together: the thicker of two equals is taken."""
    return sum(
        layer.thickness_um or 0.0
        for couple in package.after.arrangement.couples
        for surface in (couple.first, couple.second)
        for layer in surface.layers
    )


def _check_applies(mitigation: Mitigation, situation: Situation) -> None:
    """Refuse what the knowledge base offers for other joints; what ends a function is tried, to say so."""
    declared = {function.value for function in situation.before.couple.functions}
    if mitigation.applies_when == ALWAYS or declared & set(mitigation.ends_functions):
        return
    facts = facts_of(situation.before.couple, situation.before.environment, situation.catalogue)
    match = matches(_as_rule(mitigation), facts)
    if match is None:
        raise NotPossibleError(
            Obstacle.DOES_NOT_APPLY, "It is for other metals, functions or exposures than these."
        )
    if not match.is_certain:
        raise NotPossibleError(
            Obstacle.NOT_KNOWN, f"It is not known whether it applies: {', '.join(match.unknown)}."
        )


def _as_rule(mitigation: Mitigation) -> Rule:
    """The condition of a measure in the shape that the rule engine reads."""
    return Rule(
        id=f"mitigation-{mitigation.id}",
        kind=RuleKind.EXPERIENCE,
        name=mitigation.name,
        trigger=mitigation.applies_when,
        severity="",
        anode="",
        refuses=False,
        affects=(),
        statement="",
        advice="",
        caution="",
        source_id=mitigation.source_id,
        locator=mitigation.locator,
        obtained=mitigation.obtained,
        note="",
    )


def _refusals(judgement: Judgement) -> Iterator[Hit]:
    return (hit for hit in judgement.hits if hit.match.is_certain and hit.rule.refuses)


def _obstacle(package: Package, before: Assessment, situation: Situation) -> Ruled | None:
    after = package.after
    known = {hit.rule.id for judgement in before.judgements for hit in _refusals(judgement)}
    for judgement in after.judgements:
        for hit in _refusals(judgement):
            if hit.rule.id not in known:
                return Ruled(package.measures, Obstacle.REFUSED, f"{hit.rule.name}: {hit.rule.statement}")
    ended = ended_functions(package.measures, after.arrangement, situation.before.couple.functions)
    if ended:
        names = " and ".join(function.value for function in ended)
        return Ruled(package.measures, Obstacle.ENDS_FUNCTION, f"It ends the function {names} of this joint.")
    if not protects(after):
        return Ruled(
            package.measures,
            Obstacle.DOES_NOT_APPLY,
            "The metal that is meant to be eaten would not be the anode here.",
        )
    was, now = (
        each.judgement.findings[Witness.FUNCTION].figures.get("meets_bond_limit") for each in (before, after)
    )
    if now is False and was is not False:
        return Ruled(package.measures, Obstacle.ENDS_FUNCTION, "The contact no longer meets the bond limit.")
    return None
