from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement.couples import Function
from service.judgement.explanation import chain, line, paragraph
from service.judgement.findings import Anode, Condition, Witness
from service.judgement.judge import Judgement
from service.judgement.severity import Severity, Verdict
from service.judgement.surface_names import in_sentence
from tests.factories.couples import ALUMINIUM, COAST, COPPER, DRY, SEA, STAINLESS, coated, judged


@pytest.fixture(scope="module")
def judgement(catalogue: Catalogue) -> Judgement:
    return judged(ALUMINIUM, COPPER, COAST, catalogue)


def with_outcome(judgement: Judgement, **changes: object) -> Judgement:
    return replace(judgement, outcome=replace(judgement.outcome, **changes))  # type: ignore[arg-type]


def told(judgement: Judgement | None, verdict: Verdict, question: str, catalogue: Catalogue) -> str:
    return paragraph(judgement, verdict, question, line(judgement, verdict, catalogue))


def test_the_line_names_both_sides_the_place_the_severity_and_who_suffers(
    judgement: Judgement, catalogue: Catalogue
) -> None:
    text = line(judgement, judgement.outcome.verdict, catalogue)
    aluminium, copper = catalogue.materials["al-6082-t6"].name, catalogue.materials["cu-etp"].name
    assert text.startswith(f"{aluminium} and {in_sentence(copper)} should not be joined here (")
    assert text.endswith("): severe attack on aluminium 6082 T6.")


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"anode": Anode.SECOND, "deciding": Witness.EXPERIENCE}, "attack on copper."),
        ({"is_polarity_in_doubt": True}, "attack probably on aluminium 6082 T6."),
        ({"anode": Anode.BOTH}, "attack on both sides."),
        ({"anode": Anode.SECOND, "is_polarity_in_doubt": True}, "attack on either side."),
    ],
)
def test_the_side_that_suffers_is_named(
    changes: dict[str, object], words: str, judgement: Judgement, catalogue: Catalogue
) -> None:
    turned = with_outcome(judgement, **changes)
    assert line(turned, Verdict.UNSUITABLE, catalogue).endswith(words)


def test_a_coat_that_suffers_is_named_as_one(catalogue: Catalogue) -> None:
    galvanized = judged(coated("steel-s235", "zn-hdg", 70.0), COPPER, COAST, catalogue)
    spent = with_outcome(galvanized, severity=Severity.MODERATE)
    assert "attack on the coat of structural steel S235JR" in line(spent, Verdict.CONDITIONAL, catalogue)
    through = with_outcome(galvanized, severity=Severity.SEVERE, deciding=Witness.KINETICS)
    assert "severe attack on structural steel S235JR through its coat" in line(
        through, Verdict.UNSUITABLE, catalogue
    )


def test_a_rule_that_decides_is_named(catalogue: Catalogue) -> None:
    earth = judged(ALUMINIUM, COPPER, COAST, catalogue, functions=(Function.PROTECTIVE_EARTH,))
    assert "ruled out by a binding rule (" in line(earth, Verdict.UNSUITABLE, catalogue)
    assert "What helps: (1) " in told(earth, Verdict.UNSUITABLE, "", catalogue)


def test_a_danger_that_decides_is_no_attack_on_the_anode(catalogue: Catalogue) -> None:
    crevice = judged(STAINLESS, Surface("bronze-nab"), SEA, catalogue)
    found = with_outcome(crevice, deciding=Witness.CREVICE)
    text = line(found, Verdict.CONDITIONAL, catalogue)
    assert "attack on" not in text
    assert "risk (crevice attack of " in text


@pytest.mark.parametrize(
    ("verdict", "changes"),
    [
        (Verdict.SUITABLE, {"severity": Severity.NONE}),
        (Verdict.UNDETERMINED, {}),
        (Verdict.CONDITIONAL, {"anode": Anode.NONE}),
        (Verdict.UNDETERMINED, {"severity": None}),
    ],
)
def test_without_attack_nothing_is_said_of_it(
    verdict: Verdict, changes: dict[str, object], judgement: Judgement, catalogue: Catalogue
) -> None:
    assert "attack" not in line(with_outcome(judgement, **changes), verdict, catalogue)


