"""Pits behind the openings of a coat."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike


def pit_depth(loss: FloatLike, radius: FloatLike) -> FloatArray:
    r"""Depth that a pit behind an opening can reach with the current that passes its mouth.

    :math:`d = \left(\tfrac{3}{2} a^2 L\right)^{1/3}`

    Parameters
    ----------
    loss : float or ndarray
        Loss L that the current at the mouth would do if it went straight down [m].
    radius : float or ndarray
        Radius a of the mouth, not a number where there is no opening [m].

    Returns
    -------
    ndarray
        Depth [m]; not a number where there is no opening.

    Notes
    -----
    A pit deeper than its mouth eats sideways beneath the coat as well. The volume that left through the
    mouth, :math:`\pi a^2 L`, is taken as a half sphere, so under a steady current the pit deepens with the
    cube root of time, as pits in aluminium were found to (Godard's law, from memory).

    Examples
    --------
    >>> pit_depth(np.array([2e-2, 2e-2]), np.array([1e-4, np.nan])).round(6).tolist()
    [0.000669, nan]
    """
    return np.asarray(np.cbrt(1.5 * np.square(radius) * loss))
