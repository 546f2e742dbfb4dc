"""Paint, powder, electrocoat, primers, lubricants, conductive paint, and their specifications."""

from __future__ import annotations

import re

from service.callouts.finishes.decision import Decision, callout_of, certain, torn
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Callout, Clues, Coat, Foreign, Sense, Spec, Trait
from service.callouts.patterns import Pattern, mentions, pattern
from service.callouts.phrases import spelt

SYSTEM = "Which paint system is it (powder, electrocoat, wet paint), and over which pretreatment?"
JACKET = "Is the plastic fused to the metal like a powder coat, or a soft jacket that water can creep under?"
PRIMER = "Does the primer hold chromate?"


def decide_paint(coat: Coat, _clues: Clues) -> Decision:
    """Choose the organic coat."""
    if coat.process in _BY_PROCESS:
        return certain(_BY_PROCESS[coat.process])
    if coat.process == "plastic":
        return torn(JACKET, powder_coat=0.7, rubber_lining=0.3)
    if coat.process == "primer":
        return torn(PRIMER, epoxy_primer_ncr=0.4, epoxy_primer_zp=0.3, epoxy_primer_cr=0.3)
    return torn(SYSTEM, pu_topcoat=0.5, powder_coat=0.35, e_coat=0.15)


_BY_PROCESS = {
    "chromated primer": "epoxy-primer-cr",
    "chromate-free primer": "epoxy-primer-ncr",
    "zinc phosphate primer": "epoxy-primer-zp",
    "zinc-rich": "zn-rich-primer",
    "zinc silicate": "zn-silicate-primer",
    "polyurethane": "pu-topcoat",
    "mio": "epoxy-mio",
    "glass flake": "epoxy-glass-flake",
    "coil": "pvdf-coil",
    "lacquer": "acrylic-lacquer",
    "rubber": "rubber-lining",
    "enamel": "porcelain-enamel",
}


def _primer(clues: Clues) -> Callout:
    """MIL-PRF-23377 and -85582: class C with chromate, class N without (from memory)."""
    finish = {"c": "epoxy-primer-cr", "n": "epoxy-primer-ncr"}.get(clues.attribute("class")[:1])
    if finish is None and clues.has("chemistry", "cr3"):
        finish = "epoxy-primer-ncr"
    decision = certain(finish) if finish else torn(PRIMER, epoxy_primer_cr=0.5, epoxy_primer_ncr=0.5)
    return callout_of("primer", decision)


def _fixed(kind: str, finish: str) -> Spec:
    return Spec(finish, lambda _: callout_of(kind, certain(finish)))


def _iso_12944(clues: Clues) -> Callout | None:
    return (
        None
        if clues.kinds
        else callout_of("paint", certain("pu-topcoat", "paint system by corrosivity class"))
    )


_PAINT_SYSTEM = Spec("ISO 12944", _iso_12944)

SPECS: dict[str, Spec] = {
    "mil23377": Spec("MIL-PRF-23377", _primer),
    "mil85582": Spec("MIL-PRF-85582", _primer),
    "mil53022": _fixed("primer", "epoxy-primer-ncr"),
    "mil53030": _fixed("primer", "epoxy-primer-ncr"),
    "ttp1757": Spec(
        "TT-P-1757", lambda _: callout_of("primer", torn(PRIMER, epoxy_primer_ncr=0.5, epoxy_primer_zp=0.5))
    ),
    "mil85285": _fixed("paint", "pu-topcoat"),
    "mil64159": _fixed("paint", "pu-topcoat"),
    "mil53039": _fixed("paint", "pu-topcoat"),
    "mil24712": _fixed("powder", "powder-coat"),
    "aama2604": _fixed("powder", "powder-coat"),
    "en13438": _fixed("powder", "powder-coat"),
    "en12206": _fixed("powder", "powder-coat"),
    "iso12944": _PAINT_SYSTEM,
    "mil46010": _fixed("lube", "dry-film-lube"),
    "as5272": _fixed("lube", "dry-film-lube"),
}


def _ral(_found: re.Match[str], _: Lexicon) -> Sense:
    return Trait("paint", "colour code")


_METAL_OR_PAINT = re.compile(
    r"alu|\bal\b|steel|stahl|acier|coil|coat|paint|lack|peint|beschicht|ral|galv|verzinkt"
)


