from __future__ import annotations

import json
from typing import Any

import pytest

from service.callouts.reading import Match
from service.catalogue.catalogue import Catalogue
from service.judgement import Answer, Inquiry, InvalidInquiryError, Side, Verdict, answer
from service.judgement.findings import Witness
from tests.factories.couples import ALUMINIUM, COAST, COPPER, DRY, SEA, STAINLESS, coated

BARE = Side(surface=ALUMINIUM), Side(surface=COPPER)
STEELS = Side(text="stainless steel")


def asked(
    catalogue: Catalogue,
    first: Side = BARE[0],
    second: Side = BARE[1],
    environment: str = COAST,
    **joint: Any,
) -> Answer:
    return answer([Inquiry(first, second, environment, **joint)], catalogue)[0]


def everywhere(catalogue: Catalogue, first: Side, second: Side) -> list[Answer]:
    return answer([Inquiry(first, second, environment) for environment in catalogue.environments], catalogue)


def test_one_reading_has_the_verdict_of_its_judgement(catalogue: Catalogue) -> None:
    given = asked(catalogue)
    assert given.judgement is not None
    assert given.verdict is given.judgement.outcome.verdict
    assert given.question == ""
    assert given.warnings == ()


def test_an_ambiguous_text_is_judged_under_each_reading(catalogue: Catalogue) -> None:
    given = asked(catalogue, STEELS)
    assert len(given.judgements) > 1
    assert len({judgement.couple.first.material_id for judgement in given.judgements}) > 1
    assert "ambiguous" in {code for code, _ in given.warnings}


def test_readings_that_agree_need_no_question(catalogue: Catalogue) -> None:
    given = asked(catalogue, STEELS, Side(surface=STAINLESS), DRY)
    verdicts = {judgement.outcome.verdict for judgement in given.judgements}
    assert verdicts == {given.verdict}
    assert given.question == ""


@pytest.mark.parametrize("is_first", [True, False])
def test_readings_that_disagree_leave_a_question_with_the_verdict_of_each(
    catalogue: Catalogue, *, is_first: bool
) -> None:
    metals, copper = Side(text="aluminium"), Side(material="cu-etp")
    sides = (metals, copper) if is_first else (copper, metals)
    given = next(found for found in everywhere(catalogue, *sides) if found.question)
    assert given.verdict is Verdict.UNDETERMINED
    assert "aluminium" in given.question
    for judgement in given.judgements:
        assert judgement.outcome.verdict.value in given.question


def test_the_question_is_about_the_side_that_decides(catalogue: Catalogue) -> None:
    given = next(found for found in everywhere(catalogue, Side(text="aluminium"), STEELS) if found.question)
    outcomes = [
        {
            surface: {
                j.outcome.verdict
                for j in given.judgements
                if (j.couple.first, j.couple.second)[place] == surface
            }
            for surface in {(j.couple.first, j.couple.second)[place] for j in given.judgements}
        }
        for place in (0, 1)
    ]
    spread = [len({frozenset(verdicts) for verdicts in side.values()}) for side in outcomes]
    asked_about = 0 if "aluminium" in given.question.split("(")[0] else 1
    assert spread[asked_about] == max(spread)


def test_an_unknown_text_is_an_answer_and_says_what_is_missing(catalogue: Catalogue) -> None:
    given = asked(catalogue, Side(text="xyzzy 99"))
    assert given.verdict is Verdict.UNDETERMINED
    assert given.judgement is None
    assert "what surface the first text means: 'xyzzy 99'" in given.missing


def test_beside_a_plastic_the_metal_behind_it_is_asked_for(catalogue: Catalogue) -> None:
    found = asked(catalogue, Side(text="PMMA"), Side(text="A4-80"))
    assert found.verdict is Verdict.UNDETERMINED
    assert "no galvanic couple forms with it" in found.question


def test_a_refused_reading_says_that_it_was_too_loose(catalogue: Catalogue) -> None:
    given = asked(catalogue, STEELS, strictest_match=Match.EXACT)
    assert given.verdict is Verdict.UNDETERMINED
    assert "a reading as strict as was asked for" in given.missing
    assert given.question


def test_assumptions_and_gaps_of_a_reading_are_passed_on(catalogue: Catalogue) -> None:
    given = asked(catalogue, Side(text="Alu 6082, anodised"))
    leading = given.readings[0].candidates[0]
    assert {f"first: {entry}" for entry in leading.missing} <= set(given.missing)
    assert {("assumed", f"first: {entry}") for entry in leading.assumptions} <= set(given.warnings)


def test_a_text_read_by_likeness_warns(catalogue: Catalogue) -> None:
    given = asked(catalogue, Side(text="monell 400"))
    assert given.readings[0].match is Match.FUZZY
    assert "read-loosely" in {code for code, _ in given.warnings}


def test_evidence_below_the_wanted_grade_leaves_it_undetermined(catalogue: Catalogue) -> None:
    plain, strict = asked(catalogue), asked(catalogue, min_grade="A")
    assert plain.judgement is not None
    assert plain.judgement.outcome.deciding is not None
    deciding = plain.judgement.findings[plain.judgement.outcome.deciding]
    assert (deciding.grade or "Z") > "A"
    assert strict.verdict is Verdict.UNDETERMINED
    assert any(entry.startswith("evidence of grade A or better for: ") for entry in strict.missing)
    assert asked(catalogue, min_grade="E").verdict is plain.verdict


def test_a_grade_is_not_asked_of_what_cannot_be_judged(catalogue: Catalogue) -> None:
    given = asked(catalogue, Side(text="xyzzy 99"), min_grade="A")
    assert not any("evidence of grade" in entry for entry in given.missing)


def test_a_witness_without_evidence_is_named_itself(catalogue: Catalogue) -> None:
    given = asked(catalogue, environment=DRY, min_grade="A")
    assert given.judgement is not None
    if given.judgement.outcome.deciding is Witness.KINETICS:
        assert "evidence of grade A or better for: kinetics" in given.missing


def test_the_tipping_point_is_looked_for_on_request_only(catalogue: Catalogue) -> None:
    joint: dict[str, Any] = {"environment": "rural-atmosphere", "section_allowance_um": 2000.0}
    zinc = Side(material="zn-pure")
    assert asked(catalogue, zinc, **joint).tipping_point is None
    assert asked(catalogue, zinc, find_tipping_point=True, **joint).tipping_point is not None


@pytest.mark.parametrize("environment", ["no such place", ""])
def test_the_first_inquiry_that_names_nothing_usable_is_refused(
    environment: str, catalogue: Catalogue
) -> None:
    good = Inquiry(*BARE, COAST)
    with pytest.raises(InvalidInquiryError):
        answer([good, Inquiry(*BARE, environment)], catalogue)


def test_an_answer_is_the_same_alone_and_among_a_thousand(catalogue: Catalogue) -> None:
    watched = [
        Inquiry(*BARE, COAST),
        Inquiry(Side(surface=coated("steel-s235", "zn-plain", 8.0)), Side(surface=COPPER), COAST),
        Inquiry(STEELS, Side(surface=ALUMINIUM), SEA),
    ]
    materials = sorted(catalogue.materials)
    crowd = [
        Inquiry(Side(material=materials[place % len(materials)]), Side(material="ss-316"), COAST)
        for place in range(1000 - len(watched))
    ]
    together = answer([*crowd[:500], *watched, *crowd[500:]], catalogue)[500 : 500 + len(watched)]
    alone = [answer([inquiry], catalogue)[0] for inquiry in watched]
    for one, other in zip(together, alone, strict=True):
        assert json.dumps(one.document()) == json.dumps(other.document())
