"""Judging many couples in many places at once: each distinct case a single time."""

from __future__ import annotations

from collections.abc import Sequence

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement import Couple, Judgement, Policy, judge

Case = tuple[Couple, Environment]


def judge_cases(cases: Sequence[Case], catalogue: Catalogue, policy: Policy) -> list[Judgement]:
    """Judge couples in their environments, in order.

    Parameters
    ----------
    cases : sequence of (Couple, Environment)
    catalogue : Catalogue
    policy : Policy

    Returns
    -------
    list of Judgement
        One for each case; the same as judging each by itself.
    """
    judged: dict[int, Judgement] = {}
    for environment, couples in _by_environment(cases).items():
        results = judge(list(couples), environment, catalogue, policy)
        for places, judgement in zip(couples.values(), results, strict=True):
            judged.update(dict.fromkeys(places, judgement))
    return [judged[place] for place in range(len(cases))]


def _by_environment(cases: Sequence[Case]) -> dict[Environment, dict[Couple, list[int]]]:
    """Places of each distinct couple in each distinct environment.

    Environments are told apart by identity first, because most cases share one and it is long to compare.
    """
    groups: dict[Environment, dict[Couple, list[int]]] = {}
    seen: dict[int, dict[Couple, list[int]]] = {}
    for place, (couple, environment) in enumerate(cases):
        group = seen.get(id(environment))
        if group is None:
            group = seen[id(environment)] = groups.setdefault(environment, {})
        group.setdefault(couple, []).append(place)
    return groups
