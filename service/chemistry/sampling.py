"""The fixed sample on which every uncertainty is computed.

There is no random generator: the same question gives the same answer on every machine. Each
column takes the midpoints of ``n`` equally likely slices of the normal distribution in an order
that comes from an additive recurrence, and the columns are freed of their chance correlation.
Physics that two figures share is put in afterwards, with ``correlate``.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.requirements import require

_PRIMES = (2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89)
_DECORRELATION_ROUNDS = 4
_BOUND_SCORE = NormalDist().inv_cdf(0.95)


@lru_cache(maxsize=32)
def standard_normal_sample(n: int, dimensions: int) -> FloatArray:
    r"""Deterministic quasi-random sample of independent standard normal figures.

    Column :math:`j` ranks the additive recurrence :math:`\{k\sqrt{p_j}\}` (:math:`p_j` the j-th
    prime), takes the normal scores :math:`\Phi^{-1}((r+\tfrac12)/n)` of the ranks, removes the
    sample correlation by its Cholesky factor and ranks again.

    Parameters
    ----------
    n : int
        Size of the sample [-], more than ``dimensions``.
    dimensions : int
        Number of independent figures [-], 1 to 24.

    Returns
    -------
    ndarray, shape (n, dimensions)
        Standard normal scores [-]; each column is symmetric about zero. Read-only and shared.

    Raises
    ------
    OutOfRangeError
        If the two counts do not fit each other.

    Notes
    -----
    With 64 points the 5 % and 95 % quantiles rest on three points each. Correlations that are
    left between columns stay below 0.06 for 64 points in up to 16 dimensions.

    Examples
    --------
    >>> sample = standard_normal_sample(64, 8)
    >>> sample.shape, bool(abs(sample.mean()) < 1e-12)
    ((64, 8), True)

    References
    ----------
    R. L. Iman, W. J. Conover, Communications in Statistics B 11 (1982) 311, doi
    10.1080/03610918208812265 (rank correlation of input samples; from memory).
    """
    require(1 <= dimensions <= len(_PRIMES), "dimensions", f"1 to {len(_PRIMES)}")
    require(n > dimensions, "n", "more than dimensions")
    normal = NormalDist()
    scores: FloatArray = np.array([normal.inv_cdf((rank + 0.5) / n) for rank in range(n)])
    scores = (scores - scores[::-1]) / 2.0
    steps = np.array([math.sqrt(prime) for prime in _PRIMES[:dimensions]])
    sample: FloatArray = scores[_ranks(np.outer(np.arange(1.0, n + 1.0), steps) % 1.0)]
    for _ in range(_DECORRELATION_ROUNDS):
        factor = np.linalg.cholesky(sample.T @ sample / float(scores @ scores))
        sample = scores[_ranks(np.linalg.solve(factor, sample.T).T)]
    sample.flags.writeable = False
    return sample


def _ranks(columns: FloatArray) -> np.ndarray[tuple[int, int], np.dtype[np.int64]]:
    """Rank of every entry within its column."""
    return columns.argsort(axis=0, kind="stable").argsort(axis=0, kind="stable")


def correlate(first: FloatLike, second: FloatLike, correlation: FloatLike) -> FloatArray:
    r"""Scores that share a part of their chance with others.

    :math:`z = \rho z_1 + \sqrt{1-\rho^2}\,z_2`

    Parameters
    ----------
    first : float or ndarray
        Standard normal scores of the shared part [-].
    second : float or ndarray
        Independent standard normal scores of the own part [-].
    correlation : float or ndarray
        Wanted correlation with ``first`` [-], -1 to 1.

    Returns
    -------
    ndarray
        Standard normal scores [-].

    Raises
    ------
    OutOfRangeError
        If a correlation is not between -1 and 1.

    Examples
    --------
    >>> float(correlate(1.0, -2.0, 1.0))
    1.0
    """
    rho = np.asarray(correlation, dtype=np.float64)
    require(np.abs(rho) <= 1.0, "correlation", "between -1 and 1")
    return np.asarray(rho * first + np.sqrt(1.0 - rho * rho) * second, dtype=np.float64)


def spread(scores: FloatLike, central: FloatLike, low: FloatLike, high: FloatLike) -> FloatArray:
    r"""Figures of a two-sided normal distribution whose bounds are the 5 % and 95 % quantiles.

    :math:`x = c + z (h - c)/1.645` above the centre and :math:`c + z (c - l)/1.645` below it.

    Parameters
    ----------
    scores : float or ndarray
        Standard normal scores [-].
    central : float or ndarray
        Median [any].
    low : float or ndarray
        5 % quantile [unit of central], not above it.
    high : float or ndarray
        95 % quantile [unit of central], not below it.

    Returns
    -------
    ndarray
        One figure for each score [unit of central].

    Examples
    --------
    >>> spread(np.array([-1.6448536, 0.0, 1.6448536]), 10.0, 8.0, 16.0).round(5).tolist()
    [8.0, 10.0, 16.0]
    """
    z = np.asarray(scores, dtype=np.float64) / _BOUND_SCORE
    upward = np.maximum(z, 0.0) * (np.asarray(high) - central)
    return np.asarray(central + upward + np.minimum(z, 0.0) * (np.asarray(central) - low), dtype=np.float64)


def spread_logarithmic(scores: FloatLike, central: FloatLike, low: FloatLike, high: FloatLike) -> FloatArray:
    r"""As ``spread``, on the logarithm, for figures that are positive and known to a factor.

    Parameters
    ----------
    scores : float or ndarray
        Standard normal scores [-].
    central : float or ndarray
        Median [any], positive.
    low : float or ndarray
        5 % quantile [unit of central], positive.
    high : float or ndarray
        95 % quantile [unit of central], positive.

    Returns
    -------
    ndarray
        One positive figure for each score [unit of central].

    Examples
    --------
    >>> spread_logarithmic(np.array([-1.6448536, 0.0, 1.6448536]), 1.0, 0.1, 10.0).round(5).tolist()
    [0.1, 1.0, 10.0]
    """
    return np.exp(spread(scores, np.log(central), np.log(low), np.log(high)))


def quantiles(
    values: FloatArray, probabilities: Sequence[float] = (0.05, 0.5, 0.95), axis: int = -1
) -> FloatArray:
    r"""Quantiles of a sample, linear between the order statistics.

    Parameters
    ----------
    values : ndarray
        The sample along ``axis`` [any].
    probabilities : sequence of float
        Wanted probabilities [-], 0 to 1.
    axis : int
        Axis of the sample [-].

    Returns
    -------
    ndarray, shape (len(probabilities), ...)
        One figure for each probability [unit of values]; not-a-number where the sample holds one,
        because a sample in which some points have no answer has no quantiles.

    Raises
    ------
    OutOfRangeError
        If a probability is not between 0 and 1.

    Notes
    -----
    The k-th of n ordered points (from 0) stands at the probability k/(n-1).

    Examples
    --------
    >>> quantiles(np.array([3.0, 1.0, 2.0]), (0.0, 0.5, 0.75)).tolist()
    [1.0, 2.0, 2.5]
    """
    wanted = np.asarray(probabilities, dtype=np.float64)
    require((wanted >= 0.0) & (wanted <= 1.0), "probabilities", "between 0 and 1")
    ordered = np.moveaxis(np.sort(values, axis=axis), axis, 0)
    place = wanted * (ordered.shape[0] - 1)
    below = np.floor(place).astype(np.int64)
    above = np.minimum(below + 1, ordered.shape[0] - 1)
    weight = (place - below).reshape(-1, *([1] * (ordered.ndim - 1)))
    with np.errstate(invalid="ignore"):
        between = ordered[below] * (1.0 - weight) + ordered[above] * weight
    result = np.where(weight == 0.0, ordered[below], between)
    return np.where(np.isnan(ordered[-1]), np.nan, result)
