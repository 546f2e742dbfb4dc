"""The pages of one question: the form, the answer, its downloads, and what could be done instead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import orjson
from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool

from service.access.scopes import Scope
from service.catalogue.catalogue import Catalogue
from service.judgement import Function
from service.web.allowances import REQUESTS_PER_SEARCH, take_weight
from service.web.errors import Fault, InvalidRequestError, NoSuchPathError
from service.web.inquiries import inquiry_of
from service.web.pages.asked import Asked, ask
from service.web.pages.picture_files import picture_file
from service.web.pages.places import EXAMPLES, by_name, places
from service.web.pages.questions import Question, citation_of, curl_of, question_of
from service.web.pages.remedies import alternatives, mitigations
from service.web.pages.rendering import page
from service.web.pages.serving import PageRoute
from service.web.pages.suggesting import suggestions
from service.web.releases import release_for
from service.web.replies import JSON
from service.web.schemas.couples import CoupleRequest
from service.web.state import principal

router = APIRouter(include_in_schema=False, route_class=PageRoute)
FUNCTIONS = tuple(function.value for function in Function)
_UNUSABLE = 422
_LONGEST_QUERY = 200


@router.get("/")
async def show_form(request: Request) -> Response:
    """Ask for two surfaces and a place; what a link fills in need not be whole."""
    return await _form(request, replace(question_of(request), faults={}), 200)


@router.get("/ask")
async def show_answer(request: Request) -> Response:
    """Answer a question; its address is permanent once it names a release."""
    question = question_of(request)
    if question.couple is None:
        return await _form(request, question, _UNUSABLE if question.given else 200)
    asked = await _ask(request, question.couple)
    return page(request, "answer.html", **await _shown(request, question, asked))


@router.get("/ask/answer.json")
async def get_answer(request: Request) -> Response:
    """Serve the document of an answer."""
    return Response((await _ask(request, _couple(request))).body, media_type=JSON)


@router.get("/ask/pictures/{name}.{kind}")
async def get_picture(request: Request, name: str, kind: str) -> Response:
    """Serve the figures of a picture as CSV, or the picture as SVG."""
    pictures = {each.id: each for each in (await _ask(request, _couple(request))).pictures}
    if name not in pictures:
        raise NoSuchPathError(request.url.path, tuple(pictures))
    return picture_file(request, pictures[name], kind)


@router.get("/ask/alternatives")
async def show_alternatives(request: Request) -> Response:
    """Rank other finishes for both sides."""
    question, couple = question_of(request), _couple(request)
    take_weight(request, REQUESTS_PER_SEARCH)
    catalogue = (await release_for(request, couple.as_of)).catalogue

    def address(first: str, second: str) -> str:
        return question.address("/ask", first=first, second=second)

    table = await run_in_threadpool(alternatives, inquiry_of(couple, catalogue), catalogue, address)
    return _remedies(request, question, table)


@router.get("/ask/mitigations")
async def show_mitigations(request: Request) -> Response:
    """Rank measures for a couple that has to stay."""
    question, couple = question_of(request), _couple(request)
    take_weight(request, REQUESTS_PER_SEARCH)
    catalogue = (await release_for(request, couple.as_of)).catalogue
    table = await run_in_threadpool(mitigations, inquiry_of(couple, catalogue), catalogue)
    return _remedies(request, question, table)


@router.get("/suggestions")
async def suggest(request: Request) -> Response:
    """Name materials and finishes that resemble what somebody is typing."""
    principal(request).require(Scope.JUDGE)
    text = request.query_params.get("q", "")[:_LONGEST_QUERY]
    catalogue = (await release_for(request, None)).catalogue
    names = await run_in_threadpool(suggestions, text, catalogue)
    return Response(orjson.dumps(names), media_type=JSON)


async def _form(request: Request, question: Question, status: int) -> Response:
    catalogue = (await release_for(request, None)).catalogue
    return page(
        request,
        "ask.html",
        status=status,
        question=question,
        groups=places(catalogue),
        functions=FUNCTIONS,
        compounds=by_name(catalogue.compounds),
        examples=EXAMPLES,
    )


async def _ask(request: Request, couple: CoupleRequest) -> Asked:
    principal(request).require(Scope.JUDGE)
    return await ask(request, couple)


def _couple(request: Request) -> CoupleRequest:
    principal(request).require(Scope.JUDGE)
    question = question_of(request)
    if question.couple is None:
        faults = (Fault("query", f"/{name}", "unusable", text) for name, text in question.faults.items())
        raise InvalidRequestError(*faults)
    return question.couple


async def _shown(request: Request, question: Question, asked: Asked) -> dict[str, Any]:
    document = asked.document
    origin = str(request.base_url).rstrip("/")
    permanent = question.address("/ask", as_of=document["release"]["label"])
    catalogue = (await release_for(request, None)).catalogue
    return {
        "document": document,
        "names": [each["name"] or each["text"] for each in document["surfaces"].values()],
        "rest": document["summary"]["paragraph"].removeprefix(document["summary"]["line"]).strip(),
        "unknown_sides": [side for side, each in document["surfaces"].items() if each["match"] == "unknown"],
        "subjects": _subjects(document, catalogue),
        "question": question,
        "pictures": asked.pictures,
        "life": asked.life,
        "choices": asked.choices,
        "picture_address": lambda kind, name: question.address(f"/ask/pictures/{name}.{kind}"),
        "permanent": permanent,
        "copies": [
            ("copy-curl", "curl", curl_of(question, origin)),
            ("copy-citation", "citation", citation_of(document, origin + permanent)),
            ("copy-address", "address", origin + permanent),
        ],
        "groups": places(catalogue),
        "functions": FUNCTIONS,
        "compounds": by_name(catalogue.compounds),
    }


def _subjects(document: dict[str, Any], catalogue: Catalogue) -> dict[str, str]:
    """Names of what the evidence is about, by id."""
    tables: tuple[Mapping[str, Any], ...] = (catalogue.materials, catalogue.electrodes, catalogue.finishes)
    wanted = {item["subject"] for item in document["evidence"]}
    return {key: table[key].name for table in tables for key in wanted if key in table}


def _remedies(request: Request, question: Question, table: dict[str, Any]) -> Response:
    is_part = bool(request.query_params.get("fragment"))
    template = "remedies_table.html" if is_part else "remedies.html"
    return page(request, template, question=question, is_part=is_part, **table)