def test_an_environment_without_a_name_is_the_stated_one(judgement: Judgement, catalogue: Catalogue) -> None:
    unnamed = replace(judgement, environment=replace(judgement.environment, name=""))
    assert "in the stated environment" in line(unnamed, Verdict.UNSUITABLE, catalogue)


def test_an_abbreviation_keeps_its_capitals(judgement: Judgement, catalogue: Catalogue) -> None:
    place = replace(judgement, environment=replace(judgement.environment, name="NaCl solution"))
    assert "here (NaCl solution)" in line(place, Verdict.UNSUITABLE, catalogue)


def test_the_paragraph_says_why_and_what_speaks_against_it(
    judgement: Judgement, catalogue: Catalogue
) -> None:
    deciding = judgement.outcome.deciding
    assert deciding is not None
    seal = Condition("seal", "Seal it.", "assembler", "inspection")
    disputed = with_outcome(
        judgement, dissenting=(Witness.SCREENING,), conditions=(seal,), is_polarity_in_doubt=True
    )
    text = told(disputed, Verdict.CONDITIONAL, "Which alloy is it?", catalogue)
    assert judgement.findings[deciding].statement in text
    assert "Screening alone would say unsuitable (the potential difference is " in text
    assert "anode is in doubt" in text
    assert "It holds if: Seal it." in text
    assert text.endswith("Which alloy is it?")


def test_witnesses_that_find_nothing_share_a_sentence(judgement: Judgement, catalogue: Catalogue) -> None:
    idle = {
        witness: replace(judgement.findings[witness], severity=Severity.NONE)
        for witness in (Witness.SCREENING, Witness.EXPERIENCE)
    }
    disputed = replace(
        with_outcome(judgement, dissenting=tuple(idle)), findings={**judgement.findings, **idle}
    )
    text = told(disputed, Verdict.UNSUITABLE, "", catalogue)
    assert "No attack worth noting by screening and experience alone." in text


def test_other_dangers_are_named_at_the_end(catalogue: Catalogue) -> None:
    tin, brass = coated("cu-etp", "sn-matte", 5.0), Surface("brass-cuzn30")
    power = judged(tin, brass, DRY, catalogue, functions=(Function.POWER_CONTACT,))
    assert told(power, Verdict.SUITABLE, "", catalogue).endswith("Mind also: tin whiskers.")


def test_without_advice_the_way_out_is_named(judgement: Judgement, catalogue: Catalogue) -> None:
    bare = replace(judgement, hits=())
    assert "What helps: Ask for alternatives" in told(bare, Verdict.UNSUITABLE, "", catalogue)


def test_readings_that_disagree_say_what_the_likeliest_would_be(
    judgement: Judgement, catalogue: Catalogue
) -> None:
    text = told(judgement, Verdict.UNDETERMINED, "Which alloy is it?", catalogue)
    assert "As the texts are most likely meant it would be unsuitable." in text


def test_no_sentence_is_said_twice(judgement: Judgement, catalogue: Catalogue) -> None:
    screened = with_outcome(judgement, deciding=Witness.SCREENING)
    text = told(screened, Verdict.UNSUITABLE, "", catalogue)
    assert text.count(judgement.findings[Witness.SCREENING].statement) == 1


def test_where_nobody_decides_the_line_stands_alone(judgement: Judgement, catalogue: Catalogue) -> None:
    silent = replace(
        with_outcome(
            judgement,
            deciding=None,
            dissenting=(),
            conditions=(),
            anode=Anode.NONE,
            verdict=Verdict.UNDETERMINED,
        ),
        hits=(),
        findings={
            witness: replace(finding, abstains="silent") for witness, finding in judgement.findings.items()
        },
    )
    assert told(silent, Verdict.UNDETERMINED, "", catalogue) == line(silent, Verdict.UNDETERMINED, catalogue)
    assert not any("decided by" in step for step in chain(silent, catalogue))


def test_an_unknown_surface_is_said_to_be_the_reason(catalogue: Catalogue) -> None:
    assert "not known" in line(None, Verdict.UNDETERMINED, catalogue)
    text = told(None, Verdict.UNDETERMINED, "Which alloy is it?", catalogue)
    assert text == "No verdict: a surface is not known. Which alloy is it?"
    assert told(None, Verdict.UNDETERMINED, "", catalogue).endswith("not known.")
    assert chain(None, catalogue) == []
