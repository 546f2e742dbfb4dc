"""Words for colour, chemistry, gloss, sealing and other traits that help to decide a finish."""

from __future__ import annotations

import re

from service.callouts.finishes.decision import roman_free
from service.callouts.finishes.nickel import phosphorus_class
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Attribute, Bare, Coat, Process, Sense, Several, Trait, Wear, Zone
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt

_ATTRIBUTES = {
    word: name
    for name, words in {
        "type": ("type", "ty", "typ", "tp"),
        "class": ("class", "cl", "klasse", "classe"),
        "grade": ("grade", "gr"),
        "code": ("code",),
        "condition": ("sc", "service condition", "service class"),
    }.items()
    for word in words
}


def _attribute(found: re.Match[str], _: Lexicon) -> Sense:
    return Attribute(_ATTRIBUTES[found["word"]], roman_free(found["value"]))


_COLOUR_METALS = (
    r"rose gold|gold|silver|silber|argent|bronze|brass|messing|laiton|copper|kupfer|cuivre|chrome?|nickel|"
    r"titanium|titan|platinum|gun ?metal|steel|stainless(?: steel)?|edelstahl|inox|alumini?um|alu|zinc|zink"
)

PATTERNS: tuple[Pattern, ...] = (
    pattern(
        rf"(?:{_COLOUR_METALS})(?:[ -]?(?:farben|farbig|optik|look)|[ -](?:colou?r(?:ed)?|effect|tone|grey|"
        rf"gray|like|style|imitation))|(?:couleur|aspect|effet|imitation) (?:{_COLOUR_METALS})"
        r"|(?:bronze|gun ?metal|champagne)(?= (?:powder|anodi[sz](?:ed?|ing)|eloxiert|paint|pulver))",
        "col far opt loo eff ton gre gra lik sty imi cou asp bro gun cha",
        lambda *_: Trait("colour", "dyed"),
        "colour named after a metal",
    ),
    pattern(
        r"(?P<word>type|typ|ty|tp|classe?|klasse|cl|grade|gr|code|service condition|service class|sc)"
        r"[ .:#-]{0,3}"
        r"(?P<value>(?<=class )110|i{1,3}[abc]?|iv|vi{0,3}|ix|\d{1,2}(?:\.\d{1,2})?[abcn]?|"
        r"[a-hmnsz]\d?(?![^\W_]))",
        "ty tp cl kl gr code sc service",
        _attribute,
        "type, class or grade",
    ),
    pattern(
        r"(?:cr|chrome?|chromium)[ -]{0,2}\(?(?:6|vi)\)?[ +-]{0,2}(?:free|frei)|(?:hex(?:avalent)?|cr6?|"
        r"chrome?|chromate|chrom|hex chrome|hexavalent chrome|hexavalent chromium)[ -]?(?:free|frei)|"
        r"non[ -]?(?:hex(?:avalent)?(?: chrome?(?:ium)?)?|chromated?)|(?:sans|ohne|no|without) (?:chrome?"
        r" ?(?:vi|6|hexavalent)?|cr ?\(?(?:vi|6)\)?|hex(?:avalent)? chrome?)|crvi ?-?frei",
        "free frei non sans ohne no without",
        lambda *_: Trait("chemistry", "cr3"),
        "free of hexavalent chromium",
    ),
    pattern(
        r"(?:trivalent(?:e)?|cr ?-?(?:3\+?|iii))[ -]?(?:chromated?|passivated?|passivation|conversion)",
        "cr tri",
        lambda *_: Several((Coat("chromate"), Trait("chemistry", "cr3"))),
        "trivalent chromate",
    ),
    pattern(
        r"(?:hexavalent(?:e)?|hex|cr ?-?(?:6\+?|vi))[ -]?(?:chromated?|passivated?|passivation|conversion)",
        "cr hex",
        lambda *_: Several((Coat("chromate"), Trait("chemistry", "cr6"))),
        "hexavalent chromate",
    ),
    pattern(
        r"cr ?-?(?:3\+?|iii|\(iii\)|\(3\)|\+3)|trivalent(?:e|es)?(?: chrome?(?:ium|ate)?)?|chrome? ?-?(?"
        r":iii|3)|dreiwertig(?:es)?(?: chrom)?|tri[ -]?(?:chrome|chromate)|trivalent passivate|tcp|type ?"
        r"2 trivalent",
        "cr tri chrom drei tcp",
        lambda *_: Trait("chemistry", "cr3"),
        "trivalent chromium",
    ),
    pattern(
        r"cr ?-?(?:6\+?|vi|\(vi\)|\(6\)|\+6)|hexavalent(?:e)?(?: chrome?(?:ium|ate)?)?|chrome? ?-?(?:vi|6)"
        r"|sechswertig(?:es)?(?: chrom)?",
        "cr hex chrom sechs",
        lambda *_: Trait("chemistry", "cr6"),
        "hexavalent chromium",
    ),
    pattern(
        r"(?P<level>low|mid(?:dle|ium)?|medium|med|high|hi|niedrig|mittel|hoch)[ -]?(?:phos(?:phorus|phor)"
        r"?|p(?:hosphorous)?|phosphorhaltig)",
        "pho -p",
        lambda found, _: Trait(
            "phosphorus", {"l": "low", "n": "low", "m": "mid", "h": "high"}[found["level"][0]]
        ),
        "phosphorus content",
    ),
    pattern(
        r"(?P<low>\d{1,2})(?: ?- ?(?P<high>\d{1,2}))? ?% ?(?:p|phos(?:phorus|phor)?)",
        "%",
        lambda found, _: Trait(
            "phosphorus", phosphorus_class((float(found["low"]) + float(found["high"] or found["low"])) / 2.0)
        ),
        "phosphorus content",
    ),
)

