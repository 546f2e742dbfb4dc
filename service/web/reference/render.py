"""The pages of the reference, rendered on the server."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from service.web.problems import KINDS, ProblemKind
from service.web.reference.outline import outline

_TEMPLATES = Path(__file__).parent / "templates"
STYLES = (_TEMPLATES / "reference.css").read_bytes()
_CODE = re.compile(r"`([^`]+)`")


def _prose(text: str) -> Markup:
    """Write paragraphs and code of a description; everything else is text."""
    paragraphs = [
        _CODE.sub(r"<code>\1</code>", str(escape(part))) for part in text.split("\n\n") if part.strip()
    ]
    return Markup("".join(f"<p>{part}</p>" for part in paragraphs))  # noqa: S704 - escaped just above


_ENVIRONMENT = Environment(
    loader=FileSystemLoader(_TEMPLATES),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_ENVIRONMENT.filters["prose"] = _prose


def render_reference(document: Mapping[str, Any]) -> dict[str, bytes]:
    """Render the reference: the list of all operations under "", and each operation under its id."""
    info, sections = document["info"], outline(document)
    pages = {"": _render("reference.html", info=info, sections=sections)}
    for section in sections:
        for operation in section.operations:
            pages[operation.id] = _render("operation.html", info=info, operation=operation)
    return pages


def render_problems() -> bytes:
    """Render the list of all types of problems."""
    return _render("problems.html", kinds=KINDS)


def render_problem(kind: ProblemKind) -> bytes:
    """Render the page of one type of problem."""
    return _render("problem.html", kind=kind)


def _render(template: str, **values: object) -> bytes:
    return _ENVIRONMENT.get_template(template).render(**values).encode()
