"""Tensile strength of what carries a surface: the class stated on it outranks its alloy."""

from __future__ import annotations

import re
from types import MappingProxyType

from service.catalogue.records import Material
from service.catalogue.surfaces import Surface

CLASS_MPA = MappingProxyType(
    {
        "4.6": 400.0,
        "4.8": 420.0,
        "5.6": 500.0,
        "5.8": 520.0,
        "6.8": 600.0,
        "8.8": 830.0,
        "9.8": 900.0,
        "10.9": 1040.0,
        "12.9": 1220.0,
        "SAE grade 2": 510.0,
        "SAE grade 5": 830.0,
        "SAE grade 8": 1040.0,
    }
)
"""Least tensile strength by property class (ISO 898-1) and grade (SAE J429), from memory."""

_ISO_3506 = re.compile(r"[ACFD]\w*-(\d{2,3})")
"""Stainless fasteners state a tenth of their least tensile strength: A4-80, C1-110 (ISO 3506)."""


def strength_MPa(surface: Surface, material: Material | None) -> float | None:
    """Tensile strength of the base of a surface.

    Parameters
    ----------
    surface : Surface
        May state a property class.
    material : Material or None
        Its base, with a typical strength [MPa].

    Returns
    -------
    float or None
        Strength [MPa]; ``None`` where neither a known class nor the alloy gives one.

    Examples
    --------
    >>> strength_MPa(Surface("steel-s235", strength_class="10.9"), None)
    1040.0
    >>> strength_MPa(Surface("ss-316", strength_class="A4-80"), None)
    800.0
    """
    stated = CLASS_MPA.get(surface.strength_class)
    if stated is not None:
        return stated
    stainless = _ISO_3506.fullmatch(surface.strength_class)
    if stainless:
        return 10.0 * float(stainless[1])
    return material.strength_MPa if material else None
