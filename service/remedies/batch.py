"""Judging many couples in many places at once: each distinct case a single time, on all cores."""

from __future__ import annotations

import os
from collections import defaultdict
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement import Couple, Judgement, Policy, judge

Case = tuple[Couple, Environment]

WORTH_A_THREAD = 600
"""Couples from which a second thread pays: the arrays of one work while the other does bookkeeping."""


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
    wanted: dict[Environment, dict[Couple, None]] = defaultdict(dict)
    for couple, environment in cases:
        wanted[environment][couple] = None
    judged: dict[Case, Judgement] = {}
    for environment, couples in wanted.items():
        for judgement in _judge(list(couples), environment, catalogue, policy):
            judged[judgement.couple, environment] = judgement
    return [judged[case] for case in cases]


def _judge(
    couples: list[Couple], environment: Environment, catalogue: Catalogue, policy: Policy
) -> list[Judgement]:
    workers = min(os.cpu_count() or 1, len(couples) // WORTH_A_THREAD)
    if workers <= 1:
        return judge(couples, environment, catalogue, policy)
    size = -(-len(couples) // workers)
    parts = [couples[start : start + size] for start in range(0, len(couples), size)]
    with ThreadPoolExecutor(workers) as pool:
        results = pool.map(lambda part: judge(part, environment, catalogue, policy), parts)
        return [judgement for part in results for judgement in part]
