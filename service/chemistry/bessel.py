"""Modified Bessel functions of order 0 and 1 for round joints, without scipy.

The polynomials of the handbook are good to 2e-7 and are evaluated on whole arrays. I comes scaled
by exp(-x) and K by exp(x), so that nothing overflows in the ratios that are wanted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike

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


@dataclass(frozen=True, slots=True)
class ScaledBessel:
    """``i0``, ``i1`` times exp(-x) and ``k0``, ``k1`` times exp(x), all [-]."""

    i0: FloatArray
    i1: FloatArray
    k0: FloatArray
    k1: FloatArray


def scaled_bessel(argument: FloatLike) -> ScaledBessel:
    r"""Modified Bessel functions, scaled by their exponentials.

    :math:`e^{-x} I_0, e^{-x} I_1, e^{x} K_0, e^{x} K_1`

    Parameters
    ----------
    argument : float or ndarray
        Positive argument [-].

    Returns
    -------
    ScaledBessel
        The four functions [-].

    Examples
    --------
    >>> float(scaled_bessel(1.0).i0.round(5))
    0.46576

    References
    ----------
    M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, equations 9.8.1 to 9.8.8
    (coefficients from memory, checked against scipy.special).
    """
    x = np.maximum(np.asarray(argument, dtype=np.float64), _SMALLEST)
    root = np.sqrt(x)
    low = np.minimum(x, _I_SPLIT)
    square, inverse = (low / _I_SPLIT) ** 2, _I_SPLIT / np.maximum(x, _I_SPLIT)
    i0_small = np.exp(-low) * _polynomial(square, _I0_SMALL)
    i1_small = np.exp(-low) * low * _polynomial(square, _I1_SMALL)
    i0 = np.where(x < _I_SPLIT, i0_small, _polynomial(inverse, _I0_LARGE) / root)
    i1 = np.where(x < _I_SPLIT, i1_small, _polynomial(inverse, _I1_LARGE) / root)
    near = np.minimum(x, _K_SPLIT)
    half_square, inverse = (near / _K_SPLIT) ** 2, _K_SPLIT / np.maximum(x, _K_SPLIT)
    grown, logarithm = np.exp(near), np.log(near / 2.0)
    k0_small = grown * (_polynomial(half_square, _K0_SMALL) - logarithm * i0 * grown)
    k1_small = grown * (_polynomial(half_square, _K1_SMALL) / near + logarithm * i1 * grown)
    k0 = np.where(x < _K_SPLIT, k0_small, _polynomial(inverse, _K0_LARGE) / root)
    k1 = np.where(x < _K_SPLIT, k1_small, _polynomial(inverse, _K1_LARGE) / root)
    return ScaledBessel(i0, i1, k0, k1)


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
    bessel = scaled_bessel(argument)
    return bessel.i1 / bessel.i0


def plate_ratio(argument: FloatLike, outer: FloatLike = np.inf) -> FloatArray:
    r"""Flux into a plate around a hole over that of a straight edge.

    :math:`K_1(x)/K_0(x)`; with an insulated rim at y:
    :math:`\frac{I_1(y) K_1(x) - K_1(y) I_1(x)}{I_1(y) K_0(x) + K_1(y) I_0(x)}`.

    Parameters
    ----------
    argument : float or ndarray
        Radius of the hole over decay length [-].
    outer : float or ndarray
        Radius of the rim over decay length [-]; infinite for a plate without end.

    Returns
    -------
    ndarray
        Ratio [-].

    Examples
    --------
    >>> plate_ratio(np.array([0.1, 100.0])).round(3).tolist()
    [4.06, 1.005]
    """
    hole = scaled_bessel(argument)
    rim = scaled_bessel(np.where(np.isfinite(outer), outer, 1.0))
    with np.errstate(invalid="ignore"):
        fading = np.exp(-2.0 * (np.asarray(outer, dtype=np.float64) - argument))
    mirrored = fading * rim.k1 / rim.i1
    return np.asarray((hole.k1 - mirrored * hole.i1) / (hole.k0 + mirrored * hole.i0), dtype=np.float64)


def _polynomial(x: FloatArray, coefficients: tuple[float, ...]) -> FloatArray:
    """Polynomial with the lowest power first."""
    total = np.full_like(x, coefficients[-1])
    for coefficient in coefficients[-2::-1]:
        total = total * x + coefficient
    return total
