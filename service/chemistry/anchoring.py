"""Branches rewritten about the corrosion potential: the form in which they are evaluated."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike, IntArray, kept
from service.chemistry.branches import Branches

LARGEST_OXYGEN_USE = 0.98
"""Largest share of the limiting current that corrosion may use at rest. A metal that uses all of
it has no charge-transfer current left to anchor at (mild steel sits close to it)."""

SMALLEST_SLOPE = 0.01
"""Slopes below 10 mV per decade are taken as this: they are vertical for every purpose here and
would only overflow [V/decade]."""

PASSIVE_SLOPE = 2.0
"""Slope of a passive branch: nearly flat, so that it stays strictly monotone [V/decade]."""

WATER_REFERENCE_POTENTIAL = -1.0
"""Potential at which ``Branches.water_current`` is given [V vs SHE]."""

_SMALLEST_LIMITING_CURRENT = 1e-12
_LARGEST_EXPONENT = 700.0
"""Keeps exponentials finite; it is 3 V away from rest on the smallest slope."""

_FARTHEST_BREAKDOWN = 1e3
"""Stands for a breakdown that never comes [V]."""

_LN10 = float(np.log(10.0))


@dataclass(frozen=True, slots=True)
class Anchored:
    """Branches rewritten as exponentials about the corrosion potential, ready for solvers.

    With ``x = E - E_corr`` the anodic current density is ``rest ((1 - p) exp(k1 x) + p exp(k2
    x))``, that of oxygen ``oxygen / (r + (1 - r) exp(kc x))`` with the share r of the limit that
    is used at rest, and that of water ``water exp(-kw x)``. ``rest`` is the sum of the two
    cathodic ones at ``x = 0``.
    """

    corrosion_potential: FloatArray
    rest_current: FloatArray
    first_rate: FloatArray
    second_rate: FloatArray
    second_share: FloatArray
    has_second: bool
    oxygen_current: FloatArray
    oxygen_rate: FloatArray
    oxygen_use: FloatArray
    water_current: FloatArray
    water_rate: FloatArray

    def narrowed(self, keep: IntArray) -> Anchored:
        """The same electrodes for some of the lanes in the last axis."""
        return replace(self, **{name: kept(getattr(self, name), keep) for name in _ANCHORED_ARRAYS})

    def flat(self, shape: tuple[int, ...]) -> Anchored:
        """The same electrodes side by side in one row of lanes."""
        rows: dict[str, Any] = {
            name: np.broadcast_to(getattr(self, name), shape).reshape(1, -1) for name in _ANCHORED_ARRAYS
        }
        return replace(self, **rows)

    def scaled(self, areas: FloatArray) -> Anchored:
        """Electrodes whose currents are in A instead of A/m2."""
        return replace(
            self,
            rest_current=areas * self.rest_current,
            oxygen_current=areas * self.oxygen_current,
            water_current=areas * self.water_current,
        )

    def partial_currents(
        self, potential: FloatArray
    ) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
        """Anodic and cathodic current density [A/m2] and both derivatives [A/m2/V]."""
        x = potential - self.corrosion_potential
        anodic = _exponential(self.first_rate, x)
        if self.has_second:
            anodic *= 1.0 - self.second_share
            second = _bounded(self.second_rate, x)
            np.exp(second, out=second)
            second *= self.second_share
            rise = self.first_rate * anodic
            anodic += second
            second *= self.second_rate
            rise += second
        else:
            rise = self.first_rate * anodic
        anodic *= self.rest_current
        rise *= self.rest_current
        blocked = _exponential(self.oxygen_rate, x)
        blocked *= 1.0 - self.oxygen_use
        hindrance = blocked + self.oxygen_use
        cathodic = self.oxygen_current / hindrance
        blocked /= hindrance
        blocked *= cathodic
        blocked *= self.oxygen_rate
        water = _exponential(-self.water_rate, x)
        water *= self.water_current
        cathodic += water
        water *= self.water_rate
        blocked += water
        return anodic, cathodic, rise, np.negative(blocked, out=blocked)

    def _transport_integral(self, hindrance: FloatArray) -> FloatArray:
        """Integral of the oxygen current, from what hinders charge transfer [A V/m2]."""
        area: FloatArray = np.log1p(hindrance)
        area *= self.oxygen_current / (self.oxygen_use * self.oxygen_rate)
        return area

    def integral(self, potential: FloatArray) -> FloatArray:
        """The net integral from the corrosion potential alone [A V/m2]."""
        x = potential - self.corrosion_potential
        area = np.expm1(self.first_rate * x)
        area /= self.first_rate
        if self.has_second:
            second = _bounded(self.second_rate, x)
            np.expm1(second, out=second)
            second /= self.second_rate
            second -= area
            second *= self.second_share
            area += second
        area *= self.rest_current
        hindrance = _bounded(-self.oxygen_rate, x)
        np.expm1(hindrance, out=hindrance)
        hindrance *= self.oxygen_use
        area += self._transport_integral(hindrance)
        water = np.expm1(-self.water_rate * x)
        water *= self.water_current / self.water_rate
        area += water
        return area

    def currents_and_integral(self, potential: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Both partial currents [A/m2], and the net integral from the corrosion potential [A V/m2]."""
        x = potential - self.corrosion_potential
        anodic = np.expm1(self.first_rate * x)
        area = anodic / self.first_rate
        if self.has_second:
            second = _bounded(self.second_rate, x)
            np.expm1(second, out=second)
            area += self.second_share * (second / self.second_rate - area)
            second -= anodic
            second *= self.second_share
            anodic += second
        anodic += 1.0
        anodic *= self.rest_current
        area *= self.rest_current
        cathodic = _bounded(-self.oxygen_rate, x)
        np.expm1(cathodic, out=cathodic)
        hindrance = self.oxygen_use * cathodic
        area += self._transport_integral(hindrance)
        cathodic += 1.0
        hindrance += 1.0
        cathodic /= hindrance
        cathodic *= self.oxygen_current
        water = np.expm1(-self.water_rate * x)
        area += self.water_current / self.water_rate * water
        water += 1.0
        water *= self.water_current
        cathodic += water
        return anodic, cathodic, area

    def net_slope_and_integral(self, potential: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Net current density [A/m2], its derivative [A/m2/V] and its integral [A V/m2]."""
        x = potential - self.corrosion_potential
        net = np.expm1(self.first_rate * x)
        area = net / self.first_rate
        if self.has_second:
            second = _bounded(self.second_rate, x)
            np.expm1(second, out=second)
            area += self.second_share * (second / self.second_rate - area)
            second += 1.0
            second *= self.second_share
            net += 1.0
            net *= 1.0 - self.second_share
            slope = self.first_rate * net
            slope += self.second_rate * second
            net += second
        else:
            net += 1.0
            slope = self.first_rate * net
        net *= self.rest_current
        area *= self.rest_current
        slope *= self.rest_current
        cathodic = _bounded(-self.oxygen_rate, x)
        np.expm1(cathodic, out=cathodic)
        hindrance = self.oxygen_use * cathodic
        area += self._transport_integral(hindrance)
        hindrance += 1.0
        cathodic += 1.0
        cathodic /= hindrance
        cathodic *= self.oxygen_current
        net -= cathodic
        # The share of the resistance that charge transfer has falls as the transport limit is neared.
        cathodic *= self.oxygen_rate * (1.0 - self.oxygen_use)
        cathodic /= hindrance
        slope += cathodic
        water = np.expm1(-self.water_rate * x)
        area += self.water_current / self.water_rate * water
        water += 1.0
        water *= self.water_current
        net -= water
        water *= self.water_rate
        slope += water
        return net, slope, area


def _bounded(rate: FloatArray, x: FloatArray) -> FloatArray:
    """``rate x``, held where an exponential stays finite."""
    power = rate * x
    bounded: FloatArray = np.minimum(power, _LARGEST_EXPONENT, out=power)
    return bounded


def _exponential(rate: FloatArray, x: FloatArray) -> FloatArray:
    """``exp(rate x)`` in one array."""
    power = rate * x
    result: FloatArray = np.exp(power, out=power)
    return result


_ANCHORED_ARRAYS = tuple(field.name for field in fields(Anchored) if field.name != "has_second")


def anchor(branches: Branches) -> Anchored:
    """Rewrite branches about their corrosion potential, once for every evaluation that follows.

    Parameters
    ----------
    branches : Branches
        Any shape [units of ``Branches``].

    Returns
    -------
    Anchored
        The same electrodes [A/m2, V].

    Examples
    --------
    >>> round(float(anchor(Branches(-0.4, 9.9, 0.06, 0.12, 0.3)).rest_current), 4)
    0.294
    """
    rest_potential = np.asarray(branches.corrosion_potential, dtype=np.float64)
    limit = np.maximum(branches.limiting_current, _SMALLEST_LIMITING_CURRENT)
    oxygen_use = np.minimum(branches.corrosion_current / limit, LARGEST_OXYGEN_USE)
    oxygen_current = oxygen_use * limit
    water_rate = _rate(branches.water_slope)
    water_current = branches.water_current * np.exp(
        -water_rate * (rest_potential - WATER_REFERENCE_POTENTIAL)
    )
    passive = np.asarray(branches.passive, dtype=np.bool_)
    second_rate = _rate(branches.breakdown_slope)
    has_second = bool(np.any(passive & np.isfinite(branches.breakdown_potential)))
    second_share = np.zeros(())
    if has_second:
        distance = np.fmin(branches.breakdown_potential - rest_potential, _FARTHEST_BREAKDOWN)
        with np.errstate(over="ignore"):
            second_share = passive / (1.0 + np.exp(second_rate * distance))
    return Anchored(
        corrosion_potential=rest_potential,
        rest_current=oxygen_current + water_current,
        first_rate=_rate(np.where(passive, PASSIVE_SLOPE, branches.anodic_slope)),
        second_rate=second_rate,
        second_share=second_share,
        has_second=has_second,
        oxygen_current=oxygen_current,
        oxygen_rate=_rate(branches.cathodic_slope),
        oxygen_use=oxygen_use,
        water_current=water_current,
        water_rate=water_rate,
    )


def _rate(slope: FloatLike) -> FloatArray:
    """Natural exponent per volt of a slope per decade."""
    return np.asarray(_LN10 / np.maximum(slope, SMALLEST_SLOPE), dtype=np.float64)
