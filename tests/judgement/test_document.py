from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import ENGINE_VERSION, Contact, Function, Inquiry, Side, answer
from service.judgement.answer_record import AnswerRecord
from service.judgement.areas import DEFAULT_AREA_M2
from service.judgement.combination import UNDETERMINED
from service.judgement.document import document_of
from service.judgement.findings import Witness
from service.judgement.json_values import plain
from tests.factories.couples import ALUMINIUM, COAST, COPPER, DRY, SEA, coated


def asked(
    catalogue: Catalogue, first: Side, second: Side, environment: str = COAST, **joint: Any
) -> AnswerRecord:
    return answer([Inquiry(first, second, environment, **joint)], catalogue)[0]


def documented(
    catalogue: Catalogue, first: Side, second: Side, environment: str = COAST, **joint: Any
) -> dict[str, Any]:
    return document_of(asked(catalogue, first, second, environment, **joint))


BARE = Side(surface=ALUMINIUM), Side(surface=COPPER)


@pytest.fixture(scope="module")
def document(catalogue: Catalogue) -> dict[str, Any]:
    return documented(catalogue, *BARE)


def test_a_document_is_json_and_names_release_and_engine(
    document: dict[str, Any], catalogue: Catalogue
) -> None:
    assert json.loads(json.dumps(document, allow_nan=False)) == document
    assert document["release"] == {"label": catalogue.label, "content_hash": catalogue.content_hash}
    assert document["engine"] == ENGINE_VERSION


def numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [number for entry in value.values() for number in numbers(entry)]
    if isinstance(value, list):
        return [number for entry in value for number in numbers(entry)]
    return [value] if isinstance(value, float) else []


def test_no_figure_has_more_than_three_digits(document: dict[str, Any]) -> None:
    found = numbers({name: part for name, part in document.items() if name != "environment"})
    assert len(found) > 50
    assert found == plain(found)


def test_every_witness_has_its_finding(document: dict[str, Any]) -> None:
    assert [finding["witness"] for finding in document["findings"]] == [witness.value for witness in Witness]
    silent = [finding for finding in document["findings"] if not finding["applies"]]
    assert all(finding["abstains"] for finding in silent)


def test_what_findings_cite_is_in_the_evidence(document: dict[str, Any]) -> None:
    cited = {key for finding in document["findings"] for key in finding["evidence"]}
    assert cited == {f"{entry['table']}/{entry['id']}" for entry in document["evidence"]}
    assert all(entry["csl"]["id"] == entry["source_id"] for entry in document["evidence"])


def test_the_anode_is_named(document: dict[str, Any], catalogue: Catalogue) -> None:
    assert document["anode"]["side"] == "first"
    assert document["anode"]["name"] == catalogue.materials["al-6082-t6"].name
    assert document["loss"]["side"] == "first"
    assert "states" not in document["loss"]


def test_the_confidence_is_that_of_the_deciding_witness(document: dict[str, Any]) -> None:
    deciding = next(
        finding for finding in document["findings"] if finding["witness"] == document["deciding_witness"]
    )
    assert document["confidence"] == deciding["confidence"]


def test_rules_that_speak_come_with_their_citation(document: dict[str, Any]) -> None:
    assert document["hazards"]
    assert all(entry["citation"] and entry["id"] for entry in document["hazards"])


def test_defaults_are_owned_up_to(document: dict[str, Any], catalogue: Catalogue) -> None:
    assert document["joint"]["defaults_used"] == ["design_life_years", "areas", "section_allowance_um"]
    assert document["joint"]["design_life_years"] == 10.0
    stated = documented(
        catalogue,
        *BARE,
        design_life_years=2.0,
        first_area_m2=0.01,
        second_area_m2=0.02,
        section_allowance_um=100.0,
    )
    assert stated["joint"]["defaults_used"] == []
    assert stated["joint"]["second_area_cm2"] == 200.0


def test_a_bare_couple_has_no_second_condition_and_no_second_reading(document: dict[str, Any]) -> None:
    assert document["by_condition"] == document["by_reading"] == []
    assert document["question"] is document["would_change_if"] is None


