"""Measures taken together, up to three: at most one of each kind, and only if the whole beats its parts."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence

from service.catalogue.records import Mitigation
from service.judgement import Verdict
from service.remedies.arrangement import Arrangement, NotPossibleError, Obstacle, Situation, as_it_is
from service.remedies.assessment import Assessment, assess
from service.remedies.attempts import Package, Ruled, best_of
from service.remedies.transforms import kind_of, variants_of

MOST_MEASURES = 3

_SEQUENCE = ("surface", "cover", "area", "separate", "drain", "wetness", "inhibitor", "protection")
"""Order in which kinds are applied: what the parts are, then where they live."""

_BETWEEN_TWO = frozenset({"cover", "area", "separate", "protection"})
"""Kinds that are defined for one couple only."""

STRAP = "parallel_path"


def packages_of(
    singles: Sequence[Package],
    ruled: Sequence[Ruled],
    before: Assessment,
    situation: Situation,
) -> list[Package]:
    """Combine measures and keep what is better than each of its parts.

    Parameters
    ----------
    singles : sequence of Package
        Measures that can be taken alone.
    ruled : sequence of Ruled
        Measures that cannot; those that only end a bond may be taken with a strap.
    before : Assessment
    situation : Situation

    Returns
    -------
    list of Package
        Nothing where a single measure already makes the joint suitable.
    """
    if any(single.after.verdict is Verdict.SUITABLE for single in singles):
        return []
    parts = {single.measures[0].id: single for single in singles}
    found: list[Package] = []
    combinations = [*_with_strap(singles, ruled), *_sensible(singles)]
    for size in range(2, MOST_MEASURES + 1):
        of_size = [chosen for chosen in combinations if len(chosen) == size]
        found.extend(_better(of_size, parts, found, before, situation))
    return found


def _sensible(singles: Sequence[Package]) -> Iterator[tuple[Mitigation, ...]]:
    """Combinations of the best measure of each kind, in the order of application."""
    best: dict[str, Package] = {}
    for single in sorted(singles, key=lambda package: (package.after.standing, package.measures[0].rank)):
        if STRAP not in single.measures[0].parameters:
            best.setdefault(kind_of(single.measures[0]), single)
    leading = [best[kind].measures[0] for kind in _SEQUENCE if kind in best]
    for size in range(2, MOST_MEASURES + 1):
        yield from itertools.combinations(leading, size)


def _with_strap(singles: Sequence[Package], ruled: Sequence[Ruled]) -> Iterator[tuple[Mitigation, ...]]:
    """Measures that insulate without isolating, each with a strap that carries the bond."""
    straps = [single.measures[0] for single in singles if STRAP in single.measures[0].parameters]
    for entry in ruled:
        mitigation = entry.measures[0]
        is_seal = kind_of(mitigation) == "wetness"
        if entry.obstacle is Obstacle.ENDS_FUNCTION and is_seal:
            yield from ((mitigation, strap) for strap in straps)


def _better(
    combinations: Iterable[tuple[Mitigation, ...]],
    parts: dict[str, Package],
    smaller: Sequence[Package],
    before: Assessment,
    situation: Situation,
) -> list[Package]:
    trials: list[tuple[tuple[Mitigation, ...], Arrangement]] = []
    for measures in combinations:
        arrangement = _applied(measures, parts, situation)
        if arrangement is not None:
            trials.append((measures, arrangement))
    assessed = assess([each for _, each in trials], [measures for measures, _ in trials], situation)
    packages = []
    for (measures, _), assessment in zip(trials, assessed, strict=True):
        package, obstacle = best_of([Package(measures, assessment)], before, situation)
        contained = [parts[each.id].after for each in measures if each.id in parts]
        contained += [each.after for each in smaller if set(each.measures) < set(measures)]
        is_better = all(assessment.standing[:2] < each.standing[:2] for each in (before, *contained))
        if obstacle is None and is_better:
            packages.append(package)
    return packages


def _applied(
    measures: Sequence[Mitigation], parts: dict[str, Package], situation: Situation
) -> Arrangement | None:
    """The joint with all measures; the first one in the variant that was best alone."""
    leading = parts.get(measures[0].id)
    rest = measures[1:] if leading else measures
    arrangement = leading.after.arrangement if leading else as_it_is(situation.before)
    try:
        for mitigation in rest:
            if len(arrangement.couples) > 1 and kind_of(mitigation) in _BETWEEN_TWO:
                return None
            arrangement = variants_of(mitigation, arrangement, situation)[0]
    except NotPossibleError:
        return None
    return arrangement
