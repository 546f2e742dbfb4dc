"""Pure metals that a text may mean as a base material or as a coat, solders, contact materials."""

from __future__ import annotations

import re

from service.callouts.designations.copper import PURE_COPPER
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Coat, MetalClass, Sense
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

_SOLDER_PARTS = r"(?:sn|pb|ag|cu|bi|sb|in)"


def _solder(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """Per cent of each element (ISO 9453): together one hundred, which thicknesses rarely are."""
    shares = [float(share) for share in re.findall(r"\d+(?:\.\d+)?", found.group())]
    if abs(sum(shares) - 100.0) > _ROUNDING_PCT:
        return None
    return lexicon.alloy(found.group(), f"S-{found.group()}") or Alloy((), "solder")


_ROUNDING_PCT = 0.6

PATTERNS: tuple[Pattern, ...] = (
    pattern(
        rf"(?:s-)?(?:{_SOLDER_PARTS} ?\d{{1,2}}(?:\.\d{{1,2}})?[ /-]?){{2,4}}(?<![ /-])",
        "sn pb bi in",
        _solder,
        "solder by composition",
    ),
)


def _pure(name: str, family: str, *options: str) -> MetalClass:
    return MetalClass(name, frozenset({family}), options, f"Is {name} the base material or a coat?")


METAL_OF_COAT: dict[str, MetalClass] = {
    "cu": PURE_COPPER,
    "ni": _pure("nickel", "nickel", "ni-200"),
    "zn": _pure("zinc", "zinc", "zn-pure", "zn-zamak5"),
    "sn": _pure("tin", "tin", "sn"),
    "ag": _pure("silver", "noble metal", "ag"),
    "au": _pure("gold", "noble metal", "au"),
    "pd": _pure("palladium", "noble metal", "pd"),
    "pt": _pure("platinum", "noble metal", "pt"),
    "rh": _pure("rhodium", "noble metal", "rh"),
    "ru": _pure("ruthenium", "noble metal", "ru"),
    "cr": _pure("chromium", "other metal", "cr"),
    "cd": _pure("cadmium", "other metal", "cd"),
    "pb": _pure("lead", "lead", "pb"),
    "in": _pure("indium", "solder", "indium"),
}
"""What a metal word means where it names the part itself and not its coat."""

SOLDER = MetalClass(
    "solder",
    frozenset({"solder"}),
    ("solder-sac305", "solder-sn63pb37", "solder-sn99cu07"),
    "Which solder alloy is it (leaded or lead-free)?",
)

PHRASES: dict[str, Sense] = (
    spelt(Coat("zn", is_bare_word=True), "zinc, zink, zn")
    | spelt(Coat("sn", is_bare_word=True), "tin, zinn, etain, sn, pure tin, 100 tin")
    | spelt(Coat("ag", is_bare_word=True), "silver, silber, argent, ag, fine silver, feinsilber")
    | spelt(Coat("au", is_bare_word=True), "gold, au")
    | spelt(Coat("pd", is_bare_word=True), "palladium, pd")
    | spelt(Coat("pt", is_bare_word=True), "platinum, platin, platine, pt")
    | spelt(Coat("rh", is_bare_word=True), "rhodium, rh")
    | spelt(Coat("ru", is_bare_word=True), "ruthenium, ru")
    | spelt(Coat("cr", is_bare_word=True), "chrome, chromium, chrom, cr")
    | spelt(Coat("cd", is_bare_word=True), "cadmium, kadmium, cad, cd")
    | spelt(Coat("in", is_bare_word=True), "indium")
    | spelt(Coat("pb", is_bare_word=True), "lead metal, lead sheet, blei, plomb, pb")
    | spelt(SOLDER, "solder, lot, loetzinn, brasure tendre, soudure etain")
    | spelt(
        MetalClass(
            "lead-free solder",
            frozenset({"solder"}),
            ("solder-sac305", "solder-sn99cu07"),
            "Which lead-free solder is it?",
        ),
        "lead free solder, pb free solder, bleifreies lot, sac solder, sac",
    )
    | spelt(
        MetalClass(
            "graphite",
            frozenset({"carbon"}),
            ("graphite", "graphite-foil"),
            "Is the graphite dense or a foil?",
        ),
        "graphite, graphit, carbon graphite",
    )
    | spelt(
        MetalClass(
            "carbon fibre", frozenset({"carbon"}), ("cfrp",), "Is the carbon-fibre part bare at its edges?"
        ),
        "carbon fibre laminate, carbon fiber laminate, carbon composite, cfrp, cfk, kohlefaser, "
        "fibre de carbone, carbon fibre, carbon fiber, cfc",
    )
    | spelt(
        MetalClass(
            "tungsten",
            frozenset({"refractory metal"}),
            ("w", "w-cu", "wc-co"),
            "Is it tungsten, tungsten-copper or carbide?",
        ),
        "tungsten alloy, wolframlegierung",
    )
)
