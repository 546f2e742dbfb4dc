"""Scoring predictions against what is documented; each score carries the number it rests on."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from tests.validation.cases import Case
from tests.validation.predictions import Prediction

Pairs = Sequence[tuple[Case, Prediction]]
FACTOR = 3.0
RATIO_FACTOR = 1.5
FIGURES = ("rate_um_per_year", "acceleration", "cathode_current_A_per_m2")
"""Documented figures that a prediction may meet."""


@dataclass(frozen=True, slots=True)
class Score:
    """``right`` of ``n``, or a mean over ``n``; ``wrong`` names the cases that are not right."""

    name: str
    value: float | None
    n: int
    is_share: bool = True
    wrong: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The score as a person reads it."""
        if self.value is None:
            return "-"
        return f"{self.value:.0%}" if self.is_share else f"{self.value:.2f}"


def all_scores(pairs: Pairs) -> list[Score]:
    """Score one method on all cases."""
    return [
        right_anode(pairs),
        severity_within(pairs, 1, "severity within one step"),
        severity_within(pairs, 0, "severity exact"),
        dangerous_misses(pairs),
        pairwise_order(pairs),
        spearman(pairs),
        ratios(pairs),
        within_factor(pairs, "rate_um_per_year", "rate of loss within a factor 3"),
        within_factor(pairs, "acceleration", "acceleration within a factor 3"),
        within_factor(pairs, "cathode_current_A_per_m2", "cathode current within a factor 3"),
        all_figures(pairs),
    ]


def right_anode(pairs: Pairs) -> Score:
    """Count the cases whose eaten side was named, or doubted where a reversal is documented."""
    scored = [(c, p) for c, p in pairs if c.documented.anode and not c.documented.nothing_is_eaten]
    return _share("right anode", [(case, names_anode(case, word)) for case, word in scored])


def names_anode(case: Case, word: Prediction) -> bool:
    """Tell whether a word on the anode is right."""
    return word.anode == case.documented.anode or (case.documented.doubt_is_right and word.is_in_doubt)


def severity_within(pairs: Pairs, steps: int, name: str) -> Score:
    """Count the cases whose severity is at most so many steps outside the documented range."""
    results = []
    for case, word in pairs:
        if case.documented.severity is None:
            continue
        results.append((case, word.severity is not None and steps_off(case, word) <= steps))
    return _share(name, results)


def steps_off(case: Case, word: Prediction) -> int:
    """Count the steps from a predicted severity to the documented range."""
    if case.documented.severity is None or word.severity is None:
        message = "both severities must be known"
        raise ValueError(message)
    low, high = (severity.rank for severity in case.documented.severity)
    return max(low - word.severity.rank, word.severity.rank - high, 0)


def dangerous_misses(pairs: Pairs) -> Score:
    """Count the cases documented as severe that were called suitable."""
    severe = [(case, word) for case, word in pairs if case.documented.is_severe]
    missed = tuple(case.name for case, word in severe if word.is_suitable)
    return Score("dangerous misses", len(missed) / len(severe) if severe else None, len(severe), wrong=missed)


def pairwise_order(pairs: Pairs) -> Score:
    """Count the pairs within a study that come in the documented order; a tie counts half."""
    marks, wrong = list[float](), list[str]()
    for (one, first), (other, second) in _compared(pairs):
        worse, milder = (
            (first, second) if (one.documented.rank or 0) < (other.documented.rank or 0) else (second, first)
        )
        mark = _order_mark(worse.attack, milder.attack)
        marks.append(mark)
        if mark < 1:
            wrong.append(f"{one.name}/{other.name}")
    value = float(np.mean(marks)) if marks else None
    return Score("pairs in the right order", value, len(marks), wrong=tuple(wrong))


def spearman(pairs: Pairs) -> Score:
    """Average Spearman's coefficient over the studies, weighted by their size."""
    values, weights = [], []
    for members in _studies(pairs).values():
        documented = [-(case.documented.rank or 0.0) for case, _ in members]
        attack = [word.attack for _, word in members]
        if any(value is None for value in attack) or len(set(documented)) == 1:
            continue
        values.append(rank_correlation(documented, [float(value or 0.0) for value in attack]))
        weights.append(len(members))
    mean = float(np.average(values, weights=weights)) if values else None
    return Score("Spearman within studies", mean, sum(weights), is_share=False)


def rank_correlation(one: Sequence[float], other: Sequence[float]) -> float:
    """Return Spearman's coefficient with ties at their middle rank; 0 where all are tied."""
    first, second = _ranks(one), _ranks(other)
    if np.ptp(first) == 0 or np.ptp(second) == 0:
        return 0.0
    return float(np.corrcoef(first, second)[0, 1])


def ratios(pairs: Pairs) -> Score:
    """Count the documented ratios within a study that come out within a factor 1.5."""
    groups = defaultdict(list)
    for case, word in pairs:
        if case.documented.ratio is not None:
            groups[case.documented.ratio_group].append((case, word))
    results = []
    for (one, first), (other, second) in itertools.chain.from_iterable(
        itertools.combinations(members, 2) for members in groups.values()
    ):
        found = (second.attack / first.attack) if first.attack and second.attack else None
        wanted = (other.documented.ratio or 1.0) / (one.documented.ratio or 1.0)
        results.append((other, found is not None and _factor(found, wanted) <= RATIO_FACTOR))
    return _share("documented ratios within a factor 1.5", results)


def within_factor(pairs: Pairs, figure: str, name: str) -> Score:
    """Count the documented figures that are met within a factor 3."""
    return _share(name, list(_figures(pairs, figure)))


def all_figures(pairs: Pairs) -> Score:
    """Count all documented absolute figures, whatever they are."""
    results = [result for name in FIGURES for result in _figures(pairs, name)]
    return _share("any figure within a factor 3", results)


def _figures(pairs: Pairs, figure: str) -> Iterator[tuple[Case, bool]]:
    for case, word in pairs:
        wanted = getattr(case.documented, figure)
        if wanted is not None:
            found = getattr(word, figure)
            yield case, found is not None and _factor(found, wanted) <= FACTOR


def _factor(found: float, wanted: float) -> float:
    return math.inf if found <= 0 else max(found / wanted, wanted / found)


def _share(name: str, results: Sequence[tuple[Case, bool]]) -> Score:
    wrong = tuple(case.name for case, is_right in results if not is_right)
    value = 1 - len(wrong) / len(results) if results else None
    return Score(name, value, len(results), wrong=wrong)


def _studies(pairs: Pairs) -> dict[str, list[tuple[Case, Prediction]]]:
    studies = defaultdict(list)
    for case, word in pairs:
        if case.documented.study:
            studies[case.documented.study].append((case, word))
    return studies


def _compared(pairs: Pairs) -> Iterator[tuple[tuple[Case, Prediction], tuple[Case, Prediction]]]:
    for members in _studies(pairs).values():
        for one, other in itertools.combinations(members, 2):
            if one[0].documented.rank != other[0].documented.rank:
                yield one, other


def _order_mark(worse: float | None, milder: float | None) -> float:
    if worse is None or milder is None:
        return 0.0
    return 0.5 if math.isclose(worse, milder, rel_tol=1e-6) else float(worse > milder)


def _ranks(values: Sequence[float]) -> np.ndarray:
    array = np.asarray(values, dtype=float)
    return np.array([(array < value).sum() + ((array == value).sum() - 1) / 2 for value in array])