def test_a_coated_couple_is_shown_worn_and_damaged(catalogue: Catalogue) -> None:
    plated = Side(surface=coated("steel-s235", "zn-plain", 8.0))
    shown = documented(catalogue, plated, BARE[1])
    assert [entry["condition"] for entry in shown["by_condition"]] == ["worn", "damaged"]
    assert all(entry["why"] for entry in shown["by_condition"])
    layer = shown["surfaces"]["first"]["layers"][0]
    assert (layer["finish_id"], layer["thickness_um"]) == ("zn-plain", 8.0)


def test_every_reading_is_shown_with_its_verdict(catalogue: Catalogue) -> None:
    shown = documented(catalogue, Side(text="stainless steel"), BARE[0])
    assert len(shown["by_reading"]) > 1
    surface = shown["surfaces"]["first"]
    assert surface["match"] == "ambiguous"
    assert surface["question"]
    assert len(surface["alternatives"]) >= len(shown["by_reading"]) - 1


def test_an_unknown_text_gives_an_honest_document(catalogue: Catalogue) -> None:
    shown = documented(catalogue, Side(text="xyzzy 99"), BARE[1])
    assert (shown["verdict"], shown["severity"], shown["confidence"]) == ("undetermined", "unknown", "low")
    assert shown["loss"] is None
    assert shown["deciding_witness"] is None
    for part in ("findings", "hazards", "evidence", "cautions", "conditions", "by_condition"):
        assert shown[part] == []
    assert shown["anode"] == {"side": "none", "name": None, "is_in_doubt": True, "probability": None}
    assert shown["surfaces"]["first"]["name"] is None
    assert shown["joint"]["first_area_cm2"] == DEFAULT_AREA_M2 * 1e4
    assert any("xyzzy 99" in entry for entry in shown["missing"])


def test_near_names_of_an_unknown_text_are_suggested(catalogue: Catalogue) -> None:
    surface = documented(catalogue, Side(text="Sn63Pb38"), BARE[1])["surfaces"]["first"]
    assert surface["match"] == "unknown"
    assert "Sn63Pb37" in surface["suggestions"]


def test_without_an_electrolyte_there_is_no_loss(catalogue: Catalogue) -> None:
    assert documented(catalogue, *BARE, DRY)["loss"] is None


def test_a_verdict_without_a_deciding_witness_has_low_confidence(catalogue: Catalogue) -> None:
    given = asked(catalogue, *BARE)
    judgement = given.judgements[0]
    silent = replace(judgement, outcome=UNDETERMINED)
    shown = document_of(replace(given, judgements=(silent,), by_condition=((ALUMINIUM.condition, silent),)))
    assert (shown["confidence"], shown["severity"]) == ("low", "unknown")
    assert shown["by_condition"][0] | {"condition": ""} == {
        "condition": "",
        "verdict": "undetermined",
        "severity": "unknown",
        "why": "",
    }


def test_cautions_of_all_witnesses_are_gathered(catalogue: Catalogue) -> None:
    shown = documented(
        catalogue, *BARE, functions=(Function.PROTECTIVE_EARTH,), contact=Contact(force_N=100.0)
    )
    assert any("licensed persons" in caution for caution in shown["cautions"])
    assert len(shown["cautions"]) == len(set(shown["cautions"]))


def test_the_tipping_point_is_shown_on_request(catalogue: Catalogue) -> None:
    shown = documented(
        catalogue,
        Side(material="zn-pure"),
        BARE[1],
        "rural-atmosphere",
        find_tipping_point=True,
        section_allowance_um=2000.0,
    )
    assert set(shown["would_change_if"]) == {"quantity", "unit", "present", "flips_at", "becomes"}


def test_an_isolated_joint_says_so(catalogue: Catalogue) -> None:
    shown = documented(catalogue, *BARE, SEA, is_isolated=True, compound_id="sl-ms-polymer")
    assert shown["joint"]["is_isolated"] is True
    assert shown["joint"]["compound"] == "sl-ms-polymer"
