"""One record, three readers.

A line for the buyer, a paragraph for the designer, the chain of findings for the corrosion
engineer. Deterministic, plain engineering English.
"""

from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.judgement.findings import Anode, Witness
from service.judgement.judge import Judgement
from service.judgement.severity import Severity, Verdict
from service.judgement.surface_names import surface_name

_VERDICT_WORDS = {
    Verdict.SUITABLE: "may be joined",
    Verdict.CONDITIONAL: "may be joined under conditions",
    Verdict.UNSUITABLE: "should not be joined",
    Verdict.UNDETERMINED: "cannot be judged on what is known",
}


def line(judgement: Judgement | None, verdict: Verdict, catalogue: Catalogue) -> str:
    """One line: may they be joined, and which side suffers.

    Parameters
    ----------
    judgement : Judgement or None
        The leading judgement, ``None`` where a surface is not known.
    verdict : Verdict
        That of the answer, which may differ from the judgement's where readings disagree.
    catalogue : Catalogue

    Returns
    -------
    str
    """
    if judgement is None:
        return "The couple cannot be judged: a surface is not known."
    first, second = _names(judgement, catalogue)
    place = _lower(judgement.environment.name) or "the stated environment"
    head = f"{first} and {second} {_VERDICT_WORDS[verdict]} in {place}"
    eaten = _eaten(judgement, catalogue)
    severity = judgement.outcome.severity
    if verdict is Verdict.UNDETERMINED or severity in {None, Severity.NONE} or not eaten:
        return f"{head}."
    assert severity is not None  # noqa: S101 - excluded above
    return f"{head}: {severity.value} attack on {eaten}."


def paragraph(judgement: Judgement | None, verdict: Verdict, question: str, catalogue: Catalogue) -> str:
    """What, which side, how fast, why, what to do.

    Parameters
    ----------
    judgement : Judgement or None
        The leading judgement, ``None`` where a surface is not known.
    verdict : Verdict
        That of the answer, which may differ from the judgement's where readings disagree.
    question : str
        The one question whose reply would decide; may be empty.
    catalogue : Catalogue

    Returns
    -------
    str
    """
    if judgement is None:
        return " ".join(part for part in ("No verdict: a surface is not known.", question) if part)
    sentences = [line(judgement, verdict, catalogue)]
    outcome = judgement.outcome
    if outcome.deciding is not None:
        sentences.append(judgement.findings[outcome.deciding].statement)
    if outcome.deciding is not Witness.SCREENING and judgement.findings[Witness.SCREENING].applies:
        sentences.append(judgement.findings[Witness.SCREENING].statement)
    if outcome.is_polarity_in_doubt and outcome.anode is not Anode.NONE:
        sentences.append("Which side is the anode is in doubt.")
    if outcome.dissenting:
        names = ", ".join(witness.value for witness in outcome.dissenting)
        sentences.append(f"Not all witnesses agree: {names} would have led to another verdict.")
    if outcome.conditions:
        sentences.append("It holds if: " + " ".join(condition.action for condition in outcome.conditions))
    if question:
        sentences.append(question)
    return " ".join(dict.fromkeys(sentences))


def chain(judgement: Judgement | None) -> list[str]:
    """Every finding in order, with the grade of its evidence; abstentions say why.

    Parameters
    ----------
    judgement : Judgement or None

    Returns
    -------
    list of str
        One step for each witness and the one that decided.
    """
    if judgement is None:
        return []
    steps = []
    for witness, finding in judgement.findings.items():
        grade = f" [grade {finding.grade}]" if finding.grade else ""
        severity = f" Severity: {finding.severity.value}." if finding.severity is not None else ""
        steps.append(f"{witness.value}: {finding.statement}{severity}{grade}")
    outcome = judgement.outcome
    if outcome.deciding is not None:
        steps.append(f"decided by: {outcome.deciding.value}")
    return steps


def _names(judgement: Judgement, catalogue: Catalogue) -> tuple[str, str]:
    couple = judgement.couple
    return surface_name(couple.first, catalogue), surface_name(couple.second, catalogue)


def _eaten(judgement: Judgement, catalogue: Catalogue) -> str:
    first, second = _names(judgement, catalogue)
    return {Anode.FIRST: first, Anode.SECOND: second, Anode.BOTH: "both sides"}.get(
        judgement.outcome.anode, ""
    )


def _lower(name: str) -> str:
    """A name within a sentence; an abbreviation keeps its capitals."""
    word = name.split(" ", 1)[0]
    return name[:1].lower() + name[1:] if word[1:].islower() else name
