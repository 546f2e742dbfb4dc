"""Modified Bessel functions of order 0 and 1 for round joints, without scipy.

The polynomials of the handbook are good to 2e-7 and are evaluated on whole arrays. I comes scaled
by exp(-x) and K by exp(x), so that nothing overflows in the ratios that are wanted.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike

_Orders: TypeAlias = Callable[[FloatArray], tuple[FloatArray, FloatArray]]

_I0_SMALL = (1.0, 3.5156229, 3.0899424, 1.2067492, 0.2659732, 0.0360768, 0.0045813)
_I0_LARGE = (
    0.39894228,
    0.01328592,
    0.00225319,
    -0.00157565,
    0.00916281,
    -0.02057706,
    0.02635537,
    -0.01647633,
    0.00392377,
)
_I1_SMALL = (0.5, 0.87890594, 0.51498869, 0.15084934, 0.02658733, 0.00301532, 0.00032411)
_I1_LARGE = (
    0.39894228,
    -0.03988024,
    -0.00362018,
    0.00163801,
    -0.01031555,
    0.02282967,
    -0.02895312,
    0.01787654,
    -0.00420059,
)
_K0_SMALL = (-0.57721566, 0.42278420, 0.23069756, 0.03488590, 0.00262698, 0.00010750, 0.00000740)
_K0_LARGE = (1.25331414, -0.07832358, 0.02189568, -0.01062446, 0.00587872, -0.00251540, 0.00053208)
_K1_SMALL = (1.0, 0.15443144, -0.67278579, -0.18156897, -0.01919402, -0.00110404, -0.00004686)
_K1_LARGE = (1.25331414, 0.23498619, -0.03655620, 0.01504268, -0.00780353, 0.00325614, -0.00068245)
_I_SPLIT = 3.75
_K_SPLIT = 2.0
_SMALLEST = 1e-30


def scaled_first_kind(argument: FloatLike) -> tuple[FloatArray, FloatArray]:
    r"""Modified Bessel functions of the first kind, scaled.

    :math:`e^{-x} I_0(x), e^{-x} I_1(x)`

    Parameters
    ----------
    argument : float or ndarray
        Positive argument [-].

    Returns
    -------
    tuple of ndarray
        Order 0 and order 1 [-].

    Examples
    --------
    >>> [float(function.round(5)) for function in scaled_first_kind(1.0)]
    [0.46576, 0.20791]

    References
    ----------
    M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, equations 9.8.1 to 9.8.4
    (coefficients from memory, checked against scipy.special).
    """
    x = np.asarray(argument, dtype=np.float64)
    return _by_size(x, _I_SPLIT, _first_kind_near, _first_kind_far)


def scaled_second_kind(argument: FloatLike) -> tuple[FloatArray, FloatArray]:
    r"""Modified Bessel functions of the second kind, scaled.

    :math:`e^{x} K_0(x), e^{x} K_1(x)`

    Parameters
    ----------
    argument : float or ndarray
        Positive argument [-].

    Returns
    -------
    tuple of ndarray
        Order 0 and order 1 [-].

    Examples
    --------
    >>> [float(function.round(5)) for function in scaled_second_kind(1.0)]
    [1.14446, 1.63615]

    References
    ----------
    M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, equations 9.8.5 to 9.8.8
    (coefficients from memory, checked against scipy.special).
    """
    x = np.maximum(np.asarray(argument, dtype=np.float64), _SMALLEST)
    return _by_size(x, _K_SPLIT, _second_kind_near, _second_kind_far)


def disk_ratio(argument: FloatLike) -> FloatArray:
    r"""Flux through the rim of a disk over that of a straight edge.

    :math:`I_1(x)/I_0(x)` with the radius in decay lengths x.

    Parameters
    ----------
    argument : float or ndarray
        Radius over decay length [-].

    Returns
    -------
    ndarray
        Ratio [-]: x/2 for a small disk, 1 for a large one.

    Examples
    --------
    >>> disk_ratio(np.array([0.02, 200.0])).round(4).tolist()
    [0.01, 0.9975]
    """
    order_0, order_1 = scaled_first_kind(argument)
    return order_1 / order_0


def plate_ratio(argument: FloatLike) -> FloatArray:
    r"""Flux into an endless plate around a hole over that of a straight edge.

    :math:`K_1(x)/K_0(x)` with the radius in decay lengths x.

    Parameters
    ----------
    argument : float or ndarray
        Radius of the hole over decay length [-].

    Returns
    -------
    ndarray
        Ratio [-], above 1.

    Examples
    --------
    >>> plate_ratio(np.array([0.1, 100.0])).round(3).tolist()
    [4.06, 1.005]
    """
    order_0, order_1 = scaled_second_kind(argument)
    return order_1 / order_0


def annulus_ratio(argument: FloatLike, outer: FloatLike) -> FloatArray:
    r"""Flux into a plate with an insulated rim, around a hole, over that of a straight edge.

    :math:`\frac{I_1(y) K_1(x) - K_1(y) I_1(x)}{I_1(y) K_0(x) + K_1(y) I_0(x)}`

    Parameters
    ----------
    argument : float or ndarray
        Radius x of the hole over decay length [-].
    outer : float or ndarray
        Radius y of the rim over decay length [-]; infinite where there is none.

    Returns
    -------
    ndarray
        Ratio [-].

    Examples
    --------
    >>> annulus_ratio(1.0, np.array([1.01, np.inf])).round(3).tolist()
    [0.01, 1.43]
    """
    order_0, order_1 = scaled_second_kind(argument)
    inner_0, inner_1 = scaled_first_kind(argument)
    rim = np.where(np.isfinite(outer), outer, 1.0)
    fading = np.exp(-2.0 * (np.asarray(outer, dtype=np.float64) - argument))
    mirrored = fading * scaled_second_kind(rim)[1] / scaled_first_kind(rim)[1]
    return np.asarray((order_1 - mirrored * inner_1) / (order_0 + mirrored * inner_0), dtype=np.float64)


def _by_size(x: FloatArray, split: float, near: _Orders, far: _Orders) -> tuple[FloatArray, FloatArray]:
    """Evaluate below and above a split each where it holds: the polynomials are most of the work."""
    is_near = x < split
    count = np.count_nonzero(is_near)
    if count == x.size:
        return near(x)
    if count == 0:
        return far(x)
    order_0, order_1 = np.empty_like(x), np.empty_like(x)
    for members, orders in ((is_near, near), (~is_near, far)):
        places = np.flatnonzero(members)
        for order, values in zip((order_0, order_1), orders(x.ravel()[places]), strict=True):
            order.ravel()[places] = values
    return order_0, order_1


def _first_kind_near(x: FloatArray) -> tuple[FloatArray, FloatArray]:
    square, fading = (x / _I_SPLIT) ** 2, np.exp(-x)
    return fading * _polynomial(square, _I0_SMALL), x * fading * _polynomial(square, _I1_SMALL)


def _first_kind_far(x: FloatArray) -> tuple[FloatArray, FloatArray]:
    inverse, root = _I_SPLIT / x, np.sqrt(x)
    return _polynomial(inverse, _I0_LARGE) / root, _polynomial(inverse, _I1_LARGE) / root


def _second_kind_near(x: FloatArray) -> tuple[FloatArray, FloatArray]:
    square, growing, logarithm = (x / _K_SPLIT) ** 2, np.exp(x), np.log(x / _K_SPLIT)
    first = (x / _I_SPLIT) ** 2
    order_0 = growing * (_polynomial(square, _K0_SMALL) - logarithm * _polynomial(first, _I0_SMALL))
    order_1 = _polynomial(square, _K1_SMALL) / x + logarithm * x * _polynomial(first, _I1_SMALL)
    return order_0, growing * order_1


def _second_kind_far(x: FloatArray) -> tuple[FloatArray, FloatArray]:
    inverse, root = _K_SPLIT / x, np.sqrt(x)
    return _polynomial(inverse, _K0_LARGE) / root, _polynomial(inverse, _K1_LARGE) / root


def _polynomial(x: FloatArray, coefficients: tuple[float, ...]) -> FloatArray:
    """Polynomial with the lowest power first."""
    total = np.full_like(x, coefficients[-1])
    for coefficient in coefficients[-2::-1]:
        total *= x
        total += coefficient
    return total
