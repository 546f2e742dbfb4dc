"""How a surface is named to a reader."""

from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface


def surface_name(surface: Surface, catalogue: Catalogue) -> str:
    """Name of a surface, material first, then its coats from the outside in.

    Parameters
    ----------
    surface : Surface
    catalogue : Catalogue

    Returns
    -------
    str
    """
    material = catalogue.materials.get(surface.material_id or "")
    base = material.name if material else surface.basis_family or "an open basis material"
    coats = []
    for layer in surface.layers:
        finish = catalogue.finishes[layer.finish_id]
        thickness = f" {layer.thickness_um:g} um" if layer.thickness_um is not None else ""
        coats.append(f"{finish.name}{thickness}")
    return f"{base} with {' over '.join(coats)}" if coats else base
