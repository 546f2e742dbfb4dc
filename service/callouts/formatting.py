"""Surfaces written as drawing text, one notation per grammar; reading the text back gives the surface."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Designation
from service.catalogue.surfaces import Condition, Layer, Surface

PLAIN = "plain words"


@dataclass(frozen=True, slots=True)
class Notation:
    """A way of writing one finish. ``templates`` holds ``{code}`` where the thickness goes.

    ``codes`` translates the thickness in micrometres; without it the figure itself is written.
    ``basis_family`` is the base material that the notation implies.
    """

    name: str
    templates: Mapping[str, str]
    codes: Mapping[float, str] = field(default_factory=dict)
    basis_family: str = ""

    def text(self, layer: Layer) -> str | None:
        """Write one coat; ``None`` where the notation has no word for it."""
        template = self.templates.get(layer.finish_id)
        if template is None or ("{code}" in template) != (layer.thickness_um is not None):
            return None
        if layer.thickness_um is None:
            return template
        if not self.codes:
            return template.format(code=f"{layer.thickness_um:g}")
        code = self.codes.get(layer.thickness_um)
        return None if code is None else template.format(code=code)


STEEL = "carbon steel"
ALUMINIUM = "aluminium"

NOTATIONS: tuple[Notation, ...] = (
    Notation(
        "ISO 2081 and 19598",
        {
            "zn-plain": "Fe//Zn{code}//U",
            "zn-passivated-clear": "Fe//Zn{code}//An//T0",
            "zn-passivated-iridescent": "Fe//Zn{code}//Cn//T0",
            "zn-passivated-sealed": "Fe//Zn{code}//Cn//T2",
            "zn-chromate-olive": "Fe//Zn{code}//D",
            "zn-black": "Fe//Zn{code}//Fn//T2",
            "znni": "Fe//ZnNi(12){code}//An//T0",
            "znni-black": "Fe//ZnNi(12){code}//Fn//T2",
            "znfe": "Fe//ZnFe{code}//Cn//T2",
            "znco": "Fe//ZnCo{code}//An//T0",
        },
        basis_family=STEEL,
    ),
    Notation(
        "ISO 4042 legacy code",
        {
            "zn-passivated-clear": "ISO 4042/A{code}K",
            "zn-chromate-olive": "ISO 4042/A{code}M",
            "zn-black": "ISO 4042/A{code}T",
            "cd-yellow": "ISO 4042/B{code}L",
        },
        {3.0: "1", 5.0: "2", 8.0: "3", 12.0: "4", 15.0: "5", 20.0: "6", 25.0: "7"},
        STEEL,
    ),
    Notation(
        "ASTM B633",
        {
            "zn-chromate-yellow": "ASTM B633 Type II SC{code}",
            "zn-passivated-clear": "ASTM B633 Type III SC{code}",
            "zn-phosphate": "ASTM B633 Type IV SC{code}",
            "zn-passivated-iridescent": "ASTM B633 Type VI SC{code}",
        },
        {5.0: "1", 8.0: "2", 12.0: "3", 25.0: "4"},
        STEEL,
    ),
    Notation(
        "QQ-P-416",
        {
            "cd-clear": "QQ-P-416 Type I Class {code}",
            "cd-yellow": "QQ-P-416 Type II Class {code}",
            "cd-phosphate": "QQ-P-416 Type III Class {code}",
        },
        {12.7: "1", 7.6: "2", 5.1: "3"},
        STEEL,
    ),
    Notation(
        "EN 10346 coating mass",
        {"zn-hdg-sheet": "+Z{code}"},
        {7.0: "100", 9.8: "140", 14.0: "200", 19.3: "275", 24.5: "350"},
        STEEL,
    ),
    Notation(
        "ASTM B695",
        {"zn-mechanical": "ASTM B695 Class {code} Type I"},
        {float(um): str(um) for um in (5, 8, 12, 25, 40, 50, 55, 65, 70, 80, 110)},
        STEEL,
    ),
    Notation(
        "MIL-PRF-8625",
        {
            "anod-i": "MIL-PRF-8625 Type I Class 1",
            "anod-ic": "MIL-PRF-8625 Type IC Class 1",
            "anod-iib": "MIL-PRF-8625 Type IIB Class 1",
            "anod-ii-clear": "MIL-PRF-8625 Type II Class 1",
            "anod-ii-dyed": "MIL-PRF-8625 Type II Class 2",
            "anod-iii-hard": "MIL-PRF-8625 Type III Class 1",
        },
        basis_family=ALUMINIUM,
    ),
    Notation(
        "ISO 7599",
        {"anod-ii-clear": "clear anodised, AA{code}"},
        {5.0: "5", 10.0: "10", 15.0: "15", 20.0: "20", 25.0: "25"},
        ALUMINIUM,
    ),
    Notation(
        "MIL-DTL-5541",
        {
            "chem-film-1a": "MIL-DTL-5541 Type I Class 1A",
            "chem-film-3": "MIL-DTL-5541 Type I Class 3",
            "tcp-1a": "MIL-DTL-5541 Type II Class 1A",
            "tcp-3": "MIL-DTL-5541 Type II Class 3",
        },
        basis_family=ALUMINIUM,
    ),
    Notation(
        "ASTM B733",
        {
            "en-low": "ASTM B733 Type III SC{code}",
            "en-mid": "ASTM B733 Type IV SC{code}",
            "en-high": "ASTM B733 Type V SC{code}",
        },
        {5.0: "1", 13.0: "2", 25.0: "3", 75.0: "4"},
    ),
    Notation(
        "MIL-DTL-45204",
        {
            "au-hard-over-ni": "MIL-DTL-45204 Type II Grade C Class {code}",
            "au-soft": "MIL-DTL-45204 Type III Grade A Class {code}",
        },
        {0.508: "00", 0.762: "0", 1.27: "1", 2.54: "2", 5.08: "3"},
    ),
    Notation(
        "ASTM B700",
        {
            "ag-electro": "ASTM B700 Type 1 Grade A Class N {code} µm",
            "ag-ni-ag-passivated": "ASTM B700 Type 1 Grade A Class S {code} µm",
        },
    ),
    Notation(
        "ISO 2093",
        {"sn-matte": "Cu//Sn{code}m", "sn-bright": "Cu//Sn{code}b", "sn-reflow": "Cu//Sn{code}f"},
        basis_family="copper",
    ),
    Notation(
        "ISO 4527",
        {"en-low": "Fe/NiP(3){code}", "en-mid": "Fe/NiP(8){code}", "en-high": "Fe/NiP(11){code}"},
        basis_family=STEEL,
    ),
    Notation("ISO 6158", {"cr-hard": "Fe//Cr{code}hr"}, basis_family=STEEL),
    Notation(
        "ISO 10683", {"zn-flake": "flZnnc-480h", "zn-flake-chromate": "flZnyc-480h"}, basis_family=STEEL
    ),
    Notation("ASTM A967", {"ss-passivated": "ASTM A967"}, basis_family="stainless steel"),
)

_SYMBOLS = {
    "au-hard-over-ni": "hard Au",
    "au-soft": "soft Au",
    "au-flash-over-ni": "Au flash",
    "ag-electro": "Ag",
    "rh-electro": "Rh",
    "sn-over-ni": "Sn",
    "ni-matte-underplate": "Ni",
    "ni-sulfamate": "Ni",
    "ni-electro": "Ni",
    "cu-plate": "Cu",
}
"""Symbols of a stack. Which nickel is meant follows from the coat above it."""


def format_surface(surface: Surface, catalogue: Catalogue, notation: str = PLAIN) -> str | None:
    """Write a surface as drawing text; ``None`` where the notation cannot say it.

    Examples: ``EN AW-6082-T6; Hard anodise 50 µm``, ``8.8; Fe//Zn8//An//T0``.
    """
    finish = _finish_text(surface, catalogue, notation)
    if finish is None:
        return None
    parts = [_material_text(surface, catalogue), finish]
    if surface.condition is not Condition.INTACT:
        parts.append(surface.condition.value)
    return "; ".join(part for part in parts if part)


def notations_of(surface: Surface, catalogue: Catalogue) -> dict[str, str]:
    """Return the texts of all notations that can say a surface."""
    names = (PLAIN, STACK, *(notation.name for notation in NOTATIONS))
    texts = ((name, format_surface(surface, catalogue, name)) for name in names)
    return {name: text for name, text in texts if text}


STACK = "symbols of a stack"


def _finish_text(surface: Surface, catalogue: Catalogue, notation: str) -> str | None:
    if notation == PLAIN:
        return _plain(surface, catalogue)
    if notation == STACK:
        return _stack(surface)
    chosen = next(entry for entry in NOTATIONS if entry.name == notation)
    if len(surface.layers) != 1 or (
        surface.material_id is None and surface.basis_family != chosen.basis_family
    ):
        return None
    return chosen.text(surface.layers[0])


def _plain(surface: Surface, catalogue: Catalogue) -> str:
    if not surface.layers:
        return "bare"
    return "; ".join(
        f"{catalogue.finishes[layer.finish_id].name}{_amount(layer)}" for layer in surface.layers
    )


def _stack(surface: Surface) -> str | None:
    if not surface.layers or any(layer.finish_id not in _SYMBOLS for layer in surface.layers):
        return None
    return " over ".join(f"{_SYMBOLS[layer.finish_id]}{_amount(layer)}" for layer in surface.layers)


def _amount(layer: Layer) -> str:
    if layer.thickness_um is None:
        return ""
    high = "" if layer.thickness_max_um is None else f"-{layer.thickness_max_um:g}"
    return f" {layer.thickness_um:g}{high} µm"


def _material_text(surface: Surface, catalogue: Catalogue) -> str:
    if surface.material_id is None:
        return ""
    if surface.strength_class:
        return surface.strength_class
    names = _names(surface.material_id, catalogue)
    tempered = [row.text for row in names if surface.temper and row.text.endswith(surface.temper)]
    plain = [row.text for row in names if not row.note]
    chosen = (tempered or plain or [catalogue.materials[surface.material_id].name])[0]
    return chosen if tempered or not surface.temper else f"{chosen} {surface.temper}"


_SYSTEMS = ("EN number", "EN name", "UNS")
"""Systems whose names belong to one material only, in the order of preference."""


def _names(material_id: str, catalogue: Catalogue) -> list[Designation]:
    rows = [
        row
        for row in catalogue.designations
        if row.material_id == material_id and row.system in _SYSTEMS and "nearest" not in row.note
    ]
    return sorted(rows, key=lambda row: _SYSTEMS.index(row.system))
