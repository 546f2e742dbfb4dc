"""Conversions between what monitoring networks report and what ISO 9223 asks for."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike


def so2_deposition_mg_per_m2_d(so2_ug_per_m3: FloatLike) -> FloatArray:
    """Deposition of sulfur dioxide from its concentration in air: ``Pd = 0.8 Pc``.

    Parameters
    ----------
    so2_ug_per_m3 : float or ndarray
        Annual mean concentration [ug/m3].

    Returns
    -------
    deposition : ndarray
        Annual mean deposition [mg/(m2 d)].

    Examples
    --------
    >>> float(so2_deposition_mg_per_m2_d(10.0))
    8.0

    References
    ----------
    ISO 9223:2012, Table 3 and Annex B (read in a reproduction).
    """
    return 0.8 * np.asarray(so2_ug_per_m3, dtype=np.float64)


def wet_candle_chloride_mg_per_m2_d(dry_plate_mg_per_m2_d: FloatLike) -> FloatArray:
    """Chloride deposition on a wet candle from that on a dry plate: ``Sd = 2.4 Sd,plate``.

    Parameters
    ----------
    dry_plate_mg_per_m2_d : float or ndarray
        Deposition on a dry plate [mg/(m2 d)].

    Returns
    -------
    deposition : ndarray
        Deposition on a wet candle [mg/(m2 d)].

    Examples
    --------
    >>> float(wet_candle_chloride_mg_per_m2_d(10.0))
    24.0

    References
    ----------
    ISO 9225:2012 (from memory).
    """
    return 2.4 * np.asarray(dry_plate_mg_per_m2_d, dtype=np.float64)
