"""How a surface is named to a reader."""

from __future__ import annotations

from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface

_PROPER = frozenset({"Admiralty", "Muntz"})


@lru_cache(maxsize=8192)
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
    coats = " over ".join(coat_name(layer, catalogue) for layer in surface.layers)
    base = material.name if material else surface.basis_family
    if base:
        return f"{capitalised(base)} with {coats}" if coats else capitalised(base)
    return f"{capitalised(coats)} on an unstated base" if coats else "An unstated material"


def coat_name(layer: Layer, catalogue: Catalogue) -> str:
    """Name of a coat within a sentence, its thickness in front.

    Parameters
    ----------
    layer : Layer
    catalogue : Catalogue

    Returns
    -------
    str
    """
    name = in_sentence(catalogue.finishes[layer.finish_id].name)
    return name if layer.thickness_um is None else f"{layer.thickness_um:g} µm {name}"


def short_names(first: Surface, second: Surface, catalogue: Catalogue) -> tuple[str, str]:
    """Names of both sides within a sentence that has named them in full.

    Parameters
    ----------
    first, second : Surface
    catalogue : Catalogue

    Returns
    -------
    tuple of str
        The materials alone; where those are the same, the sides.
    """
    names = _short(first, catalogue), _short(second, catalogue)
    return ("the first side", "the second side") if names[0] == names[1] else names


@lru_cache(maxsize=8192)
def _short(surface: Surface, catalogue: Catalogue) -> str:
    material = catalogue.materials.get(surface.material_id or "")
    if material or surface.basis_family:
        return in_sentence((material.name if material else surface.basis_family).partition(",")[0])
    if surface.layers:
        return in_sentence(catalogue.finishes[surface.layers[0].finish_id].name.partition(",")[0])
    return "an unstated material"


def in_sentence(name: str) -> str:
    """Write a name as it stands within a sentence; abbreviations and proper names keep their capitals.

    Parameters
    ----------
    name : str

    Returns
    -------
    str
    """
    word = name.split(" ", 1)[0].rstrip(",")
    is_common = word[1:].replace("-", "").islower() and word not in _PROPER
    return name[:1].lower() + name[1:] if is_common else name


def capitalised(text: str) -> str:
    """Write a text as it stands at the head of a sentence.

    Parameters
    ----------
    text : str

    Returns
    -------
    str
    """
    return text[:1].upper() + text[1:]
