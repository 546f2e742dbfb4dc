"""Electrode kinetics: the partial currents of one surface state, anchored at its corrosion potential.

A state (active, passive, pitting, ennobled) has one anodic branch that never falls and one
cathodic branch that never rises with potential, so its net current crosses zero once. Parameters
meet at the corrosion potential and never at an exchange current: whatever sample is drawn, the
net current there is exactly zero.

Current densities are positive numbers for both partial currents; the net current density is the
anodic minus the cathodic one. Potentials are V vs SHE.
"""

from __future__ import annotations

import numpy as np

from service.chemistry.anchoring import anchor
from service.chemistry.arrays import BoolArray, BoolLike, FloatArray, FloatLike
from service.chemistry.branches import PARAMETERS, Branches, stack

__all__ = [
    "Branches",
    "anodic_current_density",
    "cathodic_current_density",
    "integral_of_net_current",
    "is_valid",
    "net_current_density",
    "net_current_slope",
    "stack",
]

VALID_PH = (5.0, 9.0)
"""Acidity in which the branches hold [-]."""

VALID_TEMPERATURE = (0.0, 60.0)
"""Temperature in which the branches hold [degC]."""


def _evaluated(
    potential: FloatLike, branches: Branches
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Both partial currents, integral and slope of the net one, for any shapes that broadcast."""
    shapes = (np.shape(getattr(branches, name)) for name in PARAMETERS)
    full = np.broadcast_shapes(np.shape(potential), *shapes)
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
