"""Array types of the chemistry room, and how lanes are cut into blocks.

A *lane* is one problem of many that are solved side by side: one sample of one state of one
couple. Solvers work on blocks of lanes, so that their memory does not grow with the batch and
the working set stays in the processor's cache.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray: TypeAlias = NDArray[np.float64]
BoolArray: TypeAlias = NDArray[np.bool_]
IntArray: TypeAlias = NDArray[np.int64]
FloatLike: TypeAlias = float | FloatArray
BoolLike: TypeAlias = bool | BoolArray

BLOCK_LANES = 8192


def blocks(count: int, size: int = BLOCK_LANES) -> Iterator[slice]:
    """Cut ``count`` lanes into slices of at most ``size``.

    Parameters
    ----------
    count : int
        Number of lanes [-].
    size : int
        Lanes in a block [-].

    Yields
    ------
    slice
        The next block [-].

    Examples
    --------
    >>> [(block.start, block.stop) for block in blocks(5, 2)]
    [(0, 2), (2, 4), (4, 5)]
    """
    for start in range(0, count, size):
        yield slice(start, min(start + size, count))


def behind_first(values: ArrayLike, dimensions: int) -> NDArray[Any]:
    """Give ``values`` ``dimensions`` axes by inserting axes of length one behind the first.

    Parameters
    ----------
    values : array_like
        A figure, or figures with the electrodes on axis 0 and lanes behind it [any].
    dimensions : int
        Wanted number of axes [-].

    Returns
    -------
    ndarray
        The same figures, so that the lanes broadcast from the right [as given].

    Examples
    --------
    >>> behind_first(np.ones(2), 3).shape, behind_first(np.ones((2, 5)), 3).shape
    ((2, 1, 1), (2, 1, 5))
    """
    array = np.asarray(values)
    first = array.shape[:1] or (1,)
    return array.reshape(first + (1,) * (dimensions - max(array.ndim, 1)) + array.shape[1:])


def lanes_behind_first(*values: ArrayLike) -> tuple[int, ...]:
    """Common shape of the lanes of figures that have the electrodes on axis 0.

    Parameters
    ----------
    *values : array_like
        Figures, or figures with the electrodes on axis 0 and lanes behind it [any].

    Returns
    -------
    tuple of int
        The lanes [-].

    Examples
    --------
    >>> lanes_behind_first(1.0, np.ones(2), np.ones((2, 7)))
    (7,)
    """
    return np.broadcast_shapes(*(np.shape(value)[1:] for value in values))


def flat_rows(values: ArrayLike, rows: int, lanes: tuple[int, ...]) -> NDArray[Any]:
    """Bring ``values`` to ``(rows, lanes)`` or ``(rows, 1)``, copying only where it must.

    Parameters
    ----------
    values : array_like
        A figure, or figures with the electrodes on axis 0 and lanes behind it [any].
    rows : int
        Number of electrodes [-].
    lanes : tuple of int
        Shape of the lanes [-].

    Returns
    -------
    ndarray, shape (rows, prod(lanes)) or (rows, 1)
        The same figures, the lanes in one axis [as given].

    Examples
    --------
    >>> flat_rows(3.0, 2, (2, 2)).shape, flat_rows(np.ones((2, 2, 2)), 2, (2, 2)).shape
    ((2, 1), (2, 4))
    """
    array = behind_first(values, 1 + len(lanes))
    if all(length == 1 for length in array.shape[1:]):
        return np.broadcast_to(array.reshape(array.shape[0], 1), (rows, 1))
    return np.broadcast_to(array, (rows, *lanes)).reshape(rows, -1)


def take(rows: NDArray[Any], block: slice) -> NDArray[Any]:
    """One block of what ``flat_rows`` made.

    Parameters
    ----------
    rows : ndarray, shape (rows, lanes) or (rows, 1)
        Figures with the lanes in one axis [any].
    block : slice
        The lanes wanted [-].

    Returns
    -------
    ndarray, shape (rows, block) or (rows, 1)
        A view of those lanes [as given].

    Examples
    --------
    >>> take(np.arange(6.0).reshape(2, 3), slice(1, 3)).tolist()
    [[1.0, 2.0], [4.0, 5.0]]
    """
    return rows if rows.shape[1] == 1 else rows[:, block]


def blended(mask: BoolArray, chosen: FloatArray, otherwise: FloatArray) -> FloatArray:
    """``np.where`` by the bits, which takes a quarter of its time where the mask is irregular.

    Parameters
    ----------
    mask : ndarray of bool, shape (lanes,)
        Where ``chosen`` is wanted [-].
    chosen, otherwise : ndarray, shape (lanes,)
        Figures [any].

    Returns
    -------
    ndarray, shape (lanes,)
        The figures wanted [as given].

    Examples
    --------
    >>> blended(np.array([True, False]), np.array([1.0, 2.0]), np.array([3.0, np.nan])).tolist()
    [1.0, nan]
    """
    bits, other = chosen.view(np.int64), otherwise.view(np.int64)
    return ((bits ^ other) & np.negative(mask.view(np.int8)).astype(np.int64) ^ other).view(np.float64)


def kept(values: Any, keep: IntArray) -> Any:
    """Some of the lanes of an array; what all lanes share stays as it is.

    Parameters
    ----------
    values : ndarray, shape (..., lanes) or (..., 1), or a plain value
        Figures with the lanes in the last axis [any].
    keep : ndarray of int
        Numbers of the lanes wanted [-].

    Returns
    -------
    ndarray, shape (..., len(keep)) or (..., 1), or the plain value
        Those lanes [as given].

    Examples
    --------
    >>> kept(np.arange(6.0).reshape(2, 3), np.array([0, 2])).tolist(), kept(True, np.array([0]))
    ([[0.0, 2.0], [3.0, 5.0]], True)
    """
    return values if np.ndim(values) == 0 or values.shape[-1] == 1 else values.take(keep, axis=-1)
