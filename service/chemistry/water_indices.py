"""Indices of fresh water: how it treats lime scale, and how far chloride and sulfate outweigh bicarbonate.

None of them says anything of couples, oxygen or speed. They feed rules (soft water, plumbing), not rates.
"""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.requirements import require

CHLORIDE_MG_PER_MEQ = 35.45
SULFATE_MG_PER_MEQ = 48.03
CALCIUM_CARBONATE_MG_PER_MEQ = 50.04

LARSON_SKOLD_BANDS = (
    (0.8, "natural film formation is unlikely to be disturbed"),
    (1.2, "higher than wanted rates are possible"),
    (np.inf, "fast local attack is to be expected"),
)
"""Upper limit and meaning, for mild steel in water like that of the Great Lakes (Roberge, Corrosion
Inspection and Monitoring, Wiley 2007, appendix B, read on a page of its author)."""


def _positive(value: FloatLike, quantity: str) -> FloatArray:
    array = np.asarray(value, dtype=np.float64)
    require(array > 0.0, quantity, "positive")
    return array


def saturation_pH(
    temperature_C: FloatLike,
    dissolved_solids_mg_per_L: FloatLike,
    calcium_hardness_mg_per_L: FloatLike,
    alkalinity_mg_per_L: FloatLike,
) -> FloatArray:
    r"""PH at which a water is in equilibrium with calcite.

    .. math:: pH_s = 9.3 + \tfrac{1}{10}(\lg S - 1) - 13.12 \lg(t + 273) + 34.55 - \lg C + 0.4 - \lg A

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature, 0 to 90 [degC].
    dissolved_solids_mg_per_L : float or ndarray
        Total dissolved solids, positive [mg/L].
    calcium_hardness_mg_per_L : float or ndarray
        Calcium hardness as calcium carbonate, positive [mg/L].
    alkalinity_mg_per_L : float or ndarray
        Alkalinity as calcium carbonate, positive [mg/L].

    Returns
    -------
    ndarray
        pH of saturation [-].

    Raises
    ------
    OutOfRangeError
        For a concentration that is not positive.

    Notes
    -----
    A fit good to about 0.1; below 10 000 mg/L of dissolved solids.

    Examples
    --------
    >>> round(float(saturation_pH(12.0, 450.0, 220.0, 230.0)), 2)
    7.5

    References
    ----------
    W. F. Langelier, J. AWWA 28 (1936) 1500, in the simplified form of open engineering texts (read).
    """
    solids = np.log10(_positive(dissolved_solids_mg_per_L, "dissolved_solids_mg_per_L"))
    calcium = np.log10(_positive(calcium_hardness_mg_per_L, "calcium_hardness_mg_per_L"))
    alkalinity = np.log10(_positive(alkalinity_mg_per_L, "alkalinity_mg_per_L"))
    temperature = np.log10(np.asarray(temperature_C, dtype=np.float64) + 273.0)
    return np.asarray(9.3 + (solids - 1.0) / 10.0 - 13.12 * temperature + 34.55 - calcium + 0.4 - alkalinity)


def langelier_index(pH: FloatLike, pH_of_saturation: FloatLike) -> FloatArray:
    """Langelier saturation index: ``pH - pHs``.

    Parameters
    ----------
    pH : float or ndarray
        pH of the water [-].
    pH_of_saturation : float or ndarray
        From :func:`saturation_pH` [-].

    Returns
    -------
    ndarray
        Below zero the water dissolves lime, above it may deposit some [-].

    Examples
    --------
    >>> float(langelier_index(7.5, 8.0))
    -0.5

    References
    ----------
    W. F. Langelier, J. AWWA 28 (1936) 1500.
    """
    return np.asarray(np.asarray(pH, dtype=np.float64) - pH_of_saturation)


def ryznar_index(pH: FloatLike, pH_of_saturation: FloatLike) -> FloatArray:
    """Ryznar stability index: ``2 pHs - pH``.

    Parameters
    ----------
    pH : float or ndarray
        pH of the water [-].
    pH_of_saturation : float or ndarray
        From :func:`saturation_pH` [-].

    Returns
    -------
    ndarray
        Near 6 to 7 balanced, above 7.5 increasingly aggressive, below 6 scaling [-].

    Examples
    --------
    >>> float(ryznar_index(7.5, 8.0))
    8.5

    References
    ----------
    J. W. Ryznar, J. AWWA 36 (1944) 472 (from memory).
    """
    return np.asarray(2.0 * np.asarray(pH_of_saturation, dtype=np.float64) - pH)


def larson_skold_ratio(
    chloride_mg_per_L: FloatLike, sulfate_mg_per_L: FloatLike, alkalinity_mg_per_L: FloatLike
) -> FloatArray:
    """Equivalents of chloride and sulfate over those of bicarbonate.

    Parameters
    ----------
    chloride_mg_per_L : float or ndarray
        Chloride, zero or more [mg/L].
    sulfate_mg_per_L : float or ndarray
        Sulfate, zero or more [mg/L].
    alkalinity_mg_per_L : float or ndarray
        Alkalinity as calcium carbonate, positive [mg/L].

    Returns
    -------
    ndarray
        Ratio; see :data:`LARSON_SKOLD_BANDS` [-].

    Raises
    ------
    OutOfRangeError
        For a negative concentration or an alkalinity that is not positive.

    Notes
    -----
    Made for mild steel; used as a hint elsewhere.

    Examples
    --------
    >>> round(float(larson_skold_ratio(35.0, 45.0, 230.0)), 2)
    0.42

    References
    ----------
    T. E. Larson and R. V. Skold, Corrosion 14 (1958) 285t (formula read in a reproduction).
    """
    chloride = np.asarray(chloride_mg_per_L, dtype=np.float64)
    sulfate = np.asarray(sulfate_mg_per_L, dtype=np.float64)
    require(chloride >= 0.0, "chloride_mg_per_L", "0 or more")
    require(sulfate >= 0.0, "sulfate_mg_per_L", "0 or more")
    strong = chloride / CHLORIDE_MG_PER_MEQ + sulfate / SULFATE_MG_PER_MEQ
    return np.asarray(
        strong * CALCIUM_CARBONATE_MG_PER_MEQ / _positive(alkalinity_mg_per_L, "alkalinity_mg_per_L")
    )


def chloride_to_sulfate_ratio(chloride_mg_per_L: FloatLike, sulfate_mg_per_L: FloatLike) -> FloatArray:
    """Mass of chloride over mass of sulfate.

    Parameters
    ----------
    chloride_mg_per_L : float or ndarray
        Chloride, zero or more [mg/L].
    sulfate_mg_per_L : float or ndarray
        Sulfate, positive [mg/L].

    Returns
    -------
    ndarray
        Above some 0.5, lead or lead solder joined to copper is more likely to be eaten [-].

    Raises
    ------
    OutOfRangeError
        For a negative chloride or a sulfate that is not positive.

    Examples
    --------
    >>> round(float(chloride_to_sulfate_ratio(35.0, 45.0)), 2)
    0.78

    References
    ----------
    M. Edwards and S. Triantafyllidou, J. AWWA 99(7) (2007) 96 (from memory).
    """
    chloride = np.asarray(chloride_mg_per_L, dtype=np.float64)
    require(chloride >= 0.0, "chloride_mg_per_L", "0 or more")
    return np.asarray(chloride / _positive(sulfate_mg_per_L, "sulfate_mg_per_L"))
