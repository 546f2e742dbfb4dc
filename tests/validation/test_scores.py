"""The scoring itself, on cases made up so that the right score is plain."""

from __future__ import annotations

import math

import pytest

from service.judgement.severity import Severity
from tests.validation import scores
from tests.validation.cases import Case, Documented
from tests.validation.predictions import Prediction

NONE, SLIGHT, MODERATE, SEVERE = Severity


def case(**known: object) -> Case:
    silent: dict[str, object] = dict.fromkeys(Documented.__slots__)
    silent |= {"anode": "", "doubt_is_right": False, "study": "", "ratio_group": "", "rate_is": ""} | known
    return Case("made up", "read", {}, Documented(**silent))  # type: ignore[arg-type]


def word(**said: object) -> Prediction:
    silent: dict[str, object] = {
        "anode": "first", "is_in_doubt": False, "severity": SLIGHT, "is_suitable": False, "attack": 1.0
    }  # fmt: skip
    return Prediction(**(silent | said))  # type: ignore[arg-type]


def test_the_right_side_is_right_and_the_other_is_not() -> None:
    score = scores.right_anode([(case(anode="first"), word()), (case(anode="second"), word())])
    assert (score.value, score.n, score.wrong) == (0.5, 2, ("made up",))


def test_doubt_is_right_only_where_a_reversal_is_documented() -> None:
    doubting = word(is_in_doubt=True)
    assert scores.names_anode(case(anode="second", doubt_is_right=True), doubting)
    assert not scores.names_anode(case(anode="second"), doubting)


def test_where_nothing_is_eaten_no_anode_is_scored() -> None:
    assert scores.right_anode([(case(anode="first", severity=(NONE, NONE)), word(anode="none"))]).n == 0


@pytest.mark.parametrize(("said", "steps"), [(NONE, 1), (SLIGHT, 0), (MODERATE, 0), (SEVERE, 1)])
def test_steps_are_counted_from_the_documented_range(said: Severity, steps: int) -> None:
    assert scores.steps_off(case(severity=(SLIGHT, MODERATE)), word(severity=said)) == steps


def test_an_unknown_severity_is_no_hit() -> None:
    pairs = [(case(severity=(SLIGHT, SLIGHT)), word(severity=None))]
    assert scores.severity_within(pairs, 1, "within").value == 0


def test_severe_called_suitable_is_a_dangerous_miss() -> None:
    severe = case(severity=(MODERATE, SEVERE))
    score = scores.dangerous_misses([(severe, word(is_suitable=True)), (severe, word())])
    assert (score.value, score.n) == (0.5, 2)


def test_harm_to_the_function_counts_for_dangerous_misses() -> None:
    harmed = case(severity=(SLIGHT, SLIGHT), function_severity=SEVERE)
    assert scores.dangerous_misses([(harmed, word(is_suitable=True))]).value == 1


def test_order_counts_pairs_with_different_ranks_and_ties_for_half() -> None:
    ranks = [case(study="a", rank=1.0), case(study="a", rank=2.0), case(study="a", rank=2.0)]
    attacks = [2.0, 1.0, 2.0]
    score = scores.pairwise_order(
        [(one, word(attack=attack)) for one, attack in zip(ranks, attacks, strict=True)]
    )
    assert (score.value, score.n) == (0.75, 2)


def test_spearman_is_one_for_the_documented_order_and_minus_one_for_its_reverse() -> None:
    ranks = [case(study="a", rank=rank) for rank in (1.0, 2.0, 3.0)]
    forward = [(one, word(attack=attack)) for one, attack in zip(ranks, (9.0, 4.0, 1.0), strict=True)]
    back = [(one, word(attack=attack)) for one, attack in zip(ranks, (1.0, 4.0, 9.0), strict=True)]
    assert scores.spearman(forward).value == pytest.approx(1)
    assert scores.spearman(back).value == pytest.approx(-1)


def test_rank_correlation_with_a_tie() -> None:
    # Ranks 0, 1, 2 against 0.5, 0.5, 2: Pearson of the ranks by hand is 1.5 / sqrt(2 * 1.5).
    assert scores.rank_correlation([1, 2, 3], [5, 5, 7]) == pytest.approx(1.5 / math.sqrt(3))


@pytest.mark.parametrize(("found", "share"), [(3.0, 1), (0.34, 1), (3.1, 0), (0.33, 0), (0.0, 0), (None, 0)])
def test_a_factor_of_three_either_way(found: float | None, share: float) -> None:
    pairs = [(case(acceleration=1.0), word(acceleration=found))]
    assert scores.within_factor(pairs, "acceleration", "within").value == share


def test_ratios_are_between_members_of_a_group() -> None:
    small, large = case(ratio_group="g", ratio=0.1), case(ratio_group="g", ratio=1.0)
    assert scores.ratios([(small, word(attack=0.1)), (large, word(attack=1.2))]).value == 1
    assert scores.ratios([(small, word(attack=0.1)), (large, word(attack=2.0))]).value == 0
