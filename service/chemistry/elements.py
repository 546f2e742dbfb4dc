"""Atomic weights of the elements that occur in engineering metals."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from service.chemistry.errors import UnknownElementError

ATOMIC_WEIGHTS: Mapping[str, float] = MappingProxyType(
    {
        "Ag": 107.8682,
        "Al": 26.9815384,
        "As": 74.921595,
        "Au": 196.966570,
        "B": 10.81,
        "Be": 9.0121831,
        "Bi": 208.98040,
        "C": 12.011,
        "Ca": 40.078,
        "Cd": 112.414,
        "Ce": 140.116,
        "Co": 58.933194,
        "Cr": 51.9961,
        "Cu": 63.546,
        "Fe": 55.845,
        "Ga": 69.723,
        "Gd": 157.25,
        "Hf": 178.486,
        "Hg": 200.592,
        "In": 114.818,
        "Ir": 192.217,
        "La": 138.90547,
        "Li": 6.94,
        "Mg": 24.305,
        "Mn": 54.938043,
        "Mo": 95.95,
        "N": 14.007,
        "Nb": 92.90637,
        "Nd": 144.242,
        "Ni": 58.6934,
        "O": 15.999,
        "P": 30.973761998,
        "Pb": 207.2,
        "Pd": 106.42,
        "Pt": 195.084,
        "Re": 186.207,
        "Rh": 102.90549,
        "Ru": 101.07,
        "S": 32.06,
        "Sb": 121.760,
        "Se": 78.971,
        "Si": 28.085,
        "Sm": 150.36,
        "Sn": 118.710,
        "Ta": 180.94788,
        "Te": 127.60,
        "Ti": 47.867,
        "U": 238.02891,
        "V": 50.9415,
        "W": 183.84,
        "Y": 88.905838,
        "Zn": 65.38,
        "Zr": 91.224,
    }
)
"""Atomic weights [g/mol]. Conventional values of T. Prohaska et al., Standard atomic weights of the
elements 2021 (IUPAC Technical Report), Pure Appl. Chem. 94 (2022) 573, doi
10.1515/pac-2019-0603, table 1 (from memory, checked against the package periodictable)."""


def atomic_weight(element: str) -> float:
    """Atomic weight of an element.

    Parameters
    ----------
    element : str
        Chemical symbol [-].

    Returns
    -------
    float
        Atomic weight [g/mol].

    Raises
    ------
    UnknownElementError
        If the element is not in the table.

    Examples
    --------
    >>> atomic_weight("Zn")
    65.38
    """
    try:
        return ATOMIC_WEIGHTS[element]
    except KeyError:
        raise UnknownElementError(element) from None
