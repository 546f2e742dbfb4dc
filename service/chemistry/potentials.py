"""Reference electrodes: from a potential as published to V against SHE at its temperature, and back.

Sources disagree by a few millivolts, with and without a liquid junction. The value used and the
span of the published ones stand side by side. The temperature coefficients are isothermal: SHE is
zero at every temperature, and the coefficient of a cell with SHE kept at 25 degC is 0.87 mV/K
higher.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.errors import UnknownReferenceElectrodeError

REFERENCE_TEMPERATURE = 25.0
"""Temperature of the tabulated potentials [degC]."""

THERMAL_COEFFICIENT_OF_SHE = 0.87e-3
"""Thermal coefficient of SHE [V/K]; from memory: ASTM G3, table of reference potentials."""

_PAPER = "Reference Electrodes in Metal Corrosion, Int. J. Corrosion 2010, 756950, doi 10.1155/2010/756950"
_STANDARD = "ASTM G3, table of reference potentials and conversion factors (from memory)"


@dataclass(frozen=True, slots=True)
class ReferenceElectrode:
    """A reference electrode at 25 degC.

    ``potential_V`` is the value used and ``low_V`` to ``high_V`` the span of published ones, V vs
    SHE; ``coefficient_V_per_K`` is isothermal, not-a-number where unknown.
    """

    name: str
    potential_V: float
    low_V: float
    high_V: float
    coefficient_V_per_K: float
    source: str
    locator: str
    obtained: str
    note: str = ""


def _thermal(millivolts_per_kelvin: float) -> float:
    """Isothermal coefficient [V/K] of an electrode measured against SHE kept at 25 degC."""
    return 1e-3 * millivolts_per_kelvin - THERMAL_COEFFICIENT_OF_SHE


_ELECTRODES = (
    ReferenceElectrode("SHE", 0.0, 0.0, 0.0, 0.0, _PAPER, "table 2", "read", "zero by definition"),
    ReferenceElectrode(
        "SCE",
        0.241,
        0.241,
        0.247,
        _thermal(0.22),
        _PAPER,
        "table 2",
        "read",
        "0.244 V with a liquid junction; 0.247 V in one compilation",
    ),
    ReferenceElectrode(
        "calomel (1 M KCl)",
        0.2801,
        0.28,
        0.283,
        _thermal(0.59),
        _PAPER,
        "table 2",
        "read",
        "0.283 with junction",
    ),
    ReferenceElectrode(
        "calomel (0.1 M KCl)",
        0.3337,
        0.3337,
        0.336,
        _thermal(0.79),
        _PAPER,
        "table 2",
        "read",
        "0.336 with junction",
    ),
    ReferenceElectrode(
        "Ag/AgCl (sat. KCl)",
        0.197,
        0.197,
        0.199,
        -1.01e-3,
        _PAPER,
        "table 2",
        "read",
        "coefficient from memory; 0.222 V is the standard potential at unit activity, not this electrode",
    ),
    ReferenceElectrode(
        "Ag/AgCl (3 M KCl)",
        0.21,
        0.205,
        0.21,
        np.nan,
        "compilation of a consultant",
        "table",
        "read",
        "0.205 at 3.5 M",
    ),
    ReferenceElectrode(
        "Ag/AgCl (1 M KCl)",
        0.236,
        0.235,
        0.236,
        _thermal(0.25),
        _PAPER,
        "table 2",
        "read",
        "0.235 in ASTM G3",
    ),
    ReferenceElectrode(
        "Ag/AgCl (0.1 M KCl)",
        0.2895,
        0.288,
        0.2895,
        _thermal(0.22),
        _PAPER,
        "table 2",
        "read",
        "0.288 in ASTM G3",
    ),
    ReferenceElectrode(
        "Ag/AgCl (sea water)",
        0.25,
        0.25,
        0.25,
        _thermal(0.23),
        _STANDARD,
        "reference potentials",
        "from memory",
        "0.6 M chloride; coefficient between those at 0.1 M and 1 M",
    ),
    ReferenceElectrode(
        "Ag/AgCl (unspecified)",
        0.222,
        0.197,
        0.25,
        np.nan,
        "span of the fillings in use",
        "rows above",
        "computed",
        "the filling was not stated; the middle of saturated potassium chloride and sea water",
    ),
    ReferenceElectrode(
        "Cu/CuSO4 (sat.)",
        0.316,
        0.3,
        0.318,
        _thermal(0.90),
        _PAPER,
        "table 2",
        "read",
        "0.30 in ASTM G3, 0.318 in a compilation",
    ),
    ReferenceElectrode("Hg/HgO (0.1 M NaOH)", 0.165, 0.165, 0.165, np.nan, _PAPER, "table 2", "read"),
    ReferenceElectrode(
        "Hg/Hg2SO4 (1 M H2SO4)",
        0.6739,
        0.616,
        0.6739,
        np.nan,
        _PAPER,
        "table 2",
        "read",
        "0.616 V in ASTM G3 for a sulfuric acid filling: state which one",
    ),
    ReferenceElectrode(
        "Zn (sea water)",
        -0.78,
        -0.80,
        -0.77,
        np.nan,
        "cathodic protection practice",
        "",
        "from memory",
        "a corroding electrode, not a reversible one",
    ),
)

REFERENCE_ELECTRODES: Mapping[str, ReferenceElectrode] = MappingProxyType(
    {electrode.name: electrode for electrode in _ELECTRODES}
)
"""Reference electrodes by name."""

_OTHER_NAMES = MappingProxyType(
    {
        "0.1 N calomel": "calomel (0.1 M KCl)",
        "1 N calomel": "calomel (1 M KCl)",
        "CSE": "Cu/CuSO4 (sat.)",
        "Ag/AgCl": "Ag/AgCl (unspecified)",
        "Ag/AgCl sea water": "Ag/AgCl (sea water)",
        "Hg/HgO": "Hg/HgO (0.1 M NaOH)",
        "Hg/Hg2SO4": "Hg/Hg2SO4 (1 M H2SO4)",
    }
)


def reference_electrode(name: str) -> ReferenceElectrode:
    """A reference electrode by its name, or by another one in common use.

    Parameters
    ----------
    name : str
        Name [-].

    Returns
    -------
    ReferenceElectrode
        Its potential and what is known of it [V vs SHE].

    Raises
    ------
    UnknownReferenceElectrodeError
        If no electrode has this name.

    Examples
    --------
    >>> reference_electrode("CSE").potential_V
    0.316
    """
    found = REFERENCE_ELECTRODES.get(_OTHER_NAMES.get(name, name))
    if found is None:
        raise UnknownReferenceElectrodeError(name)
    return found


def to_she(
    potential_V: FloatLike, electrode: str, temperature_C: FloatLike = REFERENCE_TEMPERATURE
) -> FloatArray:
    r"""A potential against a reference electrode, against SHE at the same temperature.

    :math:`E_{SHE} = E + E_{ref} + \frac{dE_{ref}}{dT}(T - 25)`

    Parameters
    ----------
    potential_V : float or ndarray
        Potential against the electrode [V].
    electrode : str
        Name of the electrode [-].
    temperature_C : float or ndarray
        Temperature of both [degC].

    Returns
    -------
    ndarray
        Potential [V vs SHE].

    Raises
    ------
    UnknownReferenceElectrodeError
        If no electrode has this name.

    Notes
    -----
    An electrode without a known coefficient keeps its potential of 25 degC; the error is then up to
    1 mV for each kelvin.

    Examples
    --------
    >>> float(to_she(-0.75, "SCE").round(3)), float(to_she(-0.75, "SCE", 45.0).round(3))
    (-0.509, -0.522)

    References
    ----------
    ASTM G3; see the source of each electrode in ``REFERENCE_ELECTRODES``.
    """
    return np.asarray(potential_V + _shift(electrode, temperature_C), dtype=np.float64)


def from_she(
    potential_V: FloatLike, electrode: str, temperature_C: FloatLike = REFERENCE_TEMPERATURE
) -> FloatArray:
    r"""A potential against SHE, against a reference electrode at the same temperature.

    :math:`E = E_{SHE} - E_{ref} - \frac{dE_{ref}}{dT}(T - 25)`

    Parameters
    ----------
    potential_V : float or ndarray
        Potential [V vs SHE].
    electrode : str
        Name of the electrode [-].
    temperature_C : float or ndarray
        Temperature of both [degC].

    Returns
    -------
    ndarray
        Potential against the electrode [V].

    Raises
    ------
    UnknownReferenceElectrodeError
        If no electrode has this name.

    Examples
    --------
    >>> float(from_she(-0.509, "SCE").round(3))
    -0.75
    """
    return np.asarray(potential_V - _shift(electrode, temperature_C), dtype=np.float64)


def _shift(electrode: str, temperature_C: FloatLike) -> FloatArray:
    """Potential of an electrode at a temperature [V vs SHE]."""
    reference = reference_electrode(electrode)
    coefficient = float(np.nan_to_num(reference.coefficient_V_per_K))
    warmer = np.asarray(temperature_C, dtype=np.float64) - REFERENCE_TEMPERATURE
    return np.asarray(reference.potential_V + coefficient * warmer)
