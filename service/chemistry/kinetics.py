"""Electrode kinetics: the partial currents of one surface state, anchored at its corrosion potential.

A state (active, passive, pitting, ennobled) has one anodic branch that never falls and one
cathodic branch that never rises with potential, so its net current crosses zero once. Parameters
meet at the corrosion potential and never at an exchange current: whatever sample is drawn, the
net current there is exactly zero.

Current densities are positive numbers for both partial currents; the net current density is the
anodic minus the cathodic one. Potentials are V vs SHE.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from service.chemistry.arrays import (
    BoolArray,
    BoolLike,
    FloatArray,
    FloatLike,
    IntArray,
    flat_rows,
    kept,
    lanes_behind_first,
    take,
)

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

VALID_PH = (5.0, 9.0)
"""Acidity in which the branches hold [-]."""

VALID_TEMPERATURE = (0.0, 60.0)
"""Temperature in which the branches hold [degC]."""

_SMALLEST_LIMITING_CURRENT = 1e-12
_LARGEST_EXPONENT = 700.0
_LN10 = float(np.log(10.0))


@dataclass(frozen=True, slots=True)
class Branches:
    """Parameters of one electrode state, or of many lanes of them; all fields broadcast.

    Parameters
    ----------
    corrosion_potential : float or ndarray
        Potential of zero net current [V vs SHE].
    corrosion_current : float or ndarray
        Oxygen-borne corrosion current density at rest [A/m2]; cut at 0.98 of the limiting
        current. Water reduction at rest comes on top, so for a metal that evolves hydrogen by
        itself (magnesium) ``water_current`` has to carry the rest of its rate.
    anodic_slope : float or ndarray
        Tafel slope of active or pitting dissolution [V/decade]; not used where passive.
    cathodic_slope : float or ndarray
        Tafel slope of oxygen reduction, positive [V/decade].
    limiting_current : float or ndarray
        Limiting current density of oxygen reduction [A/m2].
    water_current : float or ndarray
        Current density of water reduction at -1.0 V vs SHE [A/m2].
    water_slope : float or ndarray
        Tafel slope of water reduction, positive [V/decade].
    passive : bool or ndarray
        Whether the anodic branch is a passive current up to the breakdown potential [-]. An
        inert cathode (gold, graphite) is passive, without breakdown, with a tiny corrosion
        current: the leakage that balances its open-circuit potential.
    breakdown_potential : float or ndarray
        Potential at which the current of a passive state has doubled [V vs SHE]; not-a-number
        or infinite where there is none.
    breakdown_slope : float or ndarray
        Slope of the branch beyond breakdown [V/decade].

    Examples
    --------
    >>> steel = Branches(-0.40, 0.1, 0.06, 0.12, 0.3)
    >>> float(net_current_density(-0.40, steel))
    0.0
    """

    corrosion_potential: FloatLike
    corrosion_current: FloatLike
    anodic_slope: FloatLike
    cathodic_slope: FloatLike
    limiting_current: FloatLike
    water_current: FloatLike = 0.0
    water_slope: FloatLike = 0.12
    passive: BoolLike = False
    breakdown_potential: FloatLike = np.nan
    breakdown_slope: FloatLike = 0.02


_PARAMETERS = tuple(field.name for field in fields(Branches))


def stack(electrodes: Sequence[Branches]) -> Branches:
    """Put several electrodes into one, along a new first axis.

    Parameters
    ----------
    electrodes : sequence of Branches
        Their lanes broadcast against each other [-].

    Returns
    -------
    Branches
        Fields of shape ``(len(electrodes), ...)``, each no larger than it needs to be [units of
        ``Branches``].

    Examples
    --------
    >>> pair = stack([Branches(-0.4, 0.1, 0.06, 0.12, 0.3), Branches(np.zeros(5), 0.1, 0.06, 0.12, 0.3)])
    >>> pair.corrosion_potential.shape, pair.corrosion_current.shape
    ((2, 5), (2,))
    """
    columns = {}
    for name in _PARAMETERS:
        members = [np.asarray(getattr(electrode, name)) for electrode in electrodes]
        lanes = np.broadcast_shapes(*(member.shape for member in members))
        columns[name] = np.stack([np.broadcast_to(member, lanes) for member in members])
    return Branches(**columns)


def electrodes_and_lanes(branches: Branches, *others: FloatLike) -> tuple[int, tuple[int, ...]]:
    """Number of electrodes and shape of the lanes of stacked branches and what goes with them.

    Parameters
    ----------
    branches : Branches
        Fields with the electrodes on axis 0 [units of ``Branches``].
    *others : float or ndarray
        More figures with the electrodes on axis 0 [any].

    Returns
    -------
    tuple
        Number of electrodes, shape of the lanes [-].

    Examples
    --------
    >>> electrodes_and_lanes(stack([Branches(-0.4, 0.1, 0.06, 0.12, 0.3)] * 2), np.ones((2, 7)))
    (2, (7,))
    """
    values = [*(getattr(branches, name) for name in _PARAMETERS), *others]
    return max(np.shape(value)[0] if np.ndim(value) else 1 for value in values), lanes_behind_first(*values)


def flattened(branches: Branches, electrodes: int, lanes: tuple[int, ...]) -> Branches:
    """The same electrodes with all lanes in one axis, for solvers that cut them into blocks.

    Parameters
    ----------
    branches : Branches
        Fields with the electrodes on axis 0 and lanes behind it [units of ``Branches``].
    electrodes : int
        Number of electrodes [-].
    lanes : tuple of int
        Shape of the lanes [-].

    Returns
    -------
    Branches
        Fields of shape ``(electrodes, lanes)`` or ``(electrodes, 1)`` [units of ``Branches``].

    Examples
    --------
    >>> rows = flattened(stack([Branches(-0.4, 0.1, 0.06, 0.12, np.ones((2, 3)))]), 1, (2, 3))
    >>> rows.limiting_current.shape, rows.water_current.shape
    ((1, 6), (1, 1))
    """
    return Branches(
        **{
            field.name: flat_rows(getattr(branches, field.name), electrodes, lanes)
            for field in fields(Branches)
        }
    )


def block_of(branches: Branches, block: slice) -> Branches:
    """One block of lanes of what ``flattened`` made.

    Parameters
    ----------
    branches : Branches
        Fields of shape ``(electrodes, lanes)`` or ``(electrodes, 1)`` [units of ``Branches``].
    block : slice
        The lanes wanted [-].

    Returns
    -------
    Branches
        Views of those lanes [units of ``Branches``].

    Examples
    --------
    >>> rows = flattened(stack([Branches(-0.4, 0.1, 0.06, 0.12, np.ones(6))]), 1, (6,))
    >>> block_of(rows, slice(0, 4)).limiting_current.shape
    (1, 4)
    """
    return Branches(**{name: take(getattr(branches, name), block) for name in _PARAMETERS})


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

    def partial_currents(
        self, potential: FloatArray
    ) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
        """Anodic and cathodic current density [A/m2] and both derivatives [A/m2/V]."""
        x = potential - self.corrosion_potential
        shape = np.exp(self.first_rate * x)
        if self.has_second:
            shape *= 1.0 - self.second_share
            second = self.second_share * np.exp(self.second_rate * x)
            slope = self.first_rate * shape + self.second_rate * second
            shape += second
        else:
            slope = self.first_rate * shape
        blocked = np.exp(self.oxygen_rate * x)
        blocked *= 1.0 - self.oxygen_use
        hindrance = self.oxygen_use + blocked
        oxygen = self.oxygen_current / hindrance
        blocked /= hindrance
        falling = self.oxygen_rate * oxygen * blocked
        water = self.water_current * np.exp(-self.water_rate * x)
        falling += self.water_rate * water
        return self.rest_current * shape, oxygen + water, self.rest_current * slope, -falling

    def currents_and_integral(self, potential: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Both partial currents [A/m2], and the net integral from the corrosion potential [A V/m2]."""
        x = potential - self.corrosion_potential
        shape = np.expm1(self.first_rate * x)
        area = shape / self.first_rate
        if self.has_second:
            second = np.expm1(self.second_rate * x)
            area += self.second_share * (second / self.second_rate - area)
            second -= shape
            shape += self.second_share * second
        area *= self.rest_current
        rise = np.expm1(np.minimum(-self.oxygen_rate * x, _LARGEST_EXPONENT))
        hindrance = self.oxygen_use * rise
        area += self.oxygen_current / (self.oxygen_use * self.oxygen_rate) * np.log1p(hindrance)
        rise += 1.0
        hindrance += 1.0
        oxygen = self.oxygen_current * rise / hindrance
        wave = np.expm1(-self.water_rate * x)
        area += self.water_current / self.water_rate * wave
        wave += 1.0
        shape += 1.0
        return self.rest_current * shape, oxygen + self.water_current * wave, area


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
    breakdown = np.asarray(branches.breakdown_potential, dtype=np.float64)
    second_rate = _rate(branches.breakdown_slope)
    has_second = bool(np.any(passive & np.isfinite(breakdown)))
    second_share = np.zeros(())
    if has_second:
        distance = np.where(passive & np.isfinite(breakdown), breakdown - rest_potential, np.inf)
        with np.errstate(over="ignore"):
            second_share = 1.0 / (1.0 + np.exp(second_rate * distance))
    return Anchored(
        corrosion_potential=rest_potential,
        rest_current=oxygen_current + water_current,
        first_rate=np.where(passive, _LN10 / PASSIVE_SLOPE, _rate(branches.anodic_slope)),
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


def _evaluated(
    potential: FloatLike, branches: Branches
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Both partial currents, integral and slope of the net one, for any shapes that broadcast."""
    full = np.broadcast_shapes(
        np.shape(potential), *(np.shape(getattr(branches, f.name)) for f in fields(branches))
    )
    with np.errstate(over="ignore"):
        row = anchor(branches).flat(full)
        anodic, cathodic, rise, fall = row.partial_currents(np.broadcast_to(potential, full).reshape(1, -1))
        _, _, integral = row.currents_and_integral(np.broadcast_to(potential, full).reshape(1, -1))
    return anodic.reshape(full), cathodic.reshape(full), integral.reshape(full), (rise - fall).reshape(full)


def anodic_current_density(potential: FloatLike, branches: Branches) -> FloatArray:
    r"""Anodic partial current density: what dissolves.

    Active: :math:`i_a = i_0\,10^{(E-E_c)/b_a}`; passive: nearly constant up to the breakdown
    potential, then :math:`10^{(E-E_b)/b_b}`. The anchor :math:`i_0` is the cathodic current
    density at the corrosion potential, oxygen and water together.

    Parameters
    ----------
    potential : float or ndarray
        Potential of the metal against the solution next to it [V vs SHE].
    branches : Branches
        The electrode [units of ``Branches``].

    Returns
    -------
    ndarray
        Positive current density [A/m2].

    Examples
    --------
    >>> float(anodic_current_density(-0.34, Branches(-0.40, 0.1, 0.06, 0.12, 0.3)).round(6))
    1.0
    """
    return _evaluated(potential, branches)[0]


def cathodic_current_density(potential: FloatLike, branches: Branches) -> FloatArray:
    r"""Cathodic partial current density: oxygen reduction under mixed control and water reduction.

    :math:`1/i = 1/i_{ct} + 1/i_{lim}`, :math:`i_{ct} = i_{corr}/(1 - i_{corr}/i_{lim})
    \,10^{-(E-E_c)/b_c}`, plus :math:`i_w\,10^{-(E+1.0)/b_w}`.

    Parameters
    ----------
    potential : float or ndarray
        Potential of the metal against the solution next to it [V vs SHE].
    branches : Branches
        The electrode [units of ``Branches``].

    Returns
    -------
    ndarray
        Positive current density [A/m2].

    Notes
    -----
    Valid where ``is_valid`` says so. Hydrogen ions have no branch of their own: their transport
    limit is 6 % of that of oxygen at pH 5 and 0.6 % at pH 6; a caller may add it to the limiting
    current (``oxygen.proton_limiting_current_density``).

    Examples
    --------
    >>> float(cathodic_current_density(-1.4, Branches(-0.40, 0.1, 0.06, 0.12, 0.3)).round(4))
    0.3
    """
    return _evaluated(potential, branches)[1]


def net_current_density(potential: FloatLike, branches: Branches) -> FloatArray:
    r"""Net current density, anodic positive: zero at the corrosion potential, never falling.

    :math:`i = i_a - i_c`

    Parameters
    ----------
    potential : float or ndarray
        Potential of the metal against the solution next to it [V vs SHE].
    branches : Branches
        The electrode [units of ``Branches``].

    Returns
    -------
    ndarray
        Current density out of the metal [A/m2].

    Examples
    --------
    >>> float(net_current_density(-0.40, Branches(-0.40, 0.1, 0.06, 0.12, 0.3)))
    0.0
    """
    anodic, cathodic, _, _ = _evaluated(potential, branches)
    return anodic - cathodic


def net_current_slope(potential: FloatLike, branches: Branches) -> FloatArray:
    r"""Polarization conductance: how steeply the net current density rises with potential.

    :math:`di/dE`

    Parameters
    ----------
    potential : float or ndarray
        Potential of the metal against the solution next to it [V vs SHE].
    branches : Branches
        The electrode [units of ``Branches``].

    Returns
    -------
    ndarray
        Positive conductance [A/m2/V].

    Examples
    --------
    >>> bool(net_current_slope(-0.40, Branches(-0.40, 0.1, 0.06, 0.12, 0.3)) > 0.0)
    True
    """
    return _evaluated(potential, branches)[3]


def integral_of_net_current(lower: FloatLike, upper: FloatLike, branches: Branches) -> FloatArray:
    r"""Closed-form integral of the net current density over potential.

    :math:`\int i_0 10^{x/b}\,dE = i_0 (b/\ln 10)\,10^{x/b}` for every exponential and
    :math:`\int i_{lim}\,y/(1+y)\,dE = -i_{lim} (b_c/\ln 10) \ln(1+y)` for oxygen, with
    :math:`y = i_{ct}/i_{lim}`.

    Parameters
    ----------
    lower : float or ndarray
        Where the integral begins [V vs SHE].
    upper : float or ndarray
        Where it ends [V vs SHE].
    branches : Branches
        The electrode [units of ``Branches``].

    Returns
    -------
    ndarray
        The integral [A V/m2]; from the corrosion potential it is positive in both directions.

    Examples
    --------
    >>> steel = Branches(-0.40, 0.1, 0.06, 0.12, 0.3)
    >>> bool(integral_of_net_current(-0.40, -0.50, steel) > 0.0)
    True
    """
    return _evaluated(upper, branches)[2] - _evaluated(lower, branches)[2]


def is_valid(
    pH: FloatLike,
    temperature_C: FloatLike,
    *,
    has_complexing_agents: BoolLike = False,
    is_biased: BoolLike = False,
) -> BoolArray:
    """Whether the branches describe a solution at all; elsewhere the kinetic witness abstains.

    Parameters
    ----------
    pH : float or ndarray
        Acidity [-]; valid from 5 to 9.
    temperature_C : float or ndarray
        Temperature [degC]; valid from 0 to 60.
    has_complexing_agents : bool or ndarray
        Whether ammonia, cyanide, citrate or the like bind the metal ions [-].
    is_biased : bool or ndarray
        Whether an outer source drives current through the joint [-].

    Returns
    -------
    ndarray of bool
        True where the branches may be used [-].

    Examples
    --------
    >>> is_valid(np.array([4.0, 7.0]), 25.0).tolist()
    [False, True]
    """
    acidity, temperature = np.asarray(pH), np.asarray(temperature_C)
    mild = (acidity >= VALID_PH[0]) & (acidity <= VALID_PH[1])
    mild &= (temperature >= VALID_TEMPERATURE[0]) & (temperature <= VALID_TEMPERATURE[1])
    return np.asarray(mild & ~np.asarray(has_complexing_agents) & ~np.asarray(is_biased), dtype=np.bool_)
