"""Chosen surfaces against each other in one place: who may touch whom, at a glance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.catalogue.catalogue import Catalogue
from service.judgement import Answer, Inquiry, Side, Verdict, answer
from service.judgement.findings import Witness
from service.judgement.surface_names import surface_name
from service.web.errors import NoSuchRecordError
from service.web.nearness import nearest
from service.web.pages.places import DEFAULT_PLACE, DEMO_SURFACES, places
from service.web.pages.ramp import STEPS, bounds_of, step_of
from service.web.pages.rendering import page
from service.web.pages.serving import PageRoute
from service.web.pages.wording import figure
from service.web.releases import release_for
from service.web.schemas.surfaces import MAX_TEXT
from service.web.state import principal

MOST_SURFACES = 14
_ORDER = (Verdict.UNSUITABLE, Verdict.UNDETERMINED, Verdict.CONDITIONAL, Verdict.SUITABLE)

router = APIRouter(include_in_schema=False, route_class=PageRoute)


@dataclass(frozen=True, slots=True)
class Cell:
    """One pair. ``row`` and ``column`` count surfaces from 1; ``eaten`` is one of them, or 0 for neither."""

    row: int
    column: int
    verdict: str
    eaten: int
    ratio: float | None
    step: int | None
    address: str


@router.get("/matrix")
async def show_matrix(request: Request) -> Response:
    """Judge every pair of the chosen surfaces."""
    principal(request).require(Scope.JUDGE)
    catalogue = (await release_for(request, None)).catalogue
    given = request.query_params.get("surfaces")
    lines = DEMO_SURFACES if given is None else [line.strip()[:MAX_TEXT] for line in given.splitlines()]
    texts = list(dict.fromkeys(line for line in lines if line))
    place = request.query_params.get("environment") or DEFAULT_PLACE
    if place not in catalogue.environments:
        raise NoSuchRecordError("environments", place, nearest(place, catalogue.environments))
    shown = texts[:MOST_SURFACES]
    names, cells = await run_in_threadpool(judge_pairs, shown, place, catalogue)
    return page(
        request,
        "matrix.html",
        texts=shown,
        names=names,
        cells={(cell.row, cell.column): cell for cell in cells},
        ranked=sorted(cells, key=_urgency),
        left_out=len(texts) - len(shown),
        place=place,
        place_name=catalogue.environments[place].name,
        groups=places(catalogue),
        scale=[_step_words(step) for step in range(STEPS)],
    )


def judge_pairs(texts: Sequence[str], environment: str, catalogue: Catalogue) -> tuple[list[str], list[Cell]]:
    """Judge all pairs of texts in one batch; return how each text was read, and the cells.

    Raises
    ------
    InvalidInquiryError
        If the environment does not exist.
    """
    numbers = list(combinations(range(len(texts)), 2))
    inquiries = [Inquiry(Side(text=texts[b]), Side(text=texts[a]), environment) for a, b in numbers]
    answers = answer(inquiries, catalogue)
    names = list(texts)
    cells = []
    for (column, row), found in zip(numbers, answers, strict=True):
        for place, reading in zip((row, column), found.readings, strict=True):
            if reading.candidates:
                names[place] = surface_name(reading.candidates[0].surface, catalogue)
        query = {"first": texts[row], "second": texts[column], "environment": environment}
        cells.append(_cell(row + 1, column + 1, found, f"/ask?{urlencode(query)}"))
    return names, cells


def _cell(row: int, column: int, found: Answer, address: str) -> Cell:
    judgement = found.judgement
    ratio = eaten = None
    # Where readings disagree the leading one's figure would pass for an answer.
    if judgement and found.verdict is not Verdict.UNDETERMINED:
        loss = judgement.findings[Witness.KINETICS].figures.get("loss_over_allowance")
        ratio = loss["high"] if loss else None
        eaten = {"first": row, "second": column}.get(judgement.outcome.anode.value)
    step = None if ratio is None else step_of(ratio)
    return Cell(row, column, found.verdict.value, eaten or 0, ratio, step, address)


def _urgency(cell: Cell) -> tuple[int, float]:
    return _ORDER.index(Verdict(cell.verdict)), -(cell.ratio or 0.0)


def _step_words(step: int) -> str:
    low, high = bounds_of(step)
    if step == 0:
        return f"up to {figure(high)}"
    return f"from {figure(low)}" if step == STEPS - 1 else f"{figure(low)} to {figure(high)}"
