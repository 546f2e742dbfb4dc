"""From inquiries to answers: read the texts, judge under every reading, combine."""

from __future__ import annotations

import difflib
import itertools
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from service.callouts.reading import Match, Reading
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Condition, Surface
from service.judgement.couples import Couple
from service.judgement.errors import InvalidInquiryError
from service.judgement.inquiry import Inquiry
from service.judgement.judge import Judgement, judge
from service.judgement.policy import DEFAULT_POLICY, Policy
from service.judgement.readings import is_refused, reading_of, surfaces_of
from service.judgement.severity import Verdict
from service.judgement.tipping_point import TippingPoint, find_tipping_point

MOST_COMBINATIONS = 9
"""Pairs of readings that are judged for one inquiry."""


@dataclass(frozen=True, slots=True)
class Answer:
    """The answer to one inquiry.

    ``judgements`` holds one judgement for each pair of readings, the leading one first; ``verdict``
    is theirs where they agree. ``by_condition`` is the verdict were the finishes worn or damaged.
    """

    inquiry: Inquiry
    catalogue: Catalogue
    policy: Policy
    environment: Environment
    readings: tuple[Reading, Reading]
    judgements: tuple[Judgement, ...]
    by_condition: tuple[tuple[Condition, Judgement], ...]
    verdict: Verdict
    question: str
    warnings: tuple[tuple[str, str], ...]
    missing: tuple[str, ...]
    tipping_point: TippingPoint | None = None

    @property
    def judgement(self) -> Judgement | None:
        """The leading judgement, ``None`` where a surface is not known."""
        return self.judgements[0] if self.judgements else None

    def document(self) -> dict[str, Any]:
        """The answer as plain JSON values."""
        from service.judgement.document import document_of

        return document_of(self)


@dataclass(slots=True)
class _Prepared:
    inquiry: Inquiry
    environment: Environment
    readings: tuple[Reading, Reading]
    couples: list[Couple]
    conditions: list[tuple[Condition, Couple]]


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
        Bands, defaults and house limits.

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
    prepared = [_prepare(inquiry, catalogue) for inquiry in inquiries]
    judged = _judge_all(prepared, catalogue, policy)
    return [_answer(item, judged, catalogue, policy) for item in prepared]


def environment_of(inquiry: Inquiry, catalogue: Catalogue) -> Environment:
    """Environment of an inquiry.

    Raises
    ------
    InvalidInquiryError
        If the catalogue has none with this identifier.
    """
    if isinstance(inquiry.environment, Environment):
        return inquiry.environment
    try:
        return catalogue.environments[inquiry.environment]
    except KeyError:
        near = difflib.get_close_matches(inquiry.environment, catalogue.environments, 3, 0.4)
        raise InvalidInquiryError(
            "/environment", f"no environment with id {inquiry.environment!r}", tuple(near)
        ) from None


def _prepare(inquiry: Inquiry, catalogue: Catalogue) -> _Prepared:
    environment = environment_of(inquiry, catalogue)
    if inquiry.compound_id and inquiry.compound_id not in catalogue.compounds:
        near = difflib.get_close_matches(inquiry.compound_id, catalogue.compounds, 3, 0.4)
        raise InvalidInquiryError("/compound", f"no compound with id {inquiry.compound_id!r}", tuple(near))
    readings = (
        reading_of(inquiry.first, "/first", catalogue),
        reading_of(inquiry.second, "/second", catalogue),
    )
    refused = any(is_refused(reading, inquiry.strictest_match) for reading in readings)
    pairs = [] if refused else list(itertools.product(*(surfaces_of(reading) for reading in readings)))
    couples = [couple_of(inquiry, first, second) for first, second in pairs[:MOST_COMBINATIONS]]
    return _Prepared(inquiry, environment, readings, couples, _conditions(couples))


def couple_of(inquiry: Inquiry, first: Surface, second: Surface) -> Couple:
    """The couple of an inquiry under one pair of readings."""
    return Couple(
        first=first,
        second=second,
        first_area_m2=inquiry.first_area_m2,
        second_area_m2=inquiry.second_area_m2,
        geometry=inquiry.geometry,
        fastener_radius_m=inquiry.fastener_radius_m,
        functions=inquiry.functions,
        design_life_years=inquiry.design_life_years,
        section_allowance_um=inquiry.section_allowance_um,
        compound_id=inquiry.compound_id,
        joint_temperature_C=inquiry.joint_temperature_C,
        wear_cycles=inquiry.wear_cycles,
        is_isolated=inquiry.is_isolated,
        contact=inquiry.contact,
    )


def _conditions(couples: Sequence[Couple]) -> list[tuple[Condition, Couple]]:
    """The leading couple with its finishes worn and damaged, where it has any and they are intact."""
    if not couples or not (couples[0].first.layers or couples[0].second.layers):
        return []
    leading = couples[0]
    if any(
        side.layers and side.condition is not Condition.INTACT for side in (leading.first, leading.second)
    ):
        return []
    return [
        (
            condition,
            replace(
                leading,
                first=replace(leading.first, condition=condition) if leading.first.layers else leading.first,
                second=replace(leading.second, condition=condition)
                if leading.second.layers
                else leading.second,
            ),
        )
        for condition in (Condition.WORN, Condition.DAMAGED)
    ]


