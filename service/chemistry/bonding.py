"""Published limits for the resistance of an electrical bond.

A limit says what was asked of a kind of joint, not what a joint needs: the project's own requirement and the
local code come first. All of these are direct-current figures; at radio frequency the inductance of the path
usually decides.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.chemistry.arrays import BoolArray, FloatLike
from service.chemistry.requirements import require


@dataclass(frozen=True, slots=True)
class BondLimit:
    """One published limit, in ohm, with where it stands and how it was obtained."""

    name: str
    limit_ohm: float
    purpose: str
    source: str
    obtained: str


BOND_LIMITS = (
    BondLimit(
        name="aerospace class R",
        limit_ohm=2.5e-3,
        purpose="radio-frequency bond of equipment to structure",
        source="MIL-B-5087B (withdrawn); carried on in MIL-STD-464 and NASA-STD-4003",
        obtained="read in a reproduction (trade article on the origin of the 2.5 milliohm requirement)",
    ),
    BondLimit(
        name="aerospace class H",
        limit_ohm=0.1,
        purpose="shock hazard of conductive frames",
        source="MIL-B-5087B (withdrawn)",
        obtained="from memory",
    ),
    BondLimit(
        name="aerospace class S",
        limit_ohm=1.0,
        purpose="static charge of conductive items",
        source="MIL-B-5087B (withdrawn); NASA-STD-4003",
        obtained="from memory",
    ),
    BondLimit(
        name="structural continuity",
        limit_ohm=1.0,
        purpose="electrical continuity across a mechanical interface of a satellite",
        source="Sandia National Laboratories, mechanical specification on electrical bonding",
        obtained="read",
    ),
    BondLimit(
        name="appliance earth",
        limit_ohm=0.1,
        purpose="earth terminal to accessible metal of a household appliance",
        source="IEC 60335-1, clause 27.5",
        obtained="from memory",
    ),
    BondLimit(
        name="connector contact change",
        limit_ohm=10e-3,
        purpose="rise of the low-level resistance of a signal contact in qualification",
        source="product specifications tested by EIA-364-23",
        obtained="from memory",
    ),
)


def meets_bond_limit(resistance_ohm: FloatLike, limit: BondLimit) -> BoolArray:
    """Whether a resistance lies at or below a published limit.

    Parameters
    ----------
    resistance_ohm : float or ndarray
        Resistance of the bond, zero or more [ohm].
    limit : BondLimit
        One of :data:`BOND_LIMITS` or one's own [-].

    Returns
    -------
    ndarray of bool
        True where it is met [-].

    Raises
    ------
    OutOfRangeError
        For a resistance that is negative or not a number.

    Notes
    -----
    The resistance of a clean contact on the first day is not that of the bond in service.

    Examples
    --------
    >>> bool(meets_bond_limit(1.1e-4, BOND_LIMITS[0]))
    True

    References
    ----------
    The ``source`` of each limit.
    """
    resistance = np.asarray(resistance_ohm, dtype=np.float64)
    require(resistance >= 0.0, "resistance_ohm", "0 or more")
    return np.asarray(resistance <= limit.limit_ohm)
