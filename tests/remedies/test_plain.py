from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import DEFAULT_POLICY, ENGINE_VERSION, Verdict
from service.judgement.findings import Anode, Condition
from service.remedies.measures import Life
from service.remedies.plain import (
    changed_figures,
    conditions,
    figure,
    hazard,
    header,
    judged,
    life,
    surface_document,
)
from tests.factories.remedies import coated, couple_of, place
from tests.factories.remedies import judged as judgement_of


def test_the_header_binds_to_release_engine_and_policy(catalogue: Catalogue) -> None:
    assert header(catalogue, DEFAULT_POLICY) == {
        "release": {"label": catalogue.label, "content_hash": catalogue.content_hash},
        "engine": ENGINE_VERSION,
        "policy": DEFAULT_POLICY.name,
    }


def test_a_surface_is_named_and_can_be_asked_again(catalogue: Catalogue) -> None:
    document = surface_document(coated("cu-etp", "sn-matte", 5.0), catalogue)
    assert document["material_id"] == "cu-etp"
    assert document["layers"] == [{"finish_id": "sn-matte", "name": "Tin plate, matte", "thickness_um": 5.0}]
    assert document["name"].startswith("Copper")


def test_a_judgement_in_short(catalogue: Catalogue) -> None:
    document = judged(judgement_of(catalogue), catalogue)
    assert document["verdict"] == "unsuitable"
    assert document["severity"] == "severe"
    assert document["why"]
    assert document["anode"]["side"] == "first"
    assert document["loss_over_allowance"]["high"] > 1.0
    assert judged(judgement_of(catalogue), catalogue, Verdict.CONDITIONAL)["verdict"] == "conditional"


def test_what_nobody_knows_is_told_as_unknown(catalogue: Catalogue) -> None:
    unknown = judgement_of(catalogue, couple_of(first=Surface("ga-ebe")), "alkaline-wash-water")
    document = judged(unknown, catalogue)
    assert document["severity"] == "unknown"
    assert document["confidence"] == "low"
    assert document["deciding_witness"] is None
    assert document["loss_over_allowance"] is None
    assert unknown.outcome.anode is Anode.NONE
    assert document["anode"] == {"side": "none", "is_in_doubt": False}


def test_hazards_carry_what_to_do(catalogue: Catalogue) -> None:
    judgement = judgement_of(catalogue)
    documents = [hazard(hit) for hit in judgement.hits if hit.rule.advice]
    assert documents
    assert all(document["statement"] for document in documents)


def test_conditions_have_four_parts() -> None:
    given = Condition("dry", "Keep it dry.", "maintainer", "inspection")
    assert conditions([given]) == [
        {"code": "dry", "action": "Keep it dry.", "who": "maintainer", "how_verified": "inspection"}
    ]


def test_a_life_may_be_unknown() -> None:
    assert life(None) is None
    assert life(Life(1.2345, 9.0, "thickness of the coat")) == {
        "low_years": 1.23,
        "high_years": 9.0,
        "basis": "thickness of the coat",
    }


def test_only_what_changed_about_the_place_is_told(catalogue: Catalogue) -> None:
    before = place(catalogue)
    after = replace(before, film_thickness_um=12.3456, tags=("unwashed",), is_sheltered=True)
    assert changed_figures(before, before) == {}
    changes = changed_figures(before, after)
    assert set(changes) == {"film_thickness_um", "tags", "is_sheltered"}
    assert changes["film_thickness_um"]["after"] == 12.3
    assert changes["tags"]["after"] == ["unwashed"]


@pytest.mark.parametrize(
    ("value", "told"), [(None, None), (0.0, 0.0), (1234.5, 1230.0), (0.00012345, 0.000123)]
)
def test_three_digits(value: float | None, told: float | None) -> None:
    assert figure(value) == told
