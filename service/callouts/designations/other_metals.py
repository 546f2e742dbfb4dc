"""Pure metals that a text may mean as a base material or as a coat, solders, contact materials."""

from __future__ import annotations

import re

from service.callouts.designations.copper import PURE_COPPER
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Coat, MetalClass, Sense
from service.callouts.patterns import Pattern, mentions, pattern
from service.callouts.phrases import spelt

_SOLDER_PARTS = r"(?:sn|pb|ag|cu|bi|sb|in)"


def _solder(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """Per cent of each element (ISO 9453): together one hundred, which thicknesses rarely are."""
    shares = [float(share) for share in re.findall(r"\d+(?:\.\d+)?", found.group())]
    if abs(sum(shares) - 100.0) > _ROUNDING_PCT:
        return None
    return lexicon.alloy(found.group(), f"S-{found.group()}") or Alloy((), "solder")


_ROUNDING_PCT = 0.6
_MAGNET = re.compile(r"(?<![^\W_])(?:magnet|aimant|neodym|ndfeb)")
_SOLDERING = re.compile(r"(?<![^\W_])(?:solder|lot(?![^\W_])|loet|soudure|brasure|etain)")


def _tin_lead(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    """Tin and lead in per cent beside the word solder: 60/40."""
    if not mentions(_SOLDERING, found.string):
        return None
    return lexicon.alloy(f"Sn{found['tin']}Pb{found['lead']}")


LEAD = MetalClass("lead", frozenset({"lead"}), ("pb", "pb-sb"), "Is it soft lead or antimonial lead?")

PATTERNS: tuple[Pattern, ...] = (
    pattern(
        rf"(?:s-)?(?:{_SOLDER_PARTS} ?\d{{1,2}}(?:\.\d{{1,2}})?[ /-]?){{2,4}}(?<![ /-])",
        "sn pb bi in",
        _solder,
        "solder by composition",
    ),
    pattern(
        r"n(?:30|33|35|38|40|42|45|48|50|52|54|55)(?:m|h|sh|uh|eh)?",
        "n3 n4 n5",
        lambda found, lexicon: lexicon.alloy("NdFeB") if mentions(_MAGNET, found.string) else None,
        "grade of a sintered magnet",
    ),
    pattern(r"lead(?=,? (?:painted|epoxy|powder coat|bare|cast))", "lea", lambda *_: LEAD, "lead"),
    pattern(
        r"(?:sn ?)?(?P<tin>63|62|60|50)[ /-]{1,2}(?:pb ?)?(?P<lead>37|36|40|50)",
        "63 62 60 50",
        _tin_lead,
        "tin-lead solder",
    ),
)


def _pure(name: str, family: str, *options: str) -> MetalClass:
    return MetalClass(name, frozenset({family}), options, f"Is {name} the base material or a coat?")


def _coloured(name: str, option: str) -> MetalClass:
    question = f"Is {name} the base material, a coat or only a colour?"
    return MetalClass(name, frozenset({"noble metal"}), (option,), question)


METAL_OF_COAT: dict[str, MetalClass] = {
    "cu": PURE_COPPER,
    "ni": _pure("nickel", "nickel", "ni-200"),
    "zn": _pure("zinc", "zinc", "zn-pure", "zn-zamak5"),
    "sn": _pure("tin", "tin", "sn"),
    "ag": _coloured("silver", "ag"),
    "au": _coloured("gold", "au"),
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
    | spelt(
        Coat("pt", is_bare_word=True),
        "platinum, platin, platine pur, fil platine, fil de platine, contact platine, pt",
    )
    | spelt(Coat("rh", is_bare_word=True), "rhodium, rh")
    | spelt(Coat("ru", is_bare_word=True), "ruthenium, ru")
    | spelt(Coat("cr", is_bare_word=True), "chrome, chromium, chrom, cr")
    | spelt(Coat("cd", is_bare_word=True), "cadmium, kadmium, cad, cd")
    | spelt(Coat("in", is_bare_word=True), "indium")
    | spelt(Coat("pb", is_bare_word=True), "lead metal, lead sheet, blei, plomb, pb")
    | spelt(
        LEAD,
        "lead ballast, lead weight, lead weights, lead keel, lead ingot, lead shot, lead pipe, lead "
        "flashing, lead alloy, lead brick, bleigewicht, bleiballast, lest plomb, lest en plomb, lead "
        "counterweight, ballast lead, counterweight lead, weight lead, keel lead",
    )
    | spelt(
        MetalClass("zinc anode", frozenset({"zinc"}), ("zn-pure",), "Which zinc alloy is the anode made of?"),
        "zinc anode, zinc anodes, zinkanode, zinkanoden, anode zinc, anode en zinc, anode zn, pencil zinc, "
        "zinc pencil anode, zinc hull anode, zinc shaft anode, zinc collar anode",
    )
    | spelt(
        MetalClass(
            "aluminium anode",
            frozenset({"wrought aluminium"}),
            ("al-anode-znin",),
            "Which aluminium alloy is the anode made of?",
        ),
        "aluminium anode, aluminum anode, aluminiumanode, anode aluminium, alu anode, anode alu, "
        "aluminum hull anode, aluminium hull anode",
    )
    | spelt(
        MetalClass(
            "magnesium anode",
            frozenset({"magnesium"}),
            ("mg-az63a", "mg-pure"),
            "Which magnesium alloy is the anode made of?",
        ),
        "magnesium anode, magnesiumanode, anode magnesium, mg anode",
    )
    | spelt(SOLDER, "solder, weichlot, loetzinn, brasure tendre, soudure etain")
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
