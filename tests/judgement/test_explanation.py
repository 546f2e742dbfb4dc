from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.explanation import chain, line, paragraph
from service.judgement.findings import Anode, Condition, Witness
from service.judgement.judge import Judgement
from service.judgement.severity import Severity, Verdict
from tests.factories.couples import ALUMINIUM, COAST, COPPER, judged


@pytest.fixture(scope="module")
def judgement(catalogue: Catalogue) -> Judgement:
    return judged(ALUMINIUM, COPPER, COAST, catalogue)


def with_outcome(judgement: Judgement, **changes: object) -> Judgement:
    return replace(judgement, outcome=replace(judgement.outcome, **changes))  # type: ignore[arg-type]


def test_the_line_names_both_sides_the_place_the_severity_and_who_suffers(
    judgement: Judgement, catalogue: Catalogue
) -> None:
    text = line(judgement, judgement.outcome.verdict, catalogue)
    aluminium, copper = catalogue.materials["al-6082-t6"].name, catalogue.materials["cu-etp"].name
    assert text.startswith(f"{aluminium} and {copper} should not be joined in ")
    assert text.endswith(f": severe attack on {aluminium}.")


@pytest.mark.parametrize(
    ("anode", "eaten"), [(Anode.SECOND, "cu-etp"), (Anode.BOTH, None), (Anode.FIRST, "al-6082-t6")]
)
def test_the_side_that_suffers_is_named(
    anode: Anode, eaten: str | None, judgement: Judgement, catalogue: Catalogue
) -> None:
    name = catalogue.materials[eaten].name if eaten else "both sides"
    turned = with_outcome(judgement, anode=anode)
    assert line(turned, Verdict.UNSUITABLE, catalogue).endswith(f"attack on {name}.")


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
    assert "in NaCl solution" in line(place, Verdict.UNSUITABLE, catalogue)


def test_the_paragraph_says_why_and_what_speaks_against_it(
    judgement: Judgement, catalogue: Catalogue
) -> None:
    deciding = judgement.outcome.deciding
    assert deciding is not None
    seal = Condition("seal", "Seal it.", "assembler", "inspection")
    disputed = with_outcome(
        judgement, dissenting=(Witness.SCREENING,), conditions=(seal,), is_polarity_in_doubt=True
    )
    text = paragraph(disputed, Verdict.CONDITIONAL, "Which alloy is it?", catalogue)
    assert judgement.findings[deciding].statement in text
    assert judgement.findings[Witness.SCREENING].statement in text
    assert "anode is in doubt" in text
    assert "screening would have led to another verdict" in text
    assert "It holds if: Seal it." in text
    assert text.endswith("Which alloy is it?")


def test_no_sentence_is_said_twice(judgement: Judgement, catalogue: Catalogue) -> None:
    screened = with_outcome(judgement, deciding=Witness.SCREENING)
    text = paragraph(screened, Verdict.UNSUITABLE, "", catalogue)
    assert text.count(judgement.findings[Witness.SCREENING].statement) == 1


def test_where_nobody_decides_the_line_stands_alone(judgement: Judgement, catalogue: Catalogue) -> None:
    silent = replace(
        with_outcome(judgement, deciding=None, dissenting=(), conditions=(), anode=Anode.NONE),
        findings={
            witness: replace(finding, abstains="silent") for witness, finding in judgement.findings.items()
        },
    )
    assert paragraph(silent, Verdict.UNDETERMINED, "", catalogue) == line(
        silent, Verdict.UNDETERMINED, catalogue
    )
    assert not any("decided by" in step for step in chain(silent))


def test_the_chain_lists_every_witness_and_who_decided(judgement: Judgement) -> None:
    steps = chain(judgement)
    assert len(steps) == len(Witness) + 1
    assert steps[-1] == f"decided by: {judgement.outcome.deciding}"
    assert any("[grade " in step and "Severity: severe." in step for step in steps)


def test_an_unknown_surface_is_said_to_be_the_reason(catalogue: Catalogue) -> None:
    assert "not known" in line(None, Verdict.UNDETERMINED, catalogue)
    text = paragraph(None, Verdict.UNDETERMINED, "Which alloy is it?", catalogue)
    assert text == "No verdict: a surface is not known. Which alloy is it?"
    assert paragraph(None, Verdict.UNDETERMINED, "", catalogue).endswith("not known.")
    assert chain(None) == []
