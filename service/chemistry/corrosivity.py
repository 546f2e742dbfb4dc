"""Corrosivity categories C1 to CX of ISO 9223: from a rate to a category and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.chemistry.arrays import FloatLike, IntArray
from service.chemistry.atmosphere import DENSITY_G_PER_CM3, StandardMetal
from service.chemistry.requirements import require

CATEGORIES = ("C1", "C2", "C3", "C4", "C5", "CX")
BEYOND_CX = len(CATEGORIES)

# ISO 9223:2012 Table 2, upper limit of C1 to CX in um/y. Steel and zinc read in reproductions, copper from
# memory. Aluminium has mass limits only (from memory): C1 is "negligible", CX is open.
UPPER_LIMITS_UM_PER_YEAR: Mapping[StandardMetal, tuple[float, ...]] = MappingProxyType(
    {
        StandardMetal.CARBON_STEEL: (1.3, 25.0, 50.0, 80.0, 200.0, 700.0),
        StandardMetal.ZINC: (0.1, 0.7, 2.1, 4.2, 8.4, 25.0),
        StandardMetal.COPPER: (0.1, 0.6, 1.3, 2.8, 5.6, 10.0),
        StandardMetal.ALUMINIUM: (
            0.0,
            *(mass / DENSITY_G_PER_CM3[StandardMetal.ALUMINIUM] for mass in (0.6, 2.0, 5.0, 10.0)),
            np.inf,
        ),
    }
)


@dataclass(frozen=True, slots=True)
class RateBand:
    """What a category says of the first-year loss of one metal, in um/y.

    ``is_lower_assumed`` and ``is_upper_assumed`` mark an end that the standard leaves open.
    """

    low_um_per_year: float
    typical_um_per_year: float
    high_um_per_year: float
    is_lower_assumed: bool
    is_upper_assumed: bool


def corrosivity_category(metal: StandardMetal, rate_um_per_year: FloatLike) -> IntArray:
    """Category of a first-year loss; the lower limit is excluded, the upper included.

    Parameters
    ----------
    metal : StandardMetal
        Which column of the table [-].
    rate_um_per_year : float or ndarray
        First-year loss, not negative [um/y].

    Returns
    -------
    index : ndarray of int
        Place in :data:`CATEGORIES`; :data:`BEYOND_CX` for a loss above the table [-].

    Raises
    ------
    OutOfRangeError
        For a loss that is negative or not a number.

    Notes
    -----
    Each metal may land in another category at the same site: report one per metal, never one for the site.
    Round the rate first where two machines must give the same answer.

    Examples
    --------
    >>> CATEGORIES[int(corrosivity_category(StandardMetal.COPPER, 2.2))]
    'C4'

    References
    ----------
    ISO 9223:2012, Table 2.
    """
    rate = np.asarray(rate_um_per_year, dtype=np.float64)
    require(rate >= 0.0, "rate_um_per_year", "0 or more")
    return np.asarray(np.searchsorted(UPPER_LIMITS_UM_PER_YEAR[metal], rate, side="left"), dtype=np.int64)


def category_rate_band(metal: StandardMetal, category: str) -> RateBand:
    """First-year loss that a category stands for, with the geometric mean of its ends as typical value.

    Parameters
    ----------
    metal : StandardMetal
        Which column of the table [-].
    category : str
        One of :data:`CATEGORIES` [-].

    Returns
    -------
    band : RateBand
        Low, typical and high loss [um/y].

    Raises
    ------
    OutOfRangeError
        For an unknown category, and for aluminium in C1, to which the standard gives no figure.

    Notes
    -----
    C1 has no lower limit: a tenth of its upper limit is assumed. For aluminium C2 the same holds, since C1
    has no number, and CX has no upper limit: twice the lower one is assumed, the width of C5.

    Examples
    --------
    >>> category_rate_band(StandardMetal.ZINC, "C3").typical_um_per_year
    1.2124355652982142

    References
    ----------
    ISO 9223:2012, Table 2.
    """
    require(category in CATEGORIES, "category", "one of " + ", ".join(CATEGORIES))
    limits = UPPER_LIMITS_UM_PER_YEAR[metal]
    index = CATEGORIES.index(category)
    upper, lower = limits[index], limits[index - 1] if index else 0.0
    require(upper > 0.0, "category", "C2 to CX for aluminium, whose C1 is negligible and has no figure")
    is_open_above, is_open_below = not np.isfinite(upper), lower == 0.0
    high = 2.0 * lower if is_open_above else upper
    low = 0.1 * high if is_open_below else lower
    return RateBand(low, float(np.sqrt(low * high)), high, is_open_below, is_open_above)