def _fluoropolymer(found: re.Match[str], _: Lexicon) -> Sense:
    """PVDF is a coat where there is a metal beneath, else a plastic."""
    return (
        Coat("paint", "coil") if mentions(_METAL_OR_PAINT, found.string) else Foreign(found.group().upper())
    )


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?<=[+/&] )powder|(?<=[+/&])powder|powder,? (?:ral ?\d{4}|black|white|grey|gray|blk)"
        r"|(?:black|white|ral ?\d{4}) powder(?! ?(?:coat|paint))",
        "pow",
        lambda *_: Coat("powder"),
        "powder coat",
    ),
    pattern(r"pvdf|kynar", "pvd kyn", _fluoropolymer, "fluoropolymer"),
    pattern(
        r"iso 12944(?:-\d)?[ /,-]{0,3}c[1-5x][mi]?(?:[ ,/-]{0,2}(?:vh|h|m|l|high|medium|low))?",
        "12944",
        lambda *_: _PAINT_SYSTEM,
        "paint system ISO 12944",
    ),
    pattern(
        r"ral ?-?\d{4}(?:-[a-z]{1,3})?|pantone ?[a-z0-9-]{2,8}|ncs ?s? ?\d{4}-[a-z0-9]{2,6}|fed-?std-?"
        r"595[a-z]?(?: ?\d{5})?",
        "ral pantone ncs 595",
        _ral,
        "paint colour",
    ),
)

