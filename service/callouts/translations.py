"""Words of the trade in Spanish, Italian, Portuguese and Dutch, each with an English one that it stands for.

English, German and French stand beside the grammars themselves. What a foreign word means is looked up
there, so that it is read with every doubt that the English one has (from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from service.callouts.marks import Aside, Sense
from service.callouts.phrases import spelt

_WORDS: Mapping[str, str] = {
    "steel": "acero, acciaio, aco, staal",
    "carbon steel": (
        "acero al carbono, acero carbono, acero dulce, acero de construccion, acero estructural, "
        "acciaio al carbonio, acciaio dolce, acciaio da costruzione, aco carbono, koolstofstaal, "
        "constructiestaal"
    ),
    "alloy steel": "acero aleado, acciaio legato, aco ligado, aco liga, gelegeerd staal",
    "spring steel": (
        "acero de resorte, acero para muelles, acciaio per molle, acciaio armonico, aco mola, verenstaal"
    ),
    "stainless steel": (
        "acero inoxidable, acero inox, inoxidable, acciaio inox, acciaio inossidabile, inossidabile, aco "
        "inox, "
        "aco inoxidavel, inoxidavel, rvs, roestvast staal, roestvrij staal, roestvrijstaal, roestvaststaal"
    ),
    "aluminium": (
        "aluminio, alluminio, aluminio extruido, aluminio extruso, lega di alluminio, aluminiumprofiel"
    ),
    "cast aluminium": (
        "aluminio fundido, fundicion de aluminio, alluminio pressofuso, pressofusione di alluminio, "
        "aluminio injetado, gegoten aluminium"
    ),
    "brass": "laton, ottone, latao",
    "bronze": "bronce, bronzo, brons",
    "copper": "cobre, rame, koper",
    "lead weight": "plomo, piombo, chumbo, lood",
    "titanium": "titanio, titaan",
    "cast iron": "hierro fundido, fundicion, fundicion gris, ghisa, ferro fundido, gietijzer",
    "galvanized": (
        "galvanizado, galvanizada, galvanizados, galvanizadas, cincado, cincada, cincados, cincadas, "
        "zincado, "
        "zincada, zincados, zincadas, zincato, zincata, zincati, zincate, galvanizzato, galvanizzata"
    ),
    "hot dip galvanized": (
        "galvanizado en caliente, galvanizado por inmersion, zincato a caldo, zincata a caldo, "
        "galvanizzato a caldo, galvanizado a fogo, thermisch verzinkt"
    ),
    "electroplated zinc": (
        "zincado electrolitico, cincado electrolitico, zincado galvanico, zincatura elettrolitica, "
        "zincato elettrolitico, zincado eletrolitico, elektrolytisch verzinkt"
    ),
    "vernickelt": (
        "niquelado, niquelada, niquelados, niqueladas, nichelato, nichelata, nichelati, nichelate, vernikkeld"
    ),
    "verchromt": "cromado, cromada, cromados, cromadas, cromato, cromata, cromati, cromate, verchroomd",
    "tinned": "estanado, estanada, estanados, estanhado, stagnato, stagnata, vertind",
    "anodised": (
        "anodizado, anodizada, anodizados, anodizadas, anodizzato, anodizzata, anodizzati, anodizzate, "
        "geanodiseerd, geanodiseerde"
    ),
    "hard anodised": "anodizado duro, anodizzato duro, hardgeanodiseerd, hard geanodiseerd",
    "passivated": "pasivado, pasivada, passivato, passivata, passivado, passivada, gepassiveerd",
    "black oxide": "pavonado, pavonada, pavonados, brunito, brunita, bruniti, oxidado negro, gebruneerd",
    "phosphated": "fosfatado, fosfatada, fosfatato, fosfatata, gefosfateerd",
    "powder coated": (
        "pintura en polvo, pintado en polvo, verniciato a polvere, verniciatura a polvere, pintura a po, "
        "gepoedercoat, poedercoating"
    ),
    "plastic": (
        "plastico, plastica, kunststof, nailon, nylon con fibra, policarbonato, polietileno, polipropileno, "
        "polietilene, polipropilene, acrilico, acrilica, metacrilato, plexiglass trasparente, resina, fibra "
        "de "
        "vidrio, vetroresina, fibra de vidro, glasvezel, espuma, espuma de pu, schiuma, schuim"
    ),
    "rubber": "goma, caucho, gomma, borracha, silicona, silicone platina",
    "wood": (
        "madera, legno, madeira, hout, contrachapado, compensato, multiplex, fieltro, feltro, vilt, triplex"
    ),
    "ceramic": "ceramica, keramisch, vidrio, vetro, vidro",
}

_ARTICLES = spelt(
    Aside(),
    "resistente al, resistente al agua, al agua, al aire, al calor, al horno, al vacio, al cromo, al fuego, "
    "al ozono, al acido, all acqua, al fuoco, al calore",
)
"""Here *al* is an article and no aluminium."""

_ASIDES = spelt(
    Aside(),
    "tornillo, tornillos, tuerca, tuercas, arandela, arandelas, perno, pernos, varilla, varilla roscada, "
    "perfil, placa, chapa, tubo, soporte, eje, muelle, remache, vite, viti, dado, dadi, rondella, rondelle, "
    "barra filettata, profilato, piastra, lamiera, tubo, supporto, albero, molla, parafuso, parafusos, "
    "porca, "
    "porcas, arruela, arruelas, chapa, eixo, bucha, bout, bouten, moer, moeren, ring, ringen, draadstang, "
    "profiel, plaat, buis, as, beugel, veer, di, del, met, con, com, spessore, espesor",
)


def translated(tables: Iterable[Mapping[str, Sense]]) -> dict[str, Sense]:
    """Give each foreign word the sense of its English one.

    Parameters
    ----------
    tables : iterable of mappings
        Phrases of the grammars, the earlier ones first.
    """
    known: dict[str, Sense] = {}
    for table in tables:
        known = {**table, **known}
    return _ARTICLES | {
        foreign: sense
        for english, words in _WORDS.items()
        for foreign, sense in spelt(known[english], words).items()
    }


ASIDES: Mapping[str, Sense] = _ASIDES
"""Articles, and names of parts, that say nothing about the surface."""
