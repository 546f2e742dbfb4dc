"""Pareto first, then a weighted score: the best compromises on top, and the weighting stated."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from service.remedies.constraints import Objective, Weights


def scores(vectors: NDArray[np.float64], weights: Weights) -> NDArray[np.float64]:
    """Weighted score of each option; 0 is the best that can be.

    Parameters
    ----------
    vectors : ndarray, shape (options, objectives)
        Objectives, each brought to 0..1, smaller is better [-].
    weights : Weights
        Share of each objective [-].

    Returns
    -------
    ndarray, shape (options,)
        ``sum(w_k x_k)``, rounded to six decimals so that every processor orders alike [-].
    """
    shares = weights.normalised()
    weighted = vectors @ np.array([shares[objective] for objective in Objective])
    return np.asarray(np.round(weighted, 6))


def pareto_front(vectors: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether no other option is as good in every objective and better in one.

    Parameters
    ----------
    vectors : ndarray, shape (options, objectives)
        Smaller is better [-].

    Returns
    -------
    ndarray of bool, shape (options,)
        Twins with equal objectives stand or fall together [-].

    Notes
    -----
    Options are visited in the order of their sum, so that whatever dominates one is met before it.
    """
    is_on_front = np.zeros(len(vectors), dtype=np.bool_)
    front = np.empty((0, vectors.shape[1]))
    for place in np.argsort(vectors.sum(axis=1), kind="stable"):
        vector = vectors[place]
        dominates = (front <= vector).all(axis=1) & (front < vector).any(axis=1)
        if not dominates.any():
            is_on_front[place] = True
            front = np.vstack([front, vector])
    return is_on_front


def order(
    is_on_front: NDArray[np.bool_], score: NDArray[np.float64], names: Sequence[str]
) -> NDArray[np.intp]:
    """Places of options from the best on: the front first, then by score, then by name.

    Parameters
    ----------
    is_on_front : ndarray of bool, shape (options,)
        As :func:`pareto_front` gives it [-].
    score : ndarray, shape (options,)
        As :func:`scores` gives it [-].
    names : sequence of str
        Settles ties, so that the order never depends on the batch.

    Returns
    -------
    ndarray of int, shape (options,)
        [-].
    """
    keys = sorted(range(len(names)), key=lambda place: (not is_on_front[place], score[place], names[place]))
    return np.array(keys, dtype=np.intp)
