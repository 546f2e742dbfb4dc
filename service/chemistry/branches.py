"""Parameters of one electrode state, and how many electrodes and lanes are put together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np

from service.chemistry.arrays import BoolLike, FloatLike, flat_rows, lanes_behind_first, take


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
    >>> gold = Branches(0.39, 1e-5, 0.06, 0.12, 0.3, passive=True)
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


PARAMETERS = tuple(field.name for field in fields(Branches))
"""Names of the fields of ``Branches``."""


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
    for name in PARAMETERS:
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
    values = [*(getattr(branches, name) for name in PARAMETERS), *others]
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
    return Branches(**{name: take(getattr(branches, name), block) for name in PARAMETERS})
