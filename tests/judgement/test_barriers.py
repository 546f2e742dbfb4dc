"""Isolation and paint: witnesses of bare metal in contact fall silent, nothing else does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement import Couple, Verdict, judge
from service.judgement.barriers import hits_that_speak
from service.judgement.findings import Witness
from service.judgement.judge import Judgement
from service.judgement.rules import Hit, Match
from service.judgement.severity import Severity

SEA_FRONT = "marine-atmosphere-0-100-m"
PAINT = (Layer("powder-coat", 80.0),)
ALUMINIUM, COPPER = Surface("al-6082-t6"), Surface("cu-etp")


def judged(couple: Couple, environment_id: str, catalogue: Catalogue) -> Judgement:
    return judge([couple], catalogue.environments[environment_id], catalogue)[0]


def test_bare_metals_in_contact_are_judged_by_all(catalogue: Catalogue) -> None:
    result = judged(Couple(ALUMINIUM, COPPER), SEA_FRONT, catalogue)
    assert result.findings[Witness.EXPERIENCE].severity is Severity.SEVERE
    assert result.findings[Witness.SCREENING].severity is Severity.SEVERE
    assert result.outcome.verdict is Verdict.UNSUITABLE


@pytest.mark.parametrize("environment_id", [SEA_FRONT, "seawater-quiescent", "soil-corrosive"])
def test_isolation_leaves_no_galvanic_witness(environment_id: str, catalogue: Catalogue) -> None:
    result = judged(Couple(ALUMINIUM, COPPER, is_isolated=True), environment_id, catalogue)
    assert result.findings[Witness.KINETICS].severity is Severity.NONE
    assert not result.findings[Witness.EXPERIENCE].applies
    assert result.findings[Witness.SCREENING].abstains == "no electronic path"
    assert result.outcome.verdict is Verdict.CONDITIONAL


def test_isolation_does_not_excuse_what_a_surface_suffers_by_itself(catalogue: Catalogue) -> None:
    couple = Couple(Surface("al-6082-t6"), Surface("ss-304"), is_isolated=True)
    result = judged(couple, "alkaline-wash-water", catalogue)
    assert "experience-alkaline-wash-al" in [hit.rule.id for hit in result.hits]


def test_benign_experience_speaks_through_isolation(catalogue: Catalogue) -> None:
    couple = Couple(Surface("ti-gr2"), Surface("graphite"), is_isolated=True)
    result = judged(couple, SEA_FRONT, catalogue)
    assert result.findings[Witness.EXPERIENCE].severity is Severity.NONE


def test_screening_that_abstains_keeps_its_own_reason(catalogue: Catalogue) -> None:
    couple = Couple(Surface(None), COPPER, is_isolated=True)
    result = judged(couple, SEA_FRONT, catalogue)
    assert result.findings[Witness.SCREENING].abstains != "no electronic path"


def test_paint_on_the_cathode_leaves_the_decision_to_the_computed_loss(catalogue: Catalogue) -> None:
    result = judged(Couple(ALUMINIUM, Surface("cu-etp", PAINT)), SEA_FRONT, catalogue)
    assert not result.findings[Witness.EXPERIENCE].applies
    assert result.outcome.verdict is Verdict.CONDITIONAL


def test_paint_on_the_anode_alone_excuses_nothing(catalogue: Catalogue) -> None:
    result = judged(Couple(Surface("al-6082-t6", PAINT), COPPER), SEA_FRONT, catalogue)
    assert result.findings[Witness.EXPERIENCE].severity is Severity.SEVERE
    assert result.outcome.verdict is Verdict.UNSUITABLE


def test_damaged_paint_hides_nothing(catalogue: Catalogue) -> None:
    surface = Surface("cu-etp", PAINT, Condition.DAMAGED)
    result = judged(Couple(ALUMINIUM, surface), SEA_FRONT, catalogue)
    assert result.findings[Witness.EXPERIENCE].severity is Severity.SEVERE


def test_an_anodic_film_hides_nothing(catalogue: Catalogue) -> None:
    hard = Surface("al-6082-t6", (Layer("anod-iii-hard", 50.0),))
    swapped = judged(Couple(Surface("mg-az91d"), hard), SEA_FRONT, catalogue)
    assert swapped.findings[Witness.EXPERIENCE].applies


def test_experience_that_names_no_anode_needs_both_sides_painted(catalogue: Catalogue) -> None:
    known = catalogue.rules["experience-al-cu-marine"]
    hit = Hit(replace(known, anode="", severity="moderate"), Match(is_certain=True))
    painted = Surface("al-6082-t6", PAINT)
    assert hits_that_speak(Couple(painted, COPPER), [hit], (), catalogue) == [hit]
    assert hits_that_speak(Couple(painted, painted), [hit], (), catalogue) == []


def test_good_experience_with_the_outer_metal_is_no_comfort_at_a_pore(catalogue: Catalogue) -> None:
    porous = Surface("al-6082-t6", (Layer("cu-plate", 5.0),))
    result = judged(Couple(porous, COPPER), SEA_FRONT, catalogue)
    assert result.findings[Witness.KINETICS].severity is Severity.SEVERE
    assert not result.findings[Witness.EXPERIENCE].applies
    assert result.outcome.verdict is Verdict.UNSUITABLE


def test_a_closed_coat_is_judged_by_the_outer_metal(catalogue: Catalogue) -> None:
    closed = Surface("al-6082-t6", (Layer("cu-plate", 50.0),))
    result = judged(Couple(closed, COPPER), SEA_FRONT, catalogue)
    assert result.findings[Witness.EXPERIENCE].severity is Severity.SLIGHT
