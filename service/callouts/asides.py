"""Words and codes that a parts list is full of and that say nothing about the surface."""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Link, Sense
from service.callouts.patterns import Pattern, pattern
from service.callouts.phrases import spelt


def _aside(found: re.Match[str], _: Lexicon) -> Sense:
    return Aside(found.group())


_DIM = r"\d{1,5}(?:[./-]\d{1,4}){0,2}"
PATTERNS: tuple[Pattern, ...] = (
    # Threads and sizes: M6x20, M4 x 0.7 x 10, #4-40 x 1/4, 1/4-20 UNC x 1", 10-32, G1/2, Tr20x4
    pattern(
        rf"(?:m|tr|g|r|rd|ba|bsw|bsp|npt|pg|o|d|dia\.?|ø|phi) ?{_DIM}(?: ?x ?(?:p ?)?{_DIM}){{0,3}}(?: ?(?"
        rf":mm|lg|long|cm))?(?:[ -]?[46][gh]\d?[gh]?)?",
        "m t g r b n p o d ø",
        _aside,
        "thread or size",
    ),
    pattern(
        rf"(?:#|no\.? ?)?{_DIM}(?: ?(?:unc|unf|un|unef|npt|bsp|bsw|ba|ts|ga|gauge|awg|swg))?(?:-?"
        rf"[123][ab])?(?: ?(?:\"|mm|in|cm))?(?: ?x ?{_DIM} ?(?:\"|mm|in|cm|lg|long)?(?:lg)?){{1,3}}",
        "x",
        _aside,
        "size",
    ),
    pattern(
        rf"#{_DIM}(?: ?(?:unc|unf))?|{_DIM} ?-? ?(?:unc|unf|unef|un|npt|bsp|ga|gauge|awg|swg)(?:-?"
        rf"[123][ab])?",
        "# un npt bsp ga awg swg",
        _aside,
        "size",
    ),
    pattern(
        rf"(?:thk|t|l|w|h|od|id|lg|len|thick|dia|s|sw|b|th) ?[=:.]? ?{_DIM} ?(?:mm|cm|m|in|\"|thk|thick)?",
        "th t l w h o i d s b",
        _aside,
        "dimension",
    ),
    pattern(
        r"\d{1,5}(?:\.\d{1,4})? ?(?:mm2|mm|cm|m|kg|g|lbs?|nm|n|mpa|n/mm2|ksi|hrc|hrb|hv\d{0,2}|hb|"
        r"hk\d{0,2}|pcs?|pc|ea|v|a|w|k|%|deg|°c?|ohm|hz|khz|mhz|h|hrs|hours|ft|thk|awg|ga|x|pos|pin|pins|"
        r"way|ways|position)",
        "",
        _aside,
        "quantity",
    ),
    pattern(
        r"(?<=\+)(?:ar|n|c|qt|q|m|sh|lc|cr|a|u|at|as)(?![^\W_])",
        "+",
        _aside,
        "delivery condition",
        is_bounded=False,
    ),
    pattern(r"\d{1,2}/\d{1,2}(?:\"|in)?|\d{1,3} ?°", "/ °", _aside, "size"),
    pattern(
        r"(?:hrc|hrb|hv|hb|ra|rz|rt|hk) ?\d{1,4}(?:\.\d{1,2})?(?: ?- ?\d{1,4})?",
        "h r",
        _aside,
        "hardness or roughness",
    ),
    pattern(
        r"no\.? ?(?:1|2[bd]?|3|4|8)|2b|2d|1d|2r|ba finish|ra ?\d\.\d",
        "no 2b 2d 1d 2r ba ra",
        _aside,
        "mill finish of sheet",
    ),
)

