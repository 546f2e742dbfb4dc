"""The OpenAPI 3.1 document: what FastAPI derives from the routes, plus what it cannot know."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import orjson
from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

from service.web.permissions import KEY, KEY_SCHEME, TOKEN, token_scheme
from service.web.problem_documents import MEDIA_TYPE
from service.web.schemas.fields import unit_of
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
    {"name": "Remedies", "description": "What to choose or do instead, every option judged again."},
    {"name": "Assemblies", "description": "Bills of materials as a whole, and substitutes for a part."},
    {"name": "Jobs", "description": "Long work: put in, looked after, read out when it is done."},
    {"name": "Changes", "description": "What has changed and why, to be read or to be sent to webhooks."},
    {"name": "Surfaces", "description": "From drawing text to material, finish and thickness."},
    {"name": "Knowledge base", "description": "What the judgements rest on, each figure with its source."},
    {"name": "Curation", "description": "How the knowledge base changes: proposal, review, audit."},
    {
        "name": "Overlay",
        "description": "What a tenant lays on top of every release: own materials, finishes, limits.",
    },
    {"name": "Policies", "description": "Rules of a house that decide beside the verdicts, kept by version."},
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
    components["securitySchemes"] = {KEY: KEY_SCHEME, TOKEN: token_scheme()}
    schema = Problem.model_json_schema(ref_template="#/components/schemas/{model}")
    components["schemas"].update(schema.pop("$defs"))
    components["schemas"]["Problem"] = schema
    for name in ("HTTPValidationError", "ValidationError"):
        components["schemas"].pop(name, None)
    for path in document["paths"].values():
        for entry in path.values():
            _add_units(entry.get("parameters", ()))
    components["responses"] = _share_problems(document["paths"])
    return document


def _add_units(parameters: Iterable[dict[str, Any]]) -> None:
    """Parameters are fields of a model that FastAPI has taken apart, so they lost what the model adds."""
    for parameter in parameters:
        parameter["schema"].pop("title", None)
        if unit := unit_of(parameter["name"]):
            parameter["schema"]["x-unit"] = unit


def _share_problems(paths: dict[str, Any]) -> dict[str, Any]:
    """Let operations refer to the problem responses that they have in common."""
    shared: dict[str, Any] = {}
    for responses in (entry["responses"] for path in paths.values() for entry in path.values()):
        for status, response in responses.items():
            examples = response.get("content", {}).get(MEDIA_TYPE, {}).get("examples")
            if examples:
                name = ".".join([status, *examples])
                shared[name] = response
                responses[status] = {"$ref": f"#/components/responses/{name}"}
    return shared


def with_endpoint(document: dict[str, Any], endpoint: str) -> dict[str, Any]:
    """Return the document of an installation whose clients get access tokens at an endpoint."""
    schemes = {**document["components"]["securitySchemes"], TOKEN: token_scheme(endpoint)}
    return {**document, "components": {**document["components"], "securitySchemes": schemes}}


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
