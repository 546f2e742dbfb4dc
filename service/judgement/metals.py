"""What turns a current density into a loss for each electrode of a catalogue."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Electrode
from service.chemistry.atmosphere import StandardMetal
from service.chemistry.faraday import equivalent_weight, penetration_rate, per_year
from service.judgement.measured import best_measurement, figure_of

MAGNESIUM_EFFICIENCY = 0.5
"""Magnesium loses about twice what the net current says (anodic hydrogen evolution; from memory)."""


@dataclass(frozen=True, slots=True)
class MetalFigures:
    """Loss figures of one electrode.

    ``um_per_year_per_A_per_m2`` is the mean penetration of one ampere per square metre all year
    round; ``None`` where the composition or the density is not known.
    """

    um_per_year_per_A_per_m2: float | None
    standard_metal: StandardMetal | None
    standard_factor: float
    pitting_low: float
    pitting_high: float
    decay_low: float
    decay_high: float
    is_magnesium: bool
    is_zinc: bool
    is_inert: bool
    density_measurement_id: str


@lru_cache(maxsize=16)
def metal_figures(catalogue: Catalogue) -> dict[str, MetalFigures]:
    """Loss figures of every electrode of a catalogue.

    Parameters
    ----------
    catalogue : Catalogue

    Returns
    -------
    dict of str to MetalFigures
        Penetration per current [um/y per A/m2], factors and exponents [-], by electrode identifier.
    """
    return {electrode.id: _figures(electrode, catalogue) for electrode in catalogue.electrodes.values()}


def _figures(electrode: Electrode, catalogue: Catalogue) -> MetalFigures:
    measured = best_measurement(electrode.representative_material_id, "density", catalogue)
    density = figure_of(measured) if measured else None
    return MetalFigures(
        um_per_year_per_A_per_m2=_penetration(electrode, catalogue, density),
        standard_metal=StandardMetal(electrode.iso9223_metal) if electrode.iso9223_metal else None,
        standard_factor=electrode.iso9223_factor or 1.0,
        pitting_low=electrode.pitting_factor_low or 1.0,
        pitting_high=electrode.pitting_factor_high or 1.0,
        decay_low=electrode.decay_exponent_low or 0.0,
        decay_high=electrode.decay_exponent_high or 0.0,
        is_magnesium=electrode.family == "magnesium",
        is_zinc=electrode.dissolution.startswith("Zn:"),
        is_inert=electrode.is_inert,
        density_measurement_id=measured.id if measured else "",
    )


def _penetration(electrode: Electrode, catalogue: Catalogue, density: float | None) -> float | None:
    material = catalogue.materials.get(electrode.representative_material_id)
    valences = _pairs(electrode.dissolution)
    if material is None or density is None or not valences:
        return None
    shares = {
        element: share for element, share in _pairs(material.composition).items() if element in valences
    }
    if not shares:
        return None
    weight = equivalent_weight(shares, {element: int(value) for element, value in valences.items()})
    metres_per_second = float(penetration_rate(1.0, weight, density))
    return float(per_year(metres_per_second)) * 1e6


def _pairs(text: str) -> dict[str, float]:
    """Read ``Al:3;Mg:2`` or ``Al 97.3;Mg 0.9`` into a mapping; entries without a figure are left out."""
    pairs = {}
    for part in text.replace(":", " ").split(";"):
        words = part.split()
        if len(words) == 2 and words[1].replace(".", "", 1).isdigit():  # noqa: PLR2004 - name and figure
            pairs[words[0]] = float(words[1])
    return pairs
