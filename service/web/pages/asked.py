"""Everything that the page of an answer shows, gathered in one place off the event loop."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import orjson
from fastapi import Request
from starlette.concurrency import run_in_threadpool

from service.callouts import format_surface
from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Answer, Inquiry, answer
from service.judgement.curves import polarization_curves
from service.judgement.surface_names import surface_name
from service.remedies.measures import Life, life_of
from service.web.answering import kept_answer
from service.web.identity import identify
from service.web.inquiries import inquiry_of
from service.web.pages.drawing import Picture
from service.web.pages.pictures import pictures_of
from service.web.pages.polarization import polarization
from service.web.releases import release_for
from service.web.schemas.couples import CoupleRequest


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to read a text, with the text that says it plainly and the verdict it leads to."""

    side: str
    name: str
    text: str
    verdict: str


@dataclass(frozen=True, slots=True)
class Asked:
    """An answer with what is drawn and offered beside it."""

    document: dict[str, Any]
    body: bytes
    pictures: list[Picture]
    life: Life | None
    choices: list[Choice]


async def ask(request: Request, couple: CoupleRequest) -> Asked:
    """Answer a question for a page.

    Raises
    ------
    InvalidInquiryError
        If it names something that does not exist.
    UnknownReleaseError
        If ``as_of`` names no release.
    """
    release = await release_for(request, couple.as_of)
    inquiry = inquiry_of(couple, release.catalogue)
    identity = identify(inquiry, release.catalogue, DEFAULT_POLICY)
    kept = await kept_answer(request, inquiry, identity, release.catalogue)
    return await run_in_threadpool(_gather, kept.body, inquiry, release.catalogue)


def _gather(body: bytes, inquiry: Inquiry, catalogue: Catalogue) -> Asked:
    document = orjson.loads(body)
    # Judged again, because curves and life need more than the document holds.
    (judged,) = answer([replace(inquiry, find_tipping_point=False)], catalogue, DEFAULT_POLICY)
    pictures, life = pictures_of(document), None
    if judged.judgement:
        life = life_of(judged.judgement, catalogue, DEFAULT_POLICY)
        if curves := polarization_curves(judged.judgement, catalogue):
            names = {key: electrode.name for key, electrode in catalogue.electrodes.items()}
            pictures.insert(min(1, len(pictures)), polarization(curves, document, names))
    return Asked(document, body, pictures, life, _choices(judged, catalogue))


def _choices(judged: Answer, catalogue: Catalogue) -> list[Choice]:
    """Readings of every text that can be read in more than one way."""
    found = []
    for side, reading in zip(("first", "second"), judged.readings, strict=True):
        if len(reading.candidates) < 2:  # noqa: PLR2004 - one reading is no choice
            continue
        for candidate in reading.candidates:
            if text := format_surface(candidate.surface, catalogue):
                verdicts = {
                    judgement.outcome.verdict.value
                    for judgement in judged.judgements
                    if getattr(judgement.couple, side) == candidate.surface
                }
                name = surface_name(candidate.surface, catalogue)
                found.append(Choice(side, name, text, " or ".join(sorted(verdicts))))
    return found
