from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement.couples import Couple, Function
from service.judgement.facts import (
    ENVIRONMENT_FACTS,
    JOINT_FACTS,
    SIDE_FACTS,
    Facts,
    environment_facts,
    facts_of,
    joint_facts,
    side_facts,
)
from tests.factories.couples import ALUMINIUM, COAST, COPPER, coated


def test_every_fact_that_a_rule_may_ask_for_is_answered(catalogue: Catalogue) -> None:
    facts = facts_of(Couple(ALUMINIUM, COPPER), catalogue.environments[COAST], catalogue)
    assert set(facts.first) == set(facts.second) == SIDE_FACTS
    assert set(facts.environment) == ENVIRONMENT_FACTS
    assert set(facts.joint) == JOINT_FACTS
    assert facts.computed_values == {}


def test_a_bare_surface_has_no_finish(catalogue: Catalogue) -> None:
    facts = side_facts(COPPER, catalogue)
    assert (facts["finish"], facts["finish_role"], facts["finishes"]) == ("none-bare", "bare", frozenset())
    assert facts["is_conductive"] is True
    assert facts["thickness_um"] is None


def test_a_coated_surface_shows_its_coat_and_keeps_its_base(catalogue: Catalogue) -> None:
    facts = side_facts(coated("steel-s235", "cd-yellow", 8.0), catalogue)
    assert (facts["electrode"], facts["basis_electrode"]) == ("cadmium", "steel-carbon")
    assert facts["substances"] >= {"Cd", "CrVI"}
    assert facts["thickness_um"] == 8.0


def test_every_coat_is_listed_and_the_outer_one_named(catalogue: Catalogue) -> None:
    surface = Surface("steel-s235", (Layer("powder-coat"), Layer("zn-plain")))
    facts = side_facts(surface, catalogue)
    assert facts["finishes"] == {"powder-coat", "zn-plain"}
    assert facts["finish_role"] == "organic"
    assert facts["is_conductive"] is False


def test_what_a_text_leaves_open_is_not_known(catalogue: Catalogue) -> None:
    open_basis = side_facts(Surface(None, basis_family="carbon steel"), catalogue)
    assert open_basis["family"] == "carbon steel"
    assert open_basis["strength_MPa"] is None
    nothing = side_facts(Surface(None), catalogue)
    assert {nothing[name] for name in ("material", "family", "electrode", "is_conductive")} == {None}


def test_an_environment_without_a_level_leaves_it_open(catalogue: Catalogue) -> None:
    environment = replace(catalogue.environments[COAST], isa7104_level="", iso9223_category="C5")
    facts = environment_facts(environment)
    assert facts["isa7104_level"] is None
    assert facts["iso9223_category"] == "C5"
    assert facts["tags"] == frozenset(environment.tags)


@pytest.mark.parametrize(("anode", "ratio"), [("first", 10.0), ("second", 0.1), ("none", None), (None, None)])
def test_the_area_ratio_is_that_of_cathode_to_anode(anode: str | None, ratio: float | None) -> None:
    couple = Couple(ALUMINIUM, COPPER, first_area_m2=0.01, second_area_m2=0.1)
    assert joint_facts(couple, anode)["area_ratio"] == (None if ratio is None else pytest.approx(ratio))


def test_a_last_bit_does_not_carry_a_ratio_over_a_bound() -> None:
    assert (
        joint_facts(Couple(ALUMINIUM, COPPER, first_area_m2=0.03, second_area_m2=0.3), "first")["area_ratio"]
        == 10.0
    )


def test_a_joint_states_its_functions_and_that_it_has_no_compound() -> None:
    facts = joint_facts(Couple(ALUMINIUM, COPPER, functions=(Function.RF, Function.SEAL)), None)
    assert facts["functions"] == {"rf", "seal"}
    assert facts["compound"] == "none"


@pytest.mark.parametrize(
    ("anode", "turned"), [("first", "second"), ("second", "first"), ("none", "none"), (None, None)]
)
def test_the_anode_turns_with_the_pair(anode: str | None, turned: str | None) -> None:
    facts = Facts({}, {}, {}, {}, {"difference_V": 0.5, "anode": anode})
    assert facts.computed(is_swapped=False)["anode"] == anode
    assert facts.computed(is_swapped=True) == {"difference_V": 0.5, "anode": turned}
