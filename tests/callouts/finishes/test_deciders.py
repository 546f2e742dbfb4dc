from __future__ import annotations

import itertools

import pytest

from service.callouts.finishes.deciders import DECIDERS, RANK
from service.callouts.marks import Amount, Clues, Coat
from service.catalogue.catalogue import Catalogue

PROCESSES = (
    "",
    "hard",
    "soft",
    "flash",
    "hot-dip",
    "galvanized",
    "mechanical",
    "immersion",
    "wire",
    "vacuum",
    "sprayed",
    "electroplated",
    "boron",
    "sulfamate",
    "chromic",
    "zirconium",
    "titanium",
    "magnesium",
    "primer",
    "lead-free",
    "leaded",
    "low embrittlement",
)
TRAITS = (
    (),
    (("colour", "black"),),
    (("colour", "yellow"), ("chemistry", "cr3")),
    (("colour", "olive"),),
    (("seal", "sealed"),),
    (("gloss", "bright"),),
    (("treatment", "none"),),
    (("form", "sheet"), ("form", "wire")),
    (("phosphorus", "high"), ("filler", "ptfe")),
)
FAMILIES = ((), ("wrought aluminium",), ("copper",), ("stainless steel",), ("magnesium",), ("titanium",))


@pytest.mark.parametrize("kind", DECIDERS)
def test_every_decision_names_finishes_of_the_catalogue(kind: str, catalogue: Catalogue) -> None:
    for process, traits, families in itertools.product(PROCESSES, TRAITS, FAMILIES):
        for amount in (None, Amount(0.1), Amount(50.0)):
            clues = Clues(frozenset(traits), families=frozenset(families), kinds=frozenset({kind, "ni"}))
            decision = DECIDERS[kind](Coat(kind, process, amount), clues)
            assert decision.options
            assert {option.finish_id for option in decision.options} <= set(catalogue.finishes)
            assert bool(decision.question) == (len(decision.options) > 1)


def test_every_kind_but_a_colour_has_its_place_in_a_stack() -> None:
    assert set(DECIDERS) - set(RANK) == {"colour"}
    assert RANK["cu"] < RANK["ni"] < RANK["cr"]
    assert RANK["ni"] < RANK["sn"] < RANK["au"] < RANK["powder"]
