"""Remedies in words, from the same record for three readers: a line, a paragraph, and the chain of steps."""

from __future__ import annotations

from service.judgement.surface_names import in_sentence, surface_name
from service.remedies.alternatives import Alternative, Alternatives
from service.remedies.blocking import Blocker
from service.remedies.mitigations import Mitigations, Remedy


def alternatives_line(found: Alternatives) -> str:
    """One line for the buyer: what to take instead."""
    if not found.ranking:
        return f"Nothing can stand in as constrained; it is held back by {found.blockers[0].constraint}."
    best = found.ranking[0]
    verdict = best.judgement.outcome.verdict.value
    return f"Take {_pair(best, found)} instead: {verdict}; {found.found} ways out in all."


def alternatives_paragraph(found: Alternatives) -> str:
    """A paragraph for the designer: what gets better, what gets worse, what else there is."""
    sentences = [alternatives_line(found)]
    if found.ranking:
        best = found.ranking[0]
        sentences.extend(_sides("It gains this", best.comparison.better))
        sentences.extend(_sides("It costs this", best.comparison.worse))
        if len(found.ranking) > 1:
            sentences.append(f"Next comes {_pair(found.ranking[1], found)}.")
    else:
        sentences.extend(_blocked(blocker) for blocker in found.blockers)
    sentences.append(f"{found.judged} couples were judged.")
    return " ".join(sentences)


def mitigations_line(found: Mitigations) -> str:
    """One line for the buyer: what has to be done to keep the joint."""
    if not found.ranking:
        return "No measure of the knowledge base makes this joint acceptable; change a surface or the place."
    best = found.ranking[0]
    return f"{_measures(best)}: {best.after.verdict.value}."


def mitigations_paragraph(found: Mitigations) -> str:
    """A paragraph for the designer: the best measure, its gain, its price, and what a mistake would do."""
    sentences = [mitigations_line(found)]
    if found.ranking:
        best = found.ranking[0]
        sentences.extend(_sides("It gains this", best.comparison.better))
        sentences.extend(_sides("It costs this", best.comparison.worse))
        if best.after.capped_because:
            sentences.append(f"It is no better than conditional: {best.after.capped_because}.")
        worst = best.mistakes[-1]
        verdict = worst.judgement.outcome.verdict.value
        sentences.append(f"Done badly ({worst.mitigation.done_badly.rstrip('.').lower()}) it is {verdict}.")
    else:
        sentences.extend(entry.detail for entry in found.insufficient[:1])
    return " ".join(sentences)


def remedy_chain(remedy: Remedy) -> list[str]:
    """Steps for the corrosion engineer: measures, judgement after each finding, conditions."""
    steps = [f"measure: {measure.name} ({measure.transform})" for measure in remedy.measures]
    for judgement in remedy.after.judgements:
        steps.extend(
            f"{witness.value}: {finding.statement}"
            for witness, finding in judgement.findings.items()
            if finding.applies
        )
    steps.append(f"verdict: {remedy.after.verdict.value}")
    if remedy.after.capped_because:
        steps.append(f"capped: {remedy.after.capped_because}")
    steps.extend(f"condition {condition.code}: {condition.action}" for condition in remedy.conditions)
    return steps


def _blocked(blocker: Blocker) -> str:
    if not blocker.options:
        return f"The nearest falls short: {blocker.example}"
    options = f"{blocker.options} options, such as {blocker.example}"
    return f"Without the constraint '{blocker.constraint}' there are {options}."


def _pair(row: Alternative, found: Alternatives) -> str:
    couple, catalogue = row.judgement.couple, found.question.catalogue
    first, second = (in_sentence(surface_name(side, catalogue)) for side in (couple.first, couple.second))
    return f"{first} against {second}"


def _measures(remedy: Remedy) -> str:
    names = [remedy.measures[0].name, *(measure.name.lower() for measure in remedy.measures[1:])]
    return ", and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else names[0]


def _sides(opening: str, sentences: tuple[str, ...]) -> list[str]:
    return [f"{opening}: {' '.join(sentences)}"] if sentences else []
