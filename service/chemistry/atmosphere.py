"""First-year and long-term loss of the four standard metals outdoors (ISO 9223, ISO 9224).

Rates are in micrometres per year, the unit of both standards and of every table they are compared with.
The coefficients were read in open reproductions, not in the standards themselves; see ``seed_data`` for
the access of each figure.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

import numpy as np

from service.chemistry.arrays import BoolArray, FloatArray, FloatLike
from service.chemistry.requirements import require


class StandardMetal(StrEnum):
    """The metals for which ISO 9223 gives a dose-response function."""

    CARBON_STEEL = "carbon_steel"
    ZINC = "zinc"
    COPPER = "copper"
    ALUMINIUM = "aluminium"


@dataclass(frozen=True, slots=True)
class DoseResponse:
    """Coefficients of one function and what is stated of its fit.

    ``r = a Pd^p exp(h1 RH + f) + b Sd^s exp(h2 RH + t T)`` with ``f = f_cold (T - 10)`` up to 10 degC and
    ``f_warm (T - 10)`` above.
    """

    a: float
    p: float
    h1: float
    f_cold: float
    f_warm: float
    b: float
    s: float
    h2: float
    t: float
    uncertainty_factor: float


# ISO 9223:2012 Eq. (1)-(4). The factors are Table A.1: -33/+50 %, aluminium -50/+100 % (from memory).
DOSE_RESPONSE: Mapping[StandardMetal, DoseResponse] = MappingProxyType(
    {
        StandardMetal.CARBON_STEEL: DoseResponse(
            1.77, 0.52, 0.020, 0.150, -0.054, 0.102, 0.62, 0.033, 0.040, 1.5
        ),
        StandardMetal.ZINC: DoseResponse(0.0129, 0.44, 0.046, 0.038, -0.071, 0.0175, 0.57, 0.008, 0.085, 1.5),
        StandardMetal.COPPER: DoseResponse(
            0.0053, 0.26, 0.059, 0.126, -0.080, 0.01025, 0.27, 0.036, 0.049, 1.5
        ),
        StandardMetal.ALUMINIUM: DoseResponse(
            0.0042, 0.73, 0.025, 0.009, -0.043, 0.0018, 0.60, 0.020, 0.094, 2.0
        ),
    }
)

SWITCH_C = 10.0

# ISO 9223:2012 Table 3, the intervals on which the functions were fitted.
FITTED_TEMPERATURE_C = (-17.1, 28.7)
FITTED_HUMIDITY_PCT = (34.0, 93.0)
FITTED_SO2_MG_PER_M2_D = (0.7, 150.4)
FITTED_CHLORIDE_MG_PER_M2_D = (0.4, 760.5)

# ISO 9223:2012 densities that turn g/(m2 y) into um/y (from memory), g/cm3.
DENSITY_G_PER_CM3: Mapping[StandardMetal, float] = MappingProxyType(
    {
        StandardMetal.CARBON_STEEL: 7.86,
        StandardMetal.ZINC: 7.14,
        StandardMetal.COPPER: 8.96,
        StandardMetal.ALUMINIUM: 2.70,
    }
)

# ISO 9224:2012 Table 3 (read in a reproduction): B1 for the average, B2 for a conservative estimate.
LONG_TERM_EXPONENTS: Mapping[StandardMetal, tuple[float, float]] = MappingProxyType(
    {
        StandardMetal.CARBON_STEEL: (0.523, 0.575),
        StandardMetal.ZINC: (0.813, 0.873),
        StandardMetal.COPPER: (0.667, 0.726),
        StandardMetal.ALUMINIUM: (0.728, 0.807),
    }
)

LINEAR_AFTER_YEARS = 20.0


@dataclass(frozen=True, slots=True)
class Validity:
    """Which inputs lie inside the fitted intervals, as masks of one shape."""

    temperature: BoolArray
    humidity: BoolArray
    so2: BoolArray
    chloride: BoolArray

    @property
    def inside(self) -> BoolArray:
        """Where every input lies inside."""
        return self.temperature & self.humidity & self.so2 & self.chloride

    def outside(self) -> tuple[str, ...]:
        """Names of the inputs that lie outside anywhere."""
        masks = (
            ("temperature", self.temperature),
            ("humidity", self.humidity),
            ("so2", self.so2),
            ("chloride", self.chloride),
        )
        return tuple(name for name, mask in masks if not mask.all())


def first_year_rate_um_per_year(
    metal: StandardMetal,
    temperature_C: FloatLike,
    relative_humidity_pct: FloatLike,
    so2_mg_per_m2_d: FloatLike,
    chloride_mg_per_m2_d: FloatLike,
) -> FloatArray:
    r"""First-year loss of a standard metal in open air.

    .. math:: r = a P_d^p e^{h_1 H + f} + b S_d^s e^{h_2 H + t T}

    Parameters
    ----------
    metal : StandardMetal
        Which of the four functions [-].
    temperature_C : float or ndarray
        Annual mean air temperature, any shape [degC].
    relative_humidity_pct : float or ndarray
        Annual mean relative humidity [%].
    so2_mg_per_m2_d : float or ndarray
        Annual mean deposition of sulfur dioxide [mg/(m2 d)].
    chloride_mg_per_m2_d : float or ndarray
        Annual mean deposition of chloride, wet candle [mg/(m2 d)].

    Returns
    -------
    rate : ndarray
        Broadcast shape [um/y].

    Notes
    -----
    Depositions below the fitted interval are raised to its lower end (0.7 and 0.4 mg/(m2 d)): with none
    at all the function gives zero, which no site shows. Use :func:`validity` to see what was outside.
    For aluminium one reproduction labels the result g/(m2 y); um/y agrees with ten exposure sites
    (geometric mean 0.95 against 0.35) and is used. Sheltered, indoor, splash and immersed service lie
    outside the standard.

    Examples
    --------
    >>> round(float(first_year_rate_um_per_year(StandardMetal.ZINC, 15, 70, 4, 3)), 6)
    0.621711

    References
    ----------
    ISO 9223:2012, Eq. (1) to (4), Table 3.
    """
    k = DOSE_RESPONSE[metal]
    temperature = np.asarray(temperature_C, dtype=np.float64)
    humidity = np.asarray(relative_humidity_pct, dtype=np.float64)
    so2 = np.maximum(np.asarray(so2_mg_per_m2_d, dtype=np.float64), FITTED_SO2_MG_PER_M2_D[0])
    chloride = np.maximum(np.asarray(chloride_mg_per_m2_d, dtype=np.float64), FITTED_CHLORIDE_MG_PER_M2_D[0])
    above_switch = temperature - SWITCH_C
    f = np.where(above_switch <= 0.0, k.f_cold, k.f_warm) * above_switch
    sulfur_term = k.a * so2**k.p * np.exp(k.h1 * humidity + f)
    chloride_term = k.b * chloride**k.s * np.exp(k.h2 * humidity + k.t * temperature)
    return np.asarray(sulfur_term + chloride_term, dtype=np.float64)


def validity(
    temperature_C: FloatLike,
    relative_humidity_pct: FloatLike,
    so2_mg_per_m2_d: FloatLike,
    chloride_mg_per_m2_d: FloatLike,
) -> Validity:
    """Where the inputs lie inside the intervals on which the functions were fitted.

    Parameters
    ----------
    temperature_C : float or ndarray
        Annual mean air temperature [degC].
    relative_humidity_pct : float or ndarray
        Annual mean relative humidity [%].
    so2_mg_per_m2_d : float or ndarray
        Deposition of sulfur dioxide [mg/(m2 d)].
    chloride_mg_per_m2_d : float or ndarray
        Deposition of chloride [mg/(m2 d)].

    Returns
    -------
    validity : Validity
        Masks of the broadcast shape [-].

    Notes
    -----
    Clean air below the lower deposition limits counts as outside, although the floor makes it harmless.

    Examples
    --------
    >>> validity(31.0, 70, 4, 3).outside()
    ('temperature',)

    References
    ----------
    ISO 9223:2012, Table 3.
    """
    values = np.broadcast_arrays(temperature_C, relative_humidity_pct, so2_mg_per_m2_d, chloride_mg_per_m2_d)
    limits = (
        FITTED_TEMPERATURE_C,
        FITTED_HUMIDITY_PCT,
        FITTED_SO2_MG_PER_M2_D,
        FITTED_CHLORIDE_MG_PER_M2_D,
    )
    masks = [
        np.asarray((value >= low) & (value <= high))
        for value, (low, high) in zip(values, limits, strict=True)
    ]
    return Validity(*masks)


def cumulative_loss(first_year: FloatLike, exponent: FloatLike, years: FloatLike) -> FloatArray:
    r"""Loss after years of outdoor exposure.

    .. math:: D = r t^B \; (t \le 20), \qquad D = r [20^B + B\,20^{B-1} (t - 20)] \; (t > 20)

    Parameters
    ----------
    first_year : float or ndarray
        Loss in the first year, [um]
    exponent : float or ndarray
        B1 or B2 of :data:`LONG_TERM_EXPONENTS` [-].
    years : float or ndarray
        Time of exposure, zero or more [y].

    Returns
    -------
    loss : ndarray
        In the unit of ``first_year`` [um].

    Raises
    ------
    OutOfRangeError
        For a negative time.

    Notes
    -----
    Beyond 20 years the tangent is followed, since the power law has no data there. The added exponent for
    chloride-rich air (Annex C) and the alloy terms for steel are not applied: neither could be verified.

    Examples
    --------
    >>> round(float(cumulative_loss(1.0, 0.523, 20.0)), 3)
    4.791

    References
    ----------
    ISO 9224:2012, Eq. (1), Table 3 and the rule for more than 20 years.
    """
    rate = np.asarray(first_year, dtype=np.float64)
    b = np.asarray(exponent, dtype=np.float64)
    time = np.asarray(years, dtype=np.float64)
    require(time >= 0.0, "years", "0 or more")
    curved = np.minimum(time, LINEAR_AFTER_YEARS) ** b
    tangent = b * LINEAR_AFTER_YEARS ** (b - 1.0) * np.maximum(time - LINEAR_AFTER_YEARS, 0.0)
    return np.asarray(rate * (curved + tangent), dtype=np.float64)
