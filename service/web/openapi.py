"""The OpenAPI 3.1 document: what FastAPI derives from the routes, plus what it cannot know."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import orjson
from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

from service.web.permissions import SCHEME, SCHEME_NAME
from service.web.schemas.problems import Problem

DESCRIPTION = """\
May two surfaces touch, in the place where they will live, for so many years, and what to do when they
may not.

Every answer names the release of the knowledge base and the engine that gave it, the evidence with its
sources, and its own address. The unit of a quantity is in its name. Requests hold nothing unknown: a
misspelt field or parameter is refused and the near name suggested. Every error is a problem document
(RFC 9457) whose type is the address of a page on this service.
"""
TAGS = [
    {"name": "Couples", "description": "Two surfaces that touch: the judgement and its address."},
    {"name": "Surfaces", "description": "From drawing text to material, finish and thickness."},
    {"name": "Knowledge base", "description": "What the judgements rest on, each figure with its source."},
    {"name": "Releases", "description": "Published states of the knowledge base, kept for ever."},
    {"name": "Service", "description": "Limits, health and this document."},
]
DOCUMENT_PATH = "/v1/openapi.json"


def build(app: FastAPI) -> dict[str, Any]:
    """Derive the document from the routes of an application."""
    document = get_openapi(
        title=app.title,
        version=app.version,
        description=app.description,
        license_info=app.license_info,
        tags=app.openapi_tags,
        routes=app.routes,
        separate_input_output_schemas=False,
    )
    components = document["components"]
    components.setdefault("securitySchemes", {})[SCHEME_NAME] = SCHEME
    schema = Problem.model_json_schema(ref_template="#/components/schemas/{model}")
    components["schemas"].update(schema.pop("$defs"))
    components["schemas"]["Problem"] = schema
    for name in ("HTTPValidationError", "ValidationError"):
        components["schemas"].pop(name, None)
    return document


def write(document: dict[str, Any]) -> bytes:
    """Write a document in the one form that is committed."""
    options = orjson.OPT_SORT_KEYS | orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE
    return orjson.dumps(document, option=options)


def export(path: Path) -> Path:
    """Write the document of this version of the service to a file."""
    from service.web.api import assemble

    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(write(assemble().openapi()))
    return path
