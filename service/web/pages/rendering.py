"""From a template and its values to a page; and the few files that pages load."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from urllib.parse import urlencode

from fastapi import Request, Response
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from service.judgement.surface_names import capitalised
from service.web.conditional import is_match, quoted
from service.web.headers import PAGE_HEADERS
from service.web.pages import wording
from service.web.pages.ramp import STEPS, style_rules
from service.web.replies import tag_of
from service.web.state import services

HTML = "text/html"
_HERE = Path(__file__).parent
_OWN_FILES_ONLY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors "
)
POLICY = f"{_OWN_FILES_ONLY}'none'"
EMBEDDED_POLICY = f"{_OWN_FILES_ONLY}*"
"""For the one page that others may show inside theirs."""

ASSETS: Mapping[str, tuple[bytes, str]] = MappingProxyType(
    {
        "faying.css": ((_HERE / "static" / "faying.css").read_bytes() + style_rules().encode(), "text/css"),
        "faying.js": ((_HERE / "static" / "faying.js").read_bytes(), "text/javascript"),
        "mark.svg": ((_HERE / "static" / "mark.svg").read_bytes(), "image/svg+xml"),
    }
)
VERSION = tag_of(*(body.decode() for body, _ in ASSETS.values()))[:12]


def _query(values: Mapping[str, object]) -> str:
    """Write a query string of what is given."""
    given = {name: value for name, value in values.items() if value is not None and value != ""}
    return urlencode(given, doseq=True)


_ENVIRONMENT = Environment(
    loader=FileSystemLoader(_HERE / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_ENVIRONMENT.filters.update(
    figure=wording.figure,
    harm=wording.harm,
    ratio=wording.ratio,
    spread=wording.spread,
    words=wording.words,
    sentence=capitalised,
    readable=wording.readable,
    query=_query,
)
_ENVIRONMENT.globals.update(
    verdicts=wording.VERDICTS,
    eaten=wording.EATEN,
    lifespan=wording.lifespan,
    measured=wording.measured,
    version=VERSION,
    ramp_steps=STEPS,
)


def render(template: str, **values: object) -> bytes:
    """Fill a template."""
    return _ENVIRONMENT.get_template(template).render(**values).encode()


def page(
    request: Request, template: str, *, status: int = 200, policy: str = POLICY, **values: object
) -> Response:
    """Answer with a page, or with 304 if the browser has it."""
    who = request.scope["state"].get("principal")
    body = render(template, visitor=who, release=release_label(request), **values)
    etag = quoted(tag_of(body.decode()))
    headers = {
        **PAGE_HEADERS,
        "ETag": etag,
        "Cache-Control": "private, no-cache",
        "Content-Security-Policy": policy,
        # With no referrer at all a browser would not tell where a form of ours comes from.
        "Referrer-Policy": "same-origin",
    }
    if status == 200 and is_match(request.headers.get("if-none-match"), etag):  # noqa: PLR2004 - fine
        return Response(status_code=304, headers=headers)
    return Response(body, status, headers, HTML)


def release_label(request: Request) -> str:
    """Label of the current release, empty before the first."""
    shelf = services(request).shelf
    return shelf.current.label if shelf.current_hash else ""
