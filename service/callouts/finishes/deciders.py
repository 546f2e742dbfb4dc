"""Which function decides each kind of coat, and how coats lie on one another."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from service.callouts.finishes import (
    aluminium_films,
    boards,
    cadmium,
    chromium,
    colours,
    flake,
    gold,
    nickel,
    organic,
    silver,
    steel_films,
    tin,
    zinc,
)
from service.callouts.finishes.decision import Decision, certain
from service.callouts.marks import Clues, Coat

Decider = Callable[[Coat, Clues], Decision]


def _only(finish_id: str) -> Decider:
    return lambda _coat, _clues: certain(finish_id)


DECIDERS: Mapping[str, Decider] = {
    "zn": zinc.decide_zinc,
    "znni": zinc.decide_zinc_nickel,
    "znfe": _only("znfe"),
    "znco": _only("znco"),
    "snzn": _only("snzn"),
    "znal": lambda coat, _: certain("znal15-sprayed" if coat.process == "sprayed" else "galfan"),
    "alzn": _only("galvalume"),
    "znmg": _only("zn-mg-al"),
    "alsi": _only("al-hotdip"),
    "al": lambda coat, _: certain(
        {"sprayed": "al-sprayed", "electroplated": "al-electro"}.get(coat.process, "ivd-al")
    ),
    "flake": flake.decide_flake,
    "cd": cadmium.decide_cadmium,
    "ni": nickel.decide_nickel,
    "en": nickel.decide_electroless,
    "cr": chromium.decide_chromium,
    "sn": tin.decide_tin,
    "snpb": _only("snpb-plate"),
    "sncu": _only("sn-cu-plate"),
    "snag": _only("sn-ag-plate"),
    "snbi": _only("sn-bi-plate"),
    "snni": _only("sn-ni-plate"),
    "pb": _only("pb-plate"),
    "in": _only("in-plate"),
    "ag": silver.decide_silver,
    "agpaint": _only("ag-paint"),
    "au": gold.decide_gold,
    "pd": _only("pd-electro"),
    "pdni": _only("pd-ni"),
    "rh": _only("rh-electro"),
    "ru": _only("ru-electro"),
    "pt": _only("pt-electro"),
    "cu": _only("cu-plate"),
    "brass": _only("brass-plate"),
    "whitebronze": _only("bronze-white"),
    "enig": _only("enig"),
    "enepig": _only("enepig"),
    "hasl": boards.decide_hasl,
    "osp": _only("osp"),
    "anodise": aluminium_films.decide_anodise,
    "chemfilm": aluminium_films.decide_conversion,
    "passivate": steel_films.decide_passivation,
    "pickle": _only("ss-pickled"),
    "electropolish": _only("ss-electropolished"),
    "blackoxide": steel_films.decide_black_oxide,
    "phosphate": steel_films.decide_phosphate,
    "chromate": steel_films.decide_chromate,
    "nitride": _only("nitrocarburised"),
    "pvd": _only("ti-nitride-pvd"),
    "dlc": _only("dlc"),
    "hvof": _only("hvof-wc"),
    "solgel": _only("sol-gel"),
    "colour": colours.decide_colour,
    "primer": organic.decide_paint,
    "paint": organic.decide_paint,
    "lacquer": organic.decide_paint,
    "lining": organic.decide_paint,
    "powder": _only("powder-coat"),
    "ecoat": _only("e-coat"),
    "lube": _only("dry-film-lube"),
    "ptfecoat": _only("ptfe-coat"),
    "parylene": _only("parylene"),
    "nipaint": _only("nickel-acrylic"),
    "cupaint": _only("copper-paint"),
}

_OUTWARDS = ["cu", "brass", "whitebronze", "en", "ni", "snni", "cr", "zn", "znni", "znfe", "znco", "snzn", "znal", "alzn", "znmg", "alsi", "al", "flake", "cd", "pb", "snpb", "sncu", "snag", "snbi", "sn", "hasl", "in", "ag", "pd", "pdni", "pt", "ru", "au", "enig", "enepig", "rh", "osp", "nitride", "phosphate", "blackoxide", "chemfilm", "anodise", "chromate", "pickle", "passivate", "electropolish", "hvof", "pvd", "dlc", "solgel", "primer", "ecoat", "powder", "paint", "nipaint", "cupaint", "agpaint", "lining", "ptfecoat", "lacquer", "lube", "parylene"]
RANK: Mapping[str, int] = {kind: rank for rank, kind in enumerate(_OUTWARDS)}
"""The usual order of coats from the base material outwards, where a text does not say."""
