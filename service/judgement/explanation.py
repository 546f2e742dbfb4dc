"""One record, three readers.

A line for the buyer, a paragraph for the designer, the chain of findings for the corrosion
engineer. Deterministic, plain engineering English.
"""

from __future__ import annotations

from collections.abc import Iterable

from service.catalogue.catalogue import Catalogue
from service.judgement.findings import Anode, Witness
from service.judgement.judge import Judgement
from service.judgement.loss import COAT_BASIS
from service.judgement.reasoning import chain
from service.judgement.rule_witnesses import WITNESS_OF, severity_of
from service.judgement.rules import Hit
from service.judgement.severity import VERDICT_OF, Severity, Verdict
from service.judgement.surface_names import capitalised, in_sentence, short_names, surface_name

__all__ = ["chain", "line", "paragraph"]

_VERDICT_WORDS = {
    Verdict.SUITABLE: "may be joined {place}",
    Verdict.CONDITIONAL: "may be joined {place} under conditions",
    Verdict.UNSUITABLE: "should not be joined {place}",
    Verdict.UNDETERMINED: "cannot be judged {place} on what is known",
}
_ASK_FURTHER = ("Ask for alternatives and measures; each is judged again before it is offered.",)
_LOCAL = (Witness.CREVICE, Witness.CATHODE_DAMAGE, Witness.HAZARDS)
"""Witnesses of damage that may hit the side which the couple protects."""


