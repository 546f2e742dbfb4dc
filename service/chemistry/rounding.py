"""Rounding to three significant figures, before thresholds and before output.

Two processors with different exponential functions disagree in the last bits. After rounding
they give the same bytes, and no answer shows more digits than are known.
"""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike

_POWERS_OF_TEN = np.array([float(f"1e{exponent}") for exponent in range(301)])
"""Read as decimals, because a vectorised power function need not be exact."""


def three_significant(values: FloatLike) -> FloatArray:
    r"""Round to three significant figures.

    With :math:`m = \lfloor \log_{10}|x| \rfloor` the result is
    :math:`10^{m-2}\,\mathrm{rint}(x\,10^{2-m})`.

    Parameters
    ----------
    values : float or ndarray
        Any figures [any]; zero, infinite and not-a-number pass unchanged.

    Returns
    -------
    ndarray
        The rounded figures, same shape [as given].

    Notes
    -----
    From 1e-20 to 1e24 the powers are exact doubles, so the result is the double nearest to the
    decimal and prints with three digits. Outside the last bit may differ; below 1e-298 digits
    are lost.

    Examples
    --------
    >>> three_significant(np.array([0.012345, -98765.0, 0.0])).tolist()
    [0.0123, -98800.0, 0.0]
    """
    array = np.asarray(values, dtype=np.float64)
    ordinary = np.isfinite(array) & (array != 0.0)
    magnitude = np.floor(np.log10(np.abs(array), where=ordinary, out=np.full_like(array, 2.0)))
    places = np.clip(2.0 - magnitude, -300.0, 300.0).astype(np.int64)
    up = _POWERS_OF_TEN[np.maximum(places, 0)]
    down = _POWERS_OF_TEN[np.maximum(-places, 0)]
    return np.where(ordinary, np.rint(array * up / down) / up * down, array)
