from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from service.remedies.constraints import Objective, Weights
from service.remedies.ranking import order, pareto_front, scores

SIZE = len(Objective)


def test_a_score_is_the_weighted_sum() -> None:
    vectors = np.zeros((2, SIZE))
    vectors[1, list(Objective).index(Objective.COST)] = 0.5
    given = Weights(((Objective.COST, 1.0), (Objective.LIFE, 3.0)))
    assert scores(vectors, given).tolist() == [0.0, 0.125]


def test_what_another_beats_everywhere_is_not_on_the_front() -> None:
    front = pareto_front(np.array([[0.2, 0.2], [0.1, 0.3], [0.3, 0.3], [0.2, 0.2]]))
    assert front.tolist() == [True, True, False, True]


def test_an_empty_search_has_no_front() -> None:
    assert pareto_front(np.empty((0, SIZE))).tolist() == []


@given(st.lists(st.tuples(*[st.sampled_from([0.0, 0.25, 0.5, 1.0])] * 3), min_size=1, max_size=30))
def test_the_front_is_what_nothing_dominates(rows: list[tuple[float, float, float]]) -> None:
    vectors = np.array(rows)
    expected = [not any((other <= row).all() and (other < row).any() for other in vectors) for row in vectors]
    assert pareto_front(vectors).tolist() == expected


def test_the_front_comes_first_then_the_score_then_the_name() -> None:
    places = order(np.array([False, True, True, True]), np.array([0.1, 0.5, 0.3, 0.5]), ["d", "b", "c", "a"])
    assert places.tolist() == [2, 3, 1, 0]
