"""Plastics, rubbers, glass and the like: not conductors that the catalogue judges."""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Foreign, Sense, Several, Trait
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt


def _plastic(found: re.Match[str], _: Lexicon) -> Sense:
    return Foreign(found.group().upper())


PATTERNS: tuple[Pattern, ...] = (
    pattern(
        r"(?:pa ?\.?(?:6|11|12|46|66|610|612|6\.6|6/6|6t|9t)|pbt|pet|pom|abs|asa|pc|pp|pe|hdpe|ldpe|uhmw-?"
        r"pe|pvc|pmma|peek|pei|pps|"
        r"psu|ppsu|lcp|ppa|ppo|ppe|pu|pur|tpu|tpe|tpr|eva|san|ps|hips|petg?|pe-?hd|pe-?uhmw|uhmw|pa|pla|pctg|"
        r"pva|pvb|pctfe|etfe|fep|pfa|cpvc|upvc|pa-?cf|abs/pc)\+?"
        r"(?:(?: ?[-/+] ?| )?(?:gf|cf|gk|md|fr|mf|abs|pc) ?\d{0,2}%?)*",
        "pa pb pe po ab as pc pp hd ld uh pv pm ps lc pu tp ev sa hi pl pf et fe cp up",
        _plastic,
        "plastic",
    ),
    pattern(r"fr ?-?4|g ?-?10|g-?11|cem-?[13]", "fr g1 g-1 g cem", _plastic, "circuit board laminate"),
)

PHRASES: dict[str, Sense] = (
    spelt(Several((Foreign("plastic"), Trait("filler", "ptfe"))), "ptfe, teflon")
    | spelt(
        Foreign("plastic"),
        "nylon, nylon 6, nylon 66, nylon 6 6, nylon 12, polyamide, polyamid, plastic, plastics, kunststoff, "
        "plastique, thermoplastic, thermoplast, polycarbonate, polycarbonat, acetal, delrin, polyethylene, "
        "polyethylen, polypropylene, polypropylen, polystyrene, acrylic glass, plexiglas, plexiglass, "
        "polyester resin, bakelite, phenolic, duroplast, thermoset, ultem, noryl, celcon, makrolon, vespel, "
        "torlon, polyimide, kapton, mylar, polyoxymethylene, polyurethane foam, foam, schaumstoff, mousse, "
        "melamine, grp, gfk, gfrp, glass fibre, fiberglass, fibreglass, kevlar, aramid, vulkanfiber, lexan, "
        "garolite, pertinax, hartpapier, kunstoff, kunststoffe, resin, resine, harz, epoxy resin, epoxy "
        "adhesive, epoxy glue, epoxy potting, glass epoxy, epoxy glass, glass filled epoxy, epoxy g10, "
        "epoxidharz, photopolymer, sla resin, polyolefin, vinyl, polyvinyl chloride, polyetherimide, "
        "polysulfone, polyethylene terephthalate, polypropylen, acrylglas, plexi, dyneema, kydex, filament, "
        "glasfaser, fibre de verre, polyurethane, polyurethan, acrylic, acryl, acrylique, polyester, "
        "matiere plastique, ebonite, celluloid, thermoplastique, hook and loop, styrofoam, heat shrink, "
        "schrumpfschlauch, gaine thermo, abs plastic",
    )
    | spelt(
        Foreign("rubber"),
        "rubber, gummi, caoutchouc, elastomer, nbr, epdm, fkm, fpm, viton, neoprene, chloroprene, hnbr, "
        "buna n, silicone rubber, silicone, silikon, silicon rubber, nitrile, natural rubber, sbr, vmq, "
        "fvmq, ffkm, buna, polyurethane rubber, kautschuk, latex, butyl, butyl rubber, moosgummi, "
        "zellkautschuk, sponge rubber, polychloroprene, silicon seal",
    )
    | spelt(
        Foreign("ceramic or glass"),
        "glass, glas, verre, ceramic, keramik, ceramique, alumina, al2o3, zirconia, porcelain, "
        "porzellan, mica, quartz, sapphire, steatite, aluminium oxide, aluminum oxide, silicon nitride",
    )
    | spelt(
        Foreign("wood, paper or textile"),
        "wood, holz, bois, plywood, mdf, paper, papier, cardboard, karton, cork, kork, liege, felt, filz, "
        "feutre, bamboo, sperrholz, multiplex, contreplaque, carton, pappe, chipboard, osb, leather, leder, "
        "cuir, cotton, textile, fabric, concrete, beton, stone, stein",
    )
)
