"""An answer inside somebody else's page: a small page for a frame, and a badge."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from service.access.scopes import Scope
from service.web.pages.asked import ask
from service.web.pages.questions import question_of
from service.web.pages.rendering import EMBEDDED_POLICY, page
from service.web.pages.serving import PageRoute
from service.web.pages.wording import VERDICTS
from service.web.state import principal

router = APIRouter(include_in_schema=False, route_class=PageRoute)
FOR_ANY_SITE = {"Cross-Origin-Resource-Policy": "cross-origin"}
_COLOURS = {
    "suitable": "#246b3c",
    "conditional": "#8a5a00",
    "unsuitable": "#a12a22",
    "undetermined": "#565d66",
}
_CHARACTER_WIDTH = 7.6


@router.get("/embed")
async def show_embedded(request: Request) -> Response:
    """Answer a question on a page that other sites may frame."""
    principal(request).require(Scope.JUDGE)
    question = question_of(request)
    asked = await ask(request, question.couple) if question.couple else None
    response = page(
        request,
        "embed.html",
        status=200 if asked else 422,
        policy=EMBEDDED_POLICY,
        question=question,
        document=asked.document if asked else None,
        life=asked.life if asked else None,
    )
    response.headers.update(FOR_ANY_SITE)
    return response


@router.get("/badge.svg")
async def show_badge(request: Request) -> Response:
    """Draw a verdict as a badge."""
    principal(request).require(Scope.JUDGE)
    question = question_of(request)
    verdict = "undetermined"
    if question.couple:
        verdict = (await ask(request, question.couple)).document["verdict"]
    headers = {"Cache-Control": "private, no-cache", **FOR_ANY_SITE}
    return Response(badge(verdict), headers=headers, media_type="image/svg+xml")


def badge(verdict: str) -> str:
    """Write a badge: the shape and the word of a verdict, looking the same on any page."""
    wording, colour = VERDICTS[verdict], _COLOURS[verdict]
    width = 34 + round(_CHARACTER_WIDTH * len(wording.word)) + 8
    return str(
        Markup(
            '<svg xmlns="http://www.w3.org/2000/svg" width="{w}" height="28" viewBox="0 0 {w} 28" role="img" '
            'aria-label="{word}"><title>{word}</title><rect x="0.5" y="0.5" width="{inner}" height="27" '
            'rx="5" fill="#fff" stroke="{colour}"/><g transform="translate(7 5) scale(0.75)" fill="none" '
            'stroke="{colour}" stroke-width="2.6" stroke-linecap="round"><path d="{outline}"/>'
            '<path d="{mark}"/></g>'
            '<text x="33" y="19" font-family="system-ui, sans-serif" font-size="14" font-weight="600" '
            'fill="{colour}">{word}</text></svg>'
        ).format(
            w=width,
            inner=width - 1,
            word=wording.word,
            colour=colour,
            outline=wording.outline,
            mark=wording.mark,
        )
    )