def line(judgement: Judgement | None, verdict: Verdict, catalogue: Catalogue) -> str:
    """One line: may they be joined, and what suffers.

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
    first = surface_name(judgement.couple.first, catalogue)
    second = in_sentence(surface_name(judgement.couple.second, catalogue))
    name = in_sentence(judgement.environment.name)
    place = f"here ({name})" if name else "in the stated environment"
    head = f"{first} and {second} {_VERDICT_WORDS[verdict].format(place=place)}"
    harm = "" if verdict is Verdict.UNDETERMINED else _harm(judgement, catalogue)
    return f"{head}: {harm}." if harm else f"{head}."


def paragraph(judgement: Judgement | None, verdict: Verdict, question: str, opening: str) -> str:
    """What, which side, how fast, why, what to do.

    Parameters
    ----------
    judgement : Judgement or None
        The leading judgement, ``None`` where a surface is not known.
    verdict : Verdict
        That of the answer, which may differ from the judgement's where readings disagree.
    question : str
        The one question whose reply would decide; may be empty.
    opening : str
        The line for the buyer, with which it begins.

    Returns
    -------
    str
    """
    if judgement is None:
        return " ".join(part for part in ("No verdict: a surface is not known.", question) if part)
    sentences = [opening, *_reasons(judgement, verdict, question)]
    outcome = judgement.outcome
    if outcome.is_polarity_in_doubt and outcome.anode is not Anode.NONE:
        sentences.append("Which side is the anode is in doubt.")
    sentences.extend(_objections(judgement))
    if outcome.conditions:
        actions = [condition.action for condition in outcome.conditions]
        sentences.append(f"It holds if: {_numbered(actions)}")
    elif verdict is Verdict.UNSUITABLE:
        sentences.append(f"What helps: {_numbered(_advice(judgement) or _ASK_FURTHER)}")
    if others := _other_dangers(judgement):
        sentences.append(f"Mind also: {'; '.join(others)}.")
    if question:
        sentences.append(question)
    return " ".join(dict.fromkeys(sentences))


def _harm(judgement: Judgement, catalogue: Catalogue) -> str:
    """What suffers, for the end of the line."""
    outcome, severity = judgement.outcome, judgement.outcome.severity
    if severity in {None, Severity.NONE} or outcome.deciding is None:
        return ""
    assert severity is not None  # noqa: S101 - excluded above
    rule = next((hit.rule for hit in judgement.hits if _speaks_for(hit, outcome.deciding, judgement)), None)
    if rule and rule.refuses:
        return f"ruled out by a binding rule ({in_sentence(rule.name)})"
    if rule and outcome.deciding in _LOCAL:
        return f"{severity.value} risk ({in_sentence(rule.name)})"
    eaten = _eaten(judgement, catalogue)
    return f"{severity.value} attack {eaten}" if eaten else ""


def _speaks_for(hit: Hit, witness: Witness, judgement: Judgement) -> bool:
    """Whether a rule gave its witness the statement it leads with."""
    is_its = WITNESS_OF.get(hit.rule.kind) is witness and hit.match.is_certain
    return is_its and judgement.findings[witness].statement == hit.rule.statement


def _eaten(judgement: Judgement, catalogue: Catalogue) -> str:
    """Where the attack is, as the end of ``attack ...``."""
    outcome, kinetics = judgement.outcome, judgement.findings[Witness.KINETICS].figures
    anode, worst = outcome.anode, kinetics.get("side")
    if outcome.deciding is Witness.KINETICS and worst not in {None, anode.value} and anode is not Anode.NONE:
        anode = Anode.BOTH  # most of the sample names one side, its worst part the other
    if anode is Anode.BOTH:
        return "on either side" if outcome.is_polarity_in_doubt else "on both sides"
    names = short_names(judgement.couple.first, judgement.couple.second, catalogue)
    name = dict(zip((Anode.FIRST, Anode.SECOND), names, strict=True)).get(anode)
    if name is None:
        return ""
    if worst == anode.value and kinetics.get("allowance_basis") == COAT_BASIS:
        # A coat alone never counts as severe: the metal beneath is reached.
        is_through = outcome.deciding is Witness.KINETICS and outcome.severity is Severity.SEVERE
        name = f"{name} through its coat" if is_through else f"the coat of {name}"
    return f"probably on {name}" if outcome.is_polarity_in_doubt else f"on {name}"


def _reasons(judgement: Judgement, verdict: Verdict, question: str) -> list[str]:
    """What decided, and the potential difference where there is one."""
    outcome, reasons = judgement.outcome, []
    if verdict is Verdict.UNDETERMINED and outcome.verdict is not Verdict.UNDETERMINED and question:
        reasons.append(f"As the texts are most likely meant it would be {outcome.verdict.value}.")
    if outcome.deciding is not None:
        reasons.append(judgement.findings[outcome.deciding].statement)
    screening = judgement.findings[Witness.SCREENING]
    if screening.applies and screening.figures and Witness.SCREENING not in outcome.dissenting:
        reasons.append(screening.statement)
    return reasons


def _objections(judgement: Judgement) -> list[str]:
    """What the witnesses that disagree would have said; those that find nothing in one sentence."""
    findings = [judgement.findings[witness] for witness in judgement.outcome.dissenting]
    idle = [finding.witness.value for finding in findings if finding.severity is Severity.NONE]
    sentences = [
        f"{capitalised(finding.witness.value)} alone would say {VERDICT_OF[finding.severity].value} "
        f"({in_sentence(finding.statement).rstrip('.')})."
        for finding in findings
        if finding.severity not in {None, Severity.NONE}
    ]
    if idle:
        names = " and ".join(filter(None, (", ".join(idle[:-1]), idle[-1])))
        sentences.append(f"No attack worth noting by {names} alone.")
    return sentences


def _advice(judgement: Judgement) -> list[str]:
    """Advice of the rules that speak against the couple."""
    against = (
        hit.rule
        for hit in judgement.hits
        if hit.match.is_certain
        and (hit.rule.refuses or (severity_of(hit.rule) or Severity.NONE).rank >= Severity.MODERATE.rank)
    )
    return list(dict.fromkeys(rule.advice for rule in against if rule.advice))


def _other_dangers(judgement: Judgement) -> list[str]:
    """Names of the certain dangers that the paragraph has not told of by now."""
    outcome = judgement.outcome
    said = {condition.action for condition in outcome.conditions}
    if outcome.deciding:
        said.add(judgement.findings[outcome.deciding].statement)
    if outcome.verdict is Verdict.UNSUITABLE:
        said.update(_advice(judgement))
    return [
        in_sentence(hit.rule.name)
        for hit in judgement.hits
        if hit.match.is_certain
        and WITNESS_OF.get(hit.rule.kind) in _LOCAL
        and not {hit.rule.statement, hit.rule.advice} & said
    ]


def _numbered(sentences: Iterable[str]) -> str:
    """Several sentences with numbers in brackets, a single one as it is."""
    listed = list(sentences)
    if len(listed) == 1:
        return listed[0]
    return " ".join(f"({number}) {text}" for number, text in enumerate(listed, start=1))
