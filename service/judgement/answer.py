"""From inquiries to answers: read the texts, judge under every reading, combine."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from service.callouts.reading import Match
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Exposure
from service.catalogue.surfaces import Surface
from service.judgement.answer_record import AnswerRecord
from service.judgement.couples import Couple, Geometry
from service.judgement.document import document_of
from service.judgement.inquiry import Inquiry
from service.judgement.judge import Judgement, judge
from service.judgement.policy import DEFAULT_POLICY, Policy
from service.judgement.preparation import Prepared, distinct_couples, prepare
from service.judgement.severity import Verdict
from service.judgement.surface_names import surface_name
from service.judgement.tipping_point import find_tipping_point

_SIDES = ("first", "second")


@dataclass(frozen=True, slots=True)
class Answer(AnswerRecord):
    """The answer to one inquiry, which can be written down as a document."""

    def document(self) -> dict[str, Any]:
        """The answer as plain JSON values."""
        return document_of(self)


def answer(
    inquiries: Sequence[Inquiry], catalogue: Catalogue, policy: Policy = DEFAULT_POLICY
) -> list[Answer]:
    """Answer inquiries in order.

    Parameters
    ----------
    inquiries : sequence of Inquiry
    catalogue : Catalogue
        The release to answer by.
    policy : Policy
        Bands [-], default life [years], allowances [um] and house limits [V].

    Returns
    -------
    list of Answer
        One for each inquiry; a batch gives the same answers as its items asked alone.

    Raises
    ------
    InvalidInquiryError
        For the first inquiry that names nothing usable (unknown environment or compound,
        impossible structure); an unknown drawing text is an answer, not an error.
    """
    prepared = [prepare(inquiry, catalogue) for inquiry in inquiries]
    judged = {
        environment: dict(zip(couples, judge(couples, environment, catalogue, policy), strict=True))
        for environment, couples in distinct_couples(prepared).items()
    }
    return [_answer(item, judged[item.environment], catalogue, policy) for item in prepared]


def _answer(
    item: Prepared,
    judged: Mapping[Couple, Judgement],
    catalogue: Catalogue,
    policy: Policy,
) -> Answer:
    judgements = tuple(judged[couple] for couple in item.couples)
    verdict, question = _combined(item, judgements, catalogue)
    missing = _missing(item, judgements)
    shortfall = _shortfall(item, judgements)
    if shortfall:
        verdict, missing = Verdict.UNDETERMINED, (*missing, shortfall)
    tipping_point = None
    if item.inquiry.find_tipping_point and judgements:
        tipping_point = find_tipping_point(judgements[0], catalogue, policy)
    return Answer(
        inquiry=item.inquiry,
        catalogue=catalogue,
        policy=policy,
        environment=item.environment,
        readings=item.readings,
        judgements=judgements,
        by_condition=tuple((condition, judged[couple]) for condition, couple in item.by_condition),
        verdict=verdict,
        question=question,
        warnings=_warnings(item, catalogue),
        missing=missing,
        tipping_point=tipping_point,
    )


def _combined(item: Prepared, judgements: Sequence[Judgement], catalogue: Catalogue) -> tuple[Verdict, str]:
    """One verdict for all readings, or the question whose reply decides."""
    if not judgements:
        return Verdict.UNDETERMINED, _question_of_the_unread(item)
    verdicts = {judgement.outcome.verdict for judgement in judgements}
    if len(verdicts) == 1:
        return verdicts.pop(), ""
    return Verdict.UNDETERMINED, _question(item, judgements, catalogue)


def _question_of_the_unread(item: Prepared) -> str:
    """Ask about the text that is not known before one that is only open."""
    unknown = next((reading for reading in item.readings if reading.match is Match.UNKNOWN), None)
    if unknown is None:
        return next((reading.question for reading in item.readings if reading.question), "")
    if unknown.is_insulator:
        return f"{unknown.reason}: no galvanic couple forms with it. Which metal lies in it or behind it?"
    near = f" Near it: {', '.join(unknown.suggestions[:3])}." if unknown.suggestions else ""
    return f"{unknown.question or f'Which surface does {unknown.text!r} mean?'}{near}"


def _question(item: Prepared, judgements: Sequence[Judgement], catalogue: Catalogue) -> str:
    """Ask about the side whose reading decides, with the verdict that each reading leads to."""
    sides: tuple[dict[str, set[str]], dict[str, set[str]]] = ({}, {})
    for judgement in judgements:
        for outcomes, surface in zip(sides, (judgement.couple.first, judgement.couple.second), strict=True):
            name = surface_name(surface, catalogue)
            outcomes.setdefault(name, set()).add(judgement.outcome.verdict.value)
    place = max(
        (0, 1), key=lambda side: (len({frozenset(v) for v in sides[side].values()}), len(sides[side]))
    )
    options = "; ".join(f"{name}: {' or '.join(sorted(verdicts))}" for name, verdicts in sides[place].items())
    reading = item.readings[place]
    return f"{reading.question or f'Which surface does {reading.text!r} mean?'} ({options})"


def _missing(item: Prepared, judgements: Sequence[Judgement]) -> tuple[str, ...]:
    missing = [entry for judgement in judgements[:1] for entry in judgement.missing]
    for name, reading in zip(_SIDES, item.readings, strict=True):
        if reading.match is Match.UNKNOWN:
            missing.append(f"what surface the {name} text means: {reading.text!r}")
        for candidate in reading.candidates[:1]:
            missing.extend(f"{name}: {entry}" for entry in candidate.missing)
    if not judgements and not any(reading.match is Match.UNKNOWN for reading in item.readings):
        missing.append("a reading as strict as was asked for")
    return tuple(dict.fromkeys(missing))


def _warnings(item: Prepared, catalogue: Catalogue) -> tuple[tuple[str, str], ...]:
    warnings = []
    for name, reading in zip(_SIDES, item.readings, strict=True):
        if reading.match is Match.FUZZY:
            warnings.append(("read-loosely", f"The {name} text was read by likeness; check the reading."))
        if reading.match is Match.AMBIGUOUS:
            warnings.append(("ambiguous", f"The {name} text can be read in {len(reading.candidates)} ways."))
        for candidate in reading.candidates[:1]:
            warnings.extend(("assumed", f"{name}: {assumption}") for assumption in candidate.assumptions)
            warnings.extend(("banned", f"{name}: {ban}") for ban in _bans(candidate.surface, catalogue))
    if item.inquiry.geometry is Geometry.PIPE and item.environment.exposure is not Exposure.IMMERSED:
        warnings.append(
            ("not-filled", "The pipe is not full of water here: its wall is judged under a film.")
        )
    return tuple(warnings)


def _bans(surface: Surface, catalogue: Catalogue) -> Iterator[str]:
    """What the house says against the finishes of a surface; it changes no verdict."""
    for layer in surface.layers:
        if layer.finish_id in catalogue.bans:
            finish, reason = catalogue.finishes[layer.finish_id], catalogue.bans[layer.finish_id]
            yield f"{finish.name} is banned by the house: {reason}"


def _shortfall(item: Prepared, judgements: Sequence[Judgement]) -> str:
    """What evidence the leading verdict lacks against the grade that was asked for; empty if none."""
    wanted = item.inquiry.min_grade
    deciding = judgements[0].outcome.deciding if judgements else None
    if not wanted or deciding is None:
        return ""
    finding = judgements[0].findings[deciding]
    if finding.grade is not None and finding.grade <= wanted:
        return ""
    figures = ", ".join(f"{table}/{record}" for table, record in finding.evidence)
    return f"evidence of grade {wanted} or better for: {figures or deciding.value}"