PHRASES: dict[str, Sense] = (
    spelt(
        Coat("paint"),
        "painted, paint, painting, lackiert, lack, lackierung, peint, peinture, peinte, laque, laquee, "
        "laquage, spray painted, enamel paint, enamelled paint, anstrich, wet paint, wet painted, "
        "nasslackiert, texture paint, textured paint, carc, grundiert und lackiert, primed and painted, "
        "prime and paint, thermolaque peint, topcoat, top coat, decklack, paint finish, painted finish, "
        "baked enamel, enamel finish, epoxy paint, epoxy painted, epoxy coated, epoxy coating, bitumen, "
        "bitumen coated, bituminous paint, bituminous, bitumenanstrich, bituminiert, coal tar epoxy, coal "
        "tar, epoxidharz beschichtet, paint coated, polyester paint, epoxy, epoxid, epoxy finish, epoxy "
        "resin coated",
    )
    | spelt(
        Coat("paint", "polyurethane"),
        "polyurethane paint, polyurethane topcoat, pu topcoat, pur lack, polyurethan lack, pu lack, "
        "polyurethane top coat, polyurethane coating",
    )
    | spelt(
        Coat("paint", "plastic"),
        "pvc coated, nylon coated, plastic coated, vinyl coated, pe coated, polyamide coated, "
        "polyethylene coated, rilsan, rilsan coated, pa11 coated, plastic dipped, vinyl dipped, pvc dipped, "
        "plastisol, kunststoffbeschichtet, kunststoffummantelt, pvc ummantelt, pvc beschichtet, plastifie, "
        "gaine pvc, plastic coating, nylon coating, pvc coating, epdm coated, tpe coated, tpu coated",
    )
    | spelt(Coat("paint", "mio"), "micaceous iron oxide, mio epoxy")
    | spelt(Coat("paint", "glass flake"), "glass flake epoxy, glassflake")
    | spelt(
        Coat("paint", "coil"),
        "pvdf coated, pvdf paint, pvdf painted, pvdf coil, pvdf beschichtet, coil coated, coil coat, "
        "prepainted, pre painted, bandbeschichtet, prelaque, kynar 500, pvf2",
    )
    | spelt(
        Coat("lacquer", "lacquer"),
        "clear lacquer, clear lacquered, lacquered, lacquer, klarlack, vernis, varnish, varnished, clear "
        "coat, clearcoat, clear coated",
    )
    | spelt(
        Coat("primer", "primer"),
        "primer, primed, epoxy primer, grundiert, grundierung, primaire, appret, epoxy primed, "
        "wash primer, etch primer, apprete",
    )
    | spelt(
        Coat("primer", "chromated primer"),
        "zinc chromate primer, chromate primer, chromated primer, chromated epoxy primer, "
        "strontium chromate primer",
    )
    | spelt(
        Coat("primer", "chromate-free primer"),
        "chrome free primer, chromate free primer, non chromate primer, non chromated primer, "
        "non chrome primer",
    )
    | spelt(
        Coat("primer", "zinc phosphate primer"),
        "zinc phosphate primer, zinkphosphat grundierung, zinc phosphate epoxy primer",
    )
    | spelt(
        Coat("primer", "zinc-rich"),
        "zinc rich primer, zinc rich, zinc rich epoxy, zinc rich paint, zinkstaubfarbe, "
        "zinkstaub grundierung, zinkstaubgrundierung, zinc rich coating, peinture riche en zinc, "
        "cold galvanizing, cold galv, cold galvanized, zinc dust primer, kaltverzinkt",
    )
    | spelt(
        Coat("primer", "zinc silicate"),
        "inorganic zinc silicate, zinc silicate, inorganic zinc, zinc ethyl silicate, "
        "inorganic zinc primer, zinc silicate primer, zinksilikat",
    )
    | spelt(
        Coat("powder"),
        "powder coat, powder coated, powder coating, powdercoat, powdercoated, powder paint, powder "
        "painted, pulverbeschichtet, pulverbeschichtung, pulverlack, pulverlackiert, poudre epoxy, "
        "thermolaque, thermolaquage, poudre, poudre polyester, powder ct, pwdr coat, pwdr ct, pwdr coated, "
        "polyester powder, polyester powder coat, polyester powder coated, epoxy polyester powder, epoxy "
        "polyester powder coated, epoxy powder, epoxy powder coat, epoxy powder coated, pc black, p coat, "
        "pulver beschichtet, revetement poudre, peinture poudre, peinture epoxy poudre, peinture poudre "
        "epoxy, epoxy poudre, peinture polyester poudre, poudre epoxy polyester, laque poudre, powder "
        "finish, powd coat, einbrennlackiert pulver, powder coat finish, powder coating finish",
    )
    | spelt(
        Coat("ecoat"),
        "e coat, ecoat, e coated, ecoated, e coating, electrocoat, electro coat, electrocoated, "
        "cathodic electrocoat, ktl, kataphorese, kataphorese beschichtet, ktl beschichtet, cataphorese, "
        "cathodic dip paint, cathodic dip coating, electrophoretic paint, electrophoretic, ed coat, "
        "ed paint, edp, ced, cathodic epoxy, kathodische tauchlackierung, kataphorisch beschichtet, "
        "electro coating, e lack, tauchlackiert, electropaint, electropainted, cataphoresed, "
        "electrodeposition paint, cathodic electrodeposition, cation coating, cationic coating, "
        "cationic electrodeposition, cation coat, cationic paint, cation electrodeposition",
    )
    | spelt(
        Coat("lube"),
        "dry film lube, dry film lubricant, dry film lubricated, molybdenum disulfide, "
        "molybdenum disulphide, mos2, moly coated, moly lube, gleitlack, vernis de glissement, "
        "bonded lubricant, solid film lubricant, solid film lube, molykote, moly, moly disulfide, "
        "mos2 coated, film lubrifiant sec",
    )
    | spelt(
        Coat("ptfecoat"),
        "ptfe coated, ptfe coating, ptfe coat, teflon coated, teflon coating, teflon coat, "
        "ptfe beschichtet, revetement ptfe, xylan, xylan coated, fluoropolymer coated, "
        "fluoropolymer coating, ptfe beschichtung, teflonbeschichtet, fluoropolymer, xylan 1070, "
        "pfa coated, fep coated",
    )
    | spelt(Coat("parylene"), "parylene, parylene coated, parylene coating, parylen, parylene c")
    | spelt(
        Coat("lining", "rubber"),
        "rubber lined, rubber lining, gummiert, rubber coated, gummibeschichtet, caoutchoute",
    )
    | spelt(
        Coat("paint", "enamel"),
        "vitreous enamel, porcelain enamel, porcelain enamelled, emailliert, emaille, emaille vitrifie",
    )
    | spelt(Coat("nipaint"), "nickel paint, nickel acrylic, nickel conductive paint, conductive nickel paint")
    | spelt(
        Coat("cupaint"), "copper paint, copper conductive paint, conductive copper paint, silver copper paint"
    )
    | spelt(Coat("solgel"), "sol gel, solgel, sol gel coating, sol gel coated")
)
