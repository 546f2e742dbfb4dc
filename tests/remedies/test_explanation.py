from __future__ import annotations

from dataclasses import replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function
from service.remedies.alternatives import Alternatives, find_alternatives
from service.remedies.constraints import Change, Constraints
from service.remedies.explanation import (
    alternatives_line,
    alternatives_paragraph,
    mitigations_line,
    mitigations_paragraph,
    remedy_chain,
)
from service.remedies.mitigations import Mitigations, find_mitigations
from tests.factories.remedies import STEEL, couple_of, place


def alternatives(
    catalogue: Catalogue, couple: Couple, environment_id: str, **constraints: object
) -> Alternatives:
    given = Constraints(**constraints)  # type: ignore[arg-type]
    return find_alternatives(couple, place(catalogue, environment_id), given, catalogue, limit=3)


def mitigations(
    catalogue: Catalogue, couple: Couple, environment_id: str = "urban-atmosphere"
) -> Mitigations:
    return find_mitigations(couple, place(catalogue, environment_id), catalogue)


def test_the_buyer_is_told_what_to_take(catalogue: Catalogue) -> None:
    found = alternatives(catalogue, couple_of(), "urban-atmosphere", first=Change.NOTHING)
    line = alternatives_line(found)
    assert line.startswith("Take aluminium 6082 T6 against copper")
    assert f"{found.found} ways out" in line


def test_the_designer_is_told_gain_and_price(catalogue: Catalogue) -> None:
    found = alternatives(catalogue, couple_of(), "marine-atmosphere-0-100-m", first=Change.NOTHING)
    paragraph = alternatives_paragraph(found)
    assert paragraph.startswith(alternatives_line(found))
    assert "It gains this: The verdict changes from unsuitable" in paragraph
    assert "It costs this: " in paragraph
    assert "Next comes " in paragraph
    assert paragraph == alternatives_paragraph(found)


def test_a_single_way_out_has_no_next(catalogue: Catalogue) -> None:
    found = alternatives(catalogue, couple_of(), "marine-atmosphere-0-100-m", first=Change.NOTHING)
    alone = replace(found, ranking=found.ranking[:1])
    assert "Next comes" not in alternatives_paragraph(alone)


def test_without_a_way_out_it_says_what_blocks(catalogue: Catalogue) -> None:
    bonded = Couple(Surface("mg-az91d"), STEEL, functions=(Function.ELECTRICAL_BOND,))
    found = alternatives(catalogue, bonded, "marine-atmosphere-0-100-m", second=Change.NOTHING)
    assert alternatives_line(found).startswith("Nothing can stand in as constrained")
    assert "Without the constraint '" in alternatives_paragraph(found)
    hopeless = replace(found, blockers=(replace(found.blockers[0], options=0, example="It is refused."),))
    assert "The nearest falls short: It is refused." in alternatives_paragraph(hopeless)


def test_the_buyer_is_told_what_to_do(catalogue: Catalogue) -> None:
    found = mitigations(catalogue, couple_of(), "marine-atmosphere-0-100-m")
    assert mitigations_line(found) == "Make both parts of the same alloy: suitable."
    paragraph = mitigations_paragraph(found)
    assert "Done badly (different tempers" in paragraph
    assert "no better than conditional" not in paragraph


def test_a_package_is_told_as_one_sentence_with_its_cap(catalogue: Catalogue) -> None:
    found = mitigations(catalogue, Couple(Surface("mg-az91d"), STEEL), "vehicle-underbody")
    assert len(found.ranking[0].measures) == 2
    assert ", and " in mitigations_line(found)
    assert "It is no better than conditional: " in mitigations_paragraph(found)


def test_without_any_measure_it_says_so(catalogue: Catalogue) -> None:
    found = mitigations(catalogue, couple_of())
    none = replace(found, ranking=())
    assert mitigations_line(none).startswith("No measure of the knowledge base")
    assert found.insufficient[0].detail in mitigations_paragraph(none)


def test_the_chain_holds_measures_findings_and_conditions(catalogue: Catalogue) -> None:
    found = mitigations(catalogue, couple_of(), "marine-atmosphere-0-100-m")
    capped = next(remedy for remedy in found.ranking if remedy.after.capped_because)
    chain = remedy_chain(capped)
    assert chain[0].startswith("measure: ")
    assert any(step.startswith("kinetics: ") for step in chain)
    assert any(step.startswith("capped: ") for step in chain)
    assert any(step.startswith("condition apply-") for step in chain)
    assert "verdict: conditional" in chain