COMPOUND_PHRASES: dict[str, Sense] = spelt(
    Aside(),
    "anti seize, nickel anti seize, copper anti seize, nickel antiseize, copper antiseize, copper paste, "
    "copper grease, zinc paste, silver grease, kupferpaste, copper compound, zinc compound, graphite "
    "grease, moly grease, mos2 grease, mos2 paste, lead screw, lead screws, lead time, lead wire, lead "
    "wires, copper pcb, copper clad laminate, copper thickness, copper weight, oz copper, 1 oz copper, 2 oz "
    "copper, cd weld, cd stud, cd welded, cd studs, cd bar, cad model, cad file, cad data, see cad, per "
    "cad, in cad, cad drawing, 3d cad, cad part, cad geometry, cad master, acc to cad, cad is master, "
    "cadmium free, cd free, nickel free, zinc free, copper free, silver free, tin free, cadmiumfrei, "
    "nickelfrei, cadmium frei, nickel frei, sans cadmium, sans nickel, ohne cadmium, ohne nickel, no "
    "cadmium, no nickel",
)
"""Words with a metal in them that name no metal of the part; they are read before the metals are."""
PHRASES: dict[str, Sense] = (
    spelt(Link.OVER, "over, auf, sur, on, on top of, above, ueber, ue, ueb, onto")
    | spelt(
        Link.ALTERNATIVE,
        "or, oder, ou, alternatively, alternative, equivalent, equiv, eq, or equiv, or equivalent, "
        "or similar, oder gleichwertig, ou equivalent, or equal, and or",
    )
    | spelt(
        Aside(),
        # prepositions, spec words
        "per, to, acc, according to, nach, gemaess, gem, selon, suivant, in accordance with, iaw, and, und, "
        "et, with, w, mit, avec, of, from, aus, de, en, the, a, an, for, fuer, pour, in, as, is, no, not, "
        "min, max, minimum, maximum, mind, mindestens, thick, thickness, thk, dick, dicke, epaisseur, ep, "
        "schichtdicke, layer, schicht, couche, approx, ca, ca., about, typ, typical, nom, nominal, spec, "
        "specification, material, mat, matl, mat l, werkstoff, matiere, matiere premiere, finish spec, "
        "standard, std, norm, all, over all, overall, each, per side, side, sides, both sides, je seite, "
        "double sided, single sided, std finish, including, incl, inkl, plus, also, after, before, then, "
        "vor, dann, puis, apres, by, at, be, shall, must, may, see, note, notes, ref, reference, dwg, "
        "drawing, zeichnung, plan, item, pos, qty, rev, part, parts, teil, piece, pcs, ea, colour, color, "
        "farbe, couleur, minimum thickness, unless otherwise specified, uos, optional, opt, tbd, na, n a, "
        "various, see note, see drawing, applied, application, requirements, requirement, req, process, "
        "procedure, method, grade finish, nitric, citric, nitric 2, citric 4, bake, baked, baking, heat "
        "treated, ht, hydrogen relief, he relief, embrittlement relief, entspannt, stress relieved, stress "
        "relief, quenched, tempered, qt, verguetet, annealed, recuit, geglueht, weichgeglueht, half hard, "
        "quarter hard, full hard, spring hard, spring temper, halbhart, federhart, ecroui, 1 2 hard, cold "
        "drawn, cold worked, kaltgezogen, etire, drawn, extruded, stranggepresst, extrude, rolled, gewalzt, "
        "lamine, forged, forging, geschmiedet, forge, machined, gedreht, gefraest, usine, stamped, "
        "gestanzt, estampe, turned, casting, cast, die cast, diecast, die casting, druckguss, sand cast, "
        "investment cast, feinguss, moule, moulded, molded, welded, geschweisst, soude, seamless, nahtlos, "
        "oiled, oil, geoelt, oelt, huile, greased, gefettet, wax, waxed, gewachst, grease, dry, brushed, "
        "polished, buffed, poli, polie, brosse, gebuerstet, poliert, geschliffen, satiniert, ground finish, "
        "bead blasted, bead blast, sandblasted, sand blasted, shot blasted, shot peened, gestrahlt, "
        "glasperlgestrahlt, sablé, grenaille, microbille, tumbled, deburred, deburr, entgratet, ebavure, "
        "cleaned, degreased, entfettet, vibratory, trowalisiert, knurled, gehaertet, trempe, mirror, mirror "
        "finish, mirror polished, hairline, no 4, locking patch, nylon patch, threadlocker, loctite, thread "
        "locker, tuflok, thread patch, coated patch, passivated patch, montiert, sortiert, zertifiziert, "
        "isoliert, markiert, screw, screws, bolt, bolts, nut, nuts, washer, washers, rivet, rivets, stud, "
        "studs, pin, pins, spacer, standoff, standoffs, stand off, bushing, bush, sleeve, insert, inserts, "
        "clip, clips, clamp, bracket, brkt, plate stock, housing, cover, lid, chassis, frame, panel mount, "
        "rail, busbar, bus bar, bar, rod, tube, tubing, pipe, hose, shaft, gear, spring, springs, "
        "connector, contact, contacts, terminal, terminals, lug, lugs, ring, shell, backshell, shield, "
        "gasket, foil, ribbon, tape, profile, profil, extrusion, block, base, body, cap, plug, socket, pcb, "
        "board, header, receptacle, jack, crimp, ferrule, cable lug, bond, strap, jumper, heatsink, heat "
        "sink, enclosure, cabinet, box, case, door, hinge, handle, knob, latch, lock, key, hook, eye, "
        "chain, anchor, dowel, cotter, retaining ring, circlip, snap ring, e clip, o ring, seal ring, "
        "bearing, bearings, wheel, pulley, fitting, valve, pump, flange, elbow, tee, union, coupling, "
        "adapter, adaptor, manifold, nozzle, blade, spade, tab, quick, faston, finger, fingers, spring "
        "contact, pogo, schraube, schrauben, mutter, muttern, scheibe, scheiben, unterlegscheibe, "
        "federring, niet, bolzen, stift, huelse, buchse, gehaeuse, deckel, winkel, halter, halterung, "
        "klemme, schelle, rohr, stange, welle, feder, kontakt, stecker, kabelschuh, dichtung, klammer, "
        "klammern, gewinde, gewindestange, gewindebolzen, gewindeeinsatz, abstandsbolzen, distanzhuelse, "
        "sechskant, sechskantschraube, sechskantmutter, zylinderschraube, zylinderkopf, senkschraube, "
        "senkkopf, linsenkopf, linsenschraube, zylinderkopfschraube, innensechskant, kreuzschlitz, torx, "
        "flachkopf, blechschraube, holzschraube, stiftschraube, madenschraube, federscheibe, "
        "faecherscheibe, zahnscheibe, sicherungsscheibe, sicherungsring, sicherungsmutter, hutmutter, "
        "fluegelmutter, fluegelschraube, vis, ecrou, rondelle, rivet pop, goupille, tige, entretoise, "
        "boitier, couvercle, equerre, support, collier, tuyau, axe, ressort, cosse, borne, contact "
        "electrique, joint, bague, rondelle plate, rondelle frein, vis chc, vis tete, tete, hexagonale, "
        "cylindrique, fraisee, bombee, ecrou hexagonal, ecrou frein, goujon, boulon, cheville, hex, "
        "hexagon, hex head, socket head, shcs, hhcs, bhcs, fhcs, php, fhp, rhp, pnh, platine, platinen, "
        "opferanode, opferanoden, sacrificial anode, hull anode, shaft anode, anode sacrificielle, chc, "
        "fhc, bhc, thc, tchc, tbhc, tfhc, sthc, btr, tcb, tcbl, isk, zyl, skt, sk, lk, tx, pz, pzd, hc, "
        "hcs, bhss, fhs, phs, lhcs, hhb, hhs, hnut, hwn, flg, keps, unc, unf, unef, bsw, bsf, npt, bsp, "
        "pkg, pkt, pck, vpe, stk, paar, satz, sachnr, artnr, art, nr, bez, ident, sku, upc, ean, moq, eol, "
        "nos, nib, ul, csa, vde, ce, ip65, ip67, ip68, ip66, ip20, abec, pcd, bcd, cpr, cnc, cad, bom, rfq, "
        "eta, usa, eu, uk, prc, hexkey, allen, imbus, inbus, ffs, hss tipped, mtr, coc, cofc, msds, rohs3, "
        "dfars, tpi, dia od, fhph, phph, rhph, bhph, hx, hwh, shss, sscp, sems, phms, fhms, rhms, panhd, "
        "flhd, ph, fh, rh, pn, bhscs, fhscs, pphms, fil, ext tooth, int tooth, lf, oem, etc, tbc, cots, std "
        "part, dwg no, cap screw, pan, pan head, flat, flat head, countersunk, csk, button, button head, "
        "truss, round, round head, oval, fillister, cheese, cheese head, phillips, phil, pozi, pozidriv, "
        "slotted, slot, torx drive, drive, head, hd, set, set screw, grub, machine, machine screw, sheet "
        "metal screw, self tapping, self drilling, tapping, thread, threaded, thrd, thd, male, female, m f, "
        "f f, split, split lock, internal, external, int, ext, tooth, star, spring lock, belleville, wave, "
        "fender, flat washer, lock washer, jam, nylon insert lock, nyloc, nylock, prevailing torque, "
        "torque, weld, press, press in, press fit, swage, clinch, self clinching, captive, blind, pop, "
        "long, lg, short, length, len, width, height, wide, high, deep, od, id, dia, diameter, metric, "
        "inch, imperial, coarse, fine, left, right, lh, rh thread, single, double, triple, square, "
        "rectangular, angle, straight, right angle, bent, solid, hollow, emi, emc, rfi, rf, mesh, wire "
        "mesh, printed, 3d printed, additive, dmls, slm, tapered, standard finish, heavy, light, duty, "
        "heavy duty, grounding, ground, earth, earthing, assy, assembly, asm, kit, pack, bag, tool, custom, "
        "special, made, per drawing, per dwg, mfr, mfg, manufacturer, p n, sn no, model, number, code no, "
        "sae, iso, din, astm, ansi, asme, jis, en norm, mil, spec no, mil spec, ms, nas, solder cup, pcb "
        "mount, through hole, smt, smd, lead, leads, leaded part, pitch, row, position, positions, way, "
        "ways, circuit, contacts plating, shroud, polarized, locking, mount, mounting, mtg, vertical, "
        "horizontal, top, bottom, front, rear, side entry, inner, outer, upper, lower, center, centre, end, "
        "ends, edge, edges, surface mount, compliant, conform, free, alloy, alloys, legierung, alliage, "
        "metal, metals, metall, quality, commercial, commercially, pure, low, purity, temper, hardness, "
        "strength, tensile, class of, series, type of, kind, style, form, hardened steel no, general, "
        "purpose, general purpose, marine, food, industrial",
    )
)
PHRASES.pop("ms", None)