PHRASES: dict[str, Sense] = (
    spelt(
        Trait("colour", "clear"),
        "clear, clr, colourless, colorless, transparent, klar, farblos, incolore, silver finish, "
        "silver colour, silver color, clear colour, uncolored, undyed, clear passivate, "
        "clear passivated, clear chromate, weiss, blanc, white chromate, farblos passiviert, "
        "weiss passiviert, transparent passiviert, silverwhite, ungefaerbt",
    )
    | spelt(
        Trait("colour", "natural"),
        "natural, naturfarben, natur, naturel, naturelle, nat, nature",
    )
    | spelt(
        Trait("colour", "blue"),
        "blue, blau, bleu, bluish, blaupassiviert, blau passiviert, blue white, blue passivate, "
        "blue passivated, blauchromatiert, blau chromatiert, dickschichtpassiviert blau, blue chromate, "
        "bright blue, blaupassivierung, blue clear, clear blue, bleute",
    )
    | spelt(
        Trait("colour", "yellow"),
        "yellow, yel, ylw, dichromate, dichromated, bichromate, bichromatee, dichromat, gelb, jaune, "
        "yellow chromate, yellow passivate, yellow passivated, gelbpassiviert, gelb passiviert, "
        "bichromate jaune, yellow colour, yellow color, gelbe passivierung, goldfarben, gold color, "
        "gold colour, yellow chrome",
    )
    | spelt(
        Trait("colour", "iridescent"),
        "iridescent, irisierend, irise, irisee, clear iridescent, rainbow, dickschichtpassiviert, "
        "dickschichtpassivierung, thick film passivated, thick film passivate, thick layer passivation, "
        "iridescente, irid, dickschicht passiviert",
    )
    | spelt(
        Trait("colour", "olive"),
        "olive, olive drab, od, o d, oliv, oliv chromatiert, olivchromatiert, vert olive, olive green, "
        "od green, green chromate, drab, olive chromate, oliv passiviert, olive passivate",
    )
    | spelt(
        Trait("colour", "black"),
        "black, blk, bk, schwarz, noir, noire, sw, black chromate, black passivate, black passivated, "
        "schwarz passiviert, schwarzpassiviert, schwarz chromatiert, schwarzchromatiert, blck, "
        "black passivation, blk chromate, jet black, matt black, matte black, flat black, satin black, "
        "gloss black, black matte, black color, black colour",
    )
    | spelt(
        Trait("colour", "dyed"),
        "dyed, red, rot, rouge, green, gruen, vert, gray, grey, grau, gris, orange, purple, violet, "
        "champagne, gefaerbt, eingefaerbt, teinte, colored, coloured, blue dyed, bronze tone, brown, "
        "braun, dark bronze, gunmetal grey",
    )
    | spelt(
        Trait("chemistry", "rohs"),
        "rohs, rohs compliant, rohs conform, rohs konform, conforme rohs, reach, reach compliant, rohs2, "
        "rohs 2, rohs compl",
    )
    | spelt(
        Trait("seal", "sealed"),
        "sealer, with sealer, sealed passivation, versiegelt, versiegelung, plus sealer, "
        "und versiegelung, topcoat sealer, thin film sealer, finigard, jeu, finition scellee, "
        "organic sealer, with seal, sealant coat, passivated and sealed, silicate sealed, "
        "silicate sealer, sealing",
    )
    | spelt(
        Trait("seal", "anodic"),
        "sealed, seal, verdichtet, colmate, colmatage, hot water seal, hot water sealed, "
        "nickel acetate seal, nickel acetate sealed, dichromate seal, dichromate sealed, di water seal, "
        "water sealed, nickel acetate, teflon seal, nickel seal, di seal, verdichtung, hot water, "
        "dichromate sealing",
    )
    | spelt(
        Trait("seal", "none"),
        "unsealed, not sealed, no seal, unverdichtet, ohne versiegelung, without sealer, non colmate, "
        "without sealing, do not seal, unversiegelt",
    )
    | spelt(
        Trait("gloss", "matte"),
        "matte, matt, mat, dull, low gloss, matte finish, matt finish, low stress, non bright",
    )
    | spelt(
        Trait("gloss", "bright"),
        "bright, glaenzend, brillant, brillante, glanz, polished bright, glossy, bright finish, "
        "hochglanz, gloss, lustrous, bright acid, brt",
    )
    | spelt(
        Trait("gloss", "semi-bright"),
        "semi bright, semibright, halbglanz, satin bright, semi brillant, halbglaenzend, semi gloss",
    )
    | spelt(Trait("gloss", "satin"), "satin, seidenmatt, satine, satin finish, velour, seidenglanz")
    | spelt(
        Trait("tin", "reflow"),
        "reflow, reflowed, re flowed, flow brightened, hot oil reflow, fused, refondu, "
        "post plate reflow, reflow treated",
    )
    | spelt(
        Trait("tarnish", "protected"),
        "anti tarnish, antitarnish, anti tarnished, tarnish resistant, anlaufgeschuetzt, anlaufschutz, "
        "tarnish protection, anti ternissement, tarnish inhibitor, non tarnish, tarnish inhibited, "
        "tarnish protected, anti tarnish treatment",
    )
    | spelt(
        Several((Coat("ni"), Trait("nickel", "duplex"))),
        "duplex nickel, double nickel, doppelnickel, nickel duplex, nickel double, nid",
    )
    | spelt(
        Trait("chrome", "microcracked"),
        "microcracked, micro cracked, mikrorissig, microfissure, micro porous, microporous, mikroporig, "
        "microfissured",
    )
    | spelt(
        Trait("filler", "ptfe"),
        "ptfe impregnated, ptfe filled, with ptfe, teflon impregnated, nituff, ptfe co deposit, "
        "composite ptfe, impregnated ptfe, teflon infused",
    )
    | spelt(
        Trait("treatment", "none"),
        "no chromate, without chromate, no supplementary treatment, ohne passivierung, unpassiviert, "
        "not passivated, unchromated, no passivate, no passivation, non passive, as plated, "
        "as zinc plated, nicht passiviert, without passivation",
    )
    | spelt(Trait("hardness", "hard"), "hard, hart, cobalt hardened, co hardened, nickel hardened, hardened")
    | spelt(
        Trait("hardness", "soft"),
        "soft, weich, wire bondable, bondable, 24k, 24 k, 24kt, 24 karat, 99.9, 99.99, 99.9 pure, 999",
    )
    | spelt(
        Trait("solder", "lead-free"),
        "lead free, leadfree, pb free, pbfree, bleifrei, sans plomb, no lead, unleaded, pb frei, "
        "lead free finish",
    )
    | spelt(Trait("solder", "leaded"), "leaded, bleihaltig, with lead")
    | spelt(
        Trait("form", "wire"),
        "wire, draht, fil, braid, litze, stranded, geflecht, tresse, conductor, conductors, cable, "
        "kabel, cable shield, strand, wires, schirmgeflecht, hookup wire, coax, schaltdraht",
    )
    | spelt(
        Trait("form", "sheet"),
        "sheet, sheet metal, sheetmetal, blech, tole, coil, strip, band, feinblech blech, plate stock, "
        "sht, sheets, panel, platte, bleche",
    )
    | spelt(
        Process("plated", is_weak=False),
        "plated, pltd, plt, platd, plt d, electroplated, eplated, e plated, coated, beschichtet, "
        "ueberzogen, revetu, revetue, plaque, plaquee, electrodeposited, plattiert, plated with, "
        "coated with, overplated, preplated, pre plated, galv beschichtet, metallized, metallised",
    )
    | spelt(
        Process("finish", is_weak=True),
        "plate, plating, pl, pltg, plat, electroplate, electroplating, galvanisch, galvanische, "
        "galvanik, overplate, over plate, coating, coat, finish, fin, finished, oberflaeche, oberfl, "
        "beschichtung, revetement, traitement, traitement de surface, surface treatment, treated, "
        "treatment, surface finish, surf finish, ueberzug, finition, oberflaechenbehandlung, surface, "
        "protective finish, behandelt, traite, protective coating, oberflaechenschutz, metallic coating, "
        "deposit, depot",
    )
    | spelt(
        Bare(),
        "bare, uncoated, unplated, unfinished, no finish, no plating, no coating, plain, plain finish, "
        "blank, walzblank, unbehandelt, unbeschichtet, ohne oberflaeche, ohne beschichtung, "
        "ohne oberflaechenbehandlung, roh, brut, brute, sans traitement, sans revetement, mill finish, "
        "as machined, finish none, no treatment, untreated, self colour, self color, self finish, "
        "self colored, nu, raw, oberflaeche blank, bare metal, bare finish, bare material, "
        "sans finition, unpainted, blank gezogen, sc self colour, plain steel finish, selfcolour, "
        "metallisch blank, mill, mill finished, natural finish, as rolled, raw finish, finish natural, "
        "blankgezogen, brut de laminage, as cast, as extruded, as received, pressblank, plain no finish, "
        "finition brute, none required",
    )
    | spelt(
        Wear("worn"),
        "worn, abraded, verschlissen, abgenutzt, usee, rubbed through, worn off, worn through, "
        "abgerieben, verschleiss",
    )
    | spelt(
        Wear("damaged"),
        "damaged, scratched, chipped, beschaedigt, verkratzt, raye, rayee, endommage, endommagee, "
        "scored, gouged, cut edge, schnittkante, cut edges, tranche nue, zerkratzt, abgeplatzt",
    )
    | spelt(
        Zone("contact"),
        "contact area, contact zone, mating area, mating end, contact side, kontaktbereich, kontaktzone, "
        "contact surface, mating side, mating surface, steckbereich, contact interface, "
        "mating interface, contact end, zone de contact, contact region, sel, selective, selektiv, "
        "selective plating, contact area plating, mating portion, mating zone, at contact, on contact, "
        "on contacts, on contact area, in contact area",
    )
    | spelt(
        Zone("tail"),
        "tail, tails, solder tail, solder tails, termination, terminations, termination area, "
        "solder area, solder end, loetbereich, loetseite, loetanschluss, anschlussbereich, solder side, "
        "terminal end, queue, soldertail, soldertails, pc tails, solder leg, solder zone, on tail, "
        "on tails, tail area, pcb end, termination end, solder termination, einpresszone, crimp area",
    )
    | spelt(
        Several((Coat("chromate"), Trait("colour", "clear"))),
        "clear chromate, white chromate, clear chromated, chromate clear",
    )
    | spelt(
        Several((Coat("chromate"), Trait("colour", "blue"))),
        "blue chromate, blauchromatiert, blau chromatiert",
    )
    | spelt(
        Several((Coat("chromate"), Trait("colour", "yellow"))),
        "yellow chromate, yellow chromated, gelb chromatiert, gelbchromatiert, chromate yellow",
    )
    | spelt(
        Several((Coat("chromate"), Trait("colour", "olive"))),
        "olive chromate, green chromate, oliv chromatiert, olivchromatiert",
    )
    | spelt(
        Several((Coat("chromate"), Trait("colour", "black"))),
        "black chromate, blk chromate, schwarz chromatiert, schwarzchromatiert",
    )
)