def _judge_all(
    prepared: Sequence[_Prepared], catalogue: Catalogue, policy: Policy
) -> dict[tuple[Environment, Couple], Judgement]:
    """Judge every distinct couple once, environment by environment."""
    wanted: dict[Environment, dict[Couple, None]] = defaultdict(dict)
    for item in prepared:
        for couple in (*item.couples, *(couple for _, couple in item.conditions)):
            wanted[item.environment][couple] = None
    return {
        (environment, couple): judgement
        for environment, couples in wanted.items()
        for couple, judgement in zip(
            couples, judge(list(couples), environment, catalogue, policy), strict=True
        )
    }


def _answer(
    item: _Prepared,
    judged: dict[tuple[Environment, Couple], Judgement],
    catalogue: Catalogue,
    policy: Policy,
) -> Answer:
    judgements = [judged[item.environment, couple] for couple in item.couples]
    by_condition = tuple(
        (condition, judged[item.environment, couple]) for condition, couple in item.conditions
    )
    verdict, question = _combined(item, judgements)
    missing = _missing(item, judgements)
    warnings = _warnings(item)
    if judgements and item.inquiry.min_grade:
        shortfall = _shortfall(judgements[0], item.inquiry.min_grade)
        if shortfall:
            verdict, missing = Verdict.UNDETERMINED, (*missing, *shortfall)
    tipping_point = None
    if item.inquiry.find_tipping_point and judgements:
        tipping_point = find_tipping_point(judgements[0], catalogue, policy)
    return Answer(
        inquiry=item.inquiry,
        catalogue=catalogue,
        policy=policy,
        environment=item.environment,
        readings=item.readings,
        judgements=tuple(judgements),
        by_condition=by_condition,
        verdict=verdict,
        question=question,
        warnings=warnings,
        missing=missing,
        tipping_point=tipping_point,
    )


def _combined(item: _Prepared, judgements: Sequence[Judgement]) -> tuple[Verdict, str]:
    """One verdict for all readings, or the question whose reply decides."""
    if not judgements:
        return Verdict.UNDETERMINED, next((r.question for r in item.readings if r.question), "")
    verdicts = {judgement.outcome.verdict for judgement in judgements}
    if len(verdicts) == 1:
        return verdicts.pop(), ""
    for place, reading in enumerate(item.readings):
        if reading.match is Match.AMBIGUOUS:
            options = _deciding_options(place, item, judgements)
            question = reading.question or f"Which surface does {reading.text!r} mean?"
            return Verdict.UNDETERMINED, f"{question} {options}".strip()
    return Verdict.UNDETERMINED, ""


def _deciding_options(place: int, item: _Prepared, judgements: Sequence[Judgement]) -> str:
    outcomes: dict[str, set[str]] = defaultdict(set)
    for judgement in judgements:
        surface = (judgement.couple.first, judgement.couple.second)[place]
        outcomes[_surface_name(surface)].add(judgement.outcome.verdict.value)
    del item
    parts = [f"{name}: {' or '.join(sorted(verdicts))}" for name, verdicts in outcomes.items()]
    return f"({'; '.join(parts)})"


def _surface_name(surface: Surface) -> str:
    names = [surface.material_id or surface.basis_family or "open basis"]
    names.extend(layer.finish_id for layer in surface.layers)
    return " + ".join(names)


def _missing(item: _Prepared, judgements: Sequence[Judgement]) -> tuple[str, ...]:
    missing = [entry for judgement in judgements[:1] for entry in judgement.missing]
    for name, reading in zip(("first", "second"), item.readings, strict=True):
        if reading.match is Match.UNKNOWN:
            missing.append(f"what surface the {name} text means: {reading.text!r}")
        missing.extend(
            f"{name}: {entry}" for entry in (reading.candidates[0].missing if reading.candidates else ())
        )
    if not judgements and not any(reading.match is Match.UNKNOWN for reading in item.readings):
        missing.append("a reading as strict as was asked for")
    return tuple(dict.fromkeys(missing))


def _warnings(item: _Prepared) -> tuple[tuple[str, str], ...]:
    warnings = []
    for name, reading in zip(("first", "second"), item.readings, strict=True):
        if reading.match is Match.FUZZY:
            warnings.append(("read-loosely", f"The {name} text was read by likeness; check the reading."))
        if reading.match is Match.AMBIGUOUS:
            warnings.append(("ambiguous", f"The {name} text can be read in {len(reading.candidates)} ways."))
        for candidate in reading.candidates[:1]:
            warnings.extend(("assumed", f"{name}: {assumption}") for assumption in candidate.assumptions)
    return tuple(warnings)


def _shortfall(judgement: Judgement, min_grade: str) -> tuple[str, ...]:
    deciding = judgement.outcome.deciding
    if deciding is None:
        return ()
    finding = judgement.findings[deciding]
    if finding.grade is not None and finding.grade <= min_grade:
        return ()
    figures = ", ".join(f"{table}/{record}" for table, record in finding.evidence)
    return (f"evidence of grade {min_grade} or better for: {figures or deciding.value}",)
