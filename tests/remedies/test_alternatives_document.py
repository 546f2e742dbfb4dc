from __future__ import annotations

import json

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import Couple, Function, judge
from service.remedies.alternatives import find_alternatives
from service.remedies.alternatives_document import alternatives_document
from service.remedies.constraints import Change, Constraints
from service.remedies.plain import Document
from tests.factories.remedies import SEA_FRONT, STEEL, couple_of, place


def document(catalogue: Catalogue, couple: Couple, constraints: Constraints) -> Document:
    return alternatives_document(find_alternatives(couple, place(catalogue), constraints, catalogue, limit=8))


def test_it_is_plain_json_and_always_the_same(catalogue: Catalogue) -> None:
    given = Constraints(first=Change.NOTHING)
    once, again = (document(catalogue, couple_of(), given) for _ in range(2))
    assert json.dumps(once, sort_keys=True, allow_nan=False) == json.dumps(again, sort_keys=True)


def test_every_row_can_be_judged_from_its_own_structure(catalogue: Catalogue) -> None:
    def surface(shown: Document) -> Surface:
        layers = tuple(Layer(layer["finish_id"], layer["thickness_um"]) for layer in shown["layers"])
        return Surface(shown["material_id"], layers)

    for row in document(catalogue, couple_of(), Constraints(first=Change.NOTHING))["alternatives"]:
        couple = Couple(surface(row["first"]), surface(row["second"]))
        again = judge([couple], place(catalogue), catalogue)[0].outcome
        assert again.verdict.value == row["verdict"]
        assert again.severity is not None
        assert again.severity.value == row["severity"]
        if row["verdict"] == "conditional":
            assert row["conditions"]


def test_counts_weights_and_ranks(catalogue: Catalogue) -> None:
    shown = document(catalogue, couple_of(), Constraints(first=Change.NOTHING))
    assert [row["rank"] for row in shown["alternatives"]] == list(range(1, shown["searched"]["shown"] + 1))
    assert sum(shown["weights"].values()) == pytest.approx(1.0)
    assert shown["before"]["verdict"] == "unsuitable"
    assert shown["environment"]["id"] == SEA_FRONT
    assert {group["reason"] for group in shown["excluded"]} >= {"verdict", "substance-needs-opt-in"}
    assert shown["blocked_by"] == []


def test_wear_is_shown_where_there_is_a_finish(catalogue: Catalogue) -> None:
    wanted = Constraints(first=Change.NOTHING, second=Change.MATERIAL, materials=("al-5083-h116",))
    found = find_alternatives(couple_of(), place(catalogue), wanted, catalogue, limit=100)
    rows = alternatives_document(found)["alternatives"]
    bare = next(row for row in rows if not row["second"]["layers"])
    assert bare["when_worn"] is None
    assert next(row for row in rows if row["second"]["layers"])["when_worn"]["verdict"]


def test_an_empty_ranking_names_the_constraint(catalogue: Catalogue) -> None:
    bonded = Couple(Surface("mg-az91d"), STEEL, functions=(Function.ELECTRICAL_BOND,))
    shown = document(catalogue, bonded, Constraints(second=Change.NOTHING))
    assert shown["alternatives"] == []
    assert shown["blocked_by"][0]["constraint"]
    assert shown["blocked_by"][0]["options_without_it"] > 0
