"""The question behind a page: from its address to a request, and back to addresses and texts to copy."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from fastapi import Request
from pydantic import ValidationError

from service.web.pages.wording import readable
from service.web.schemas.couples import CoupleQuery, CoupleRequest

Pairs = list[tuple[str, str]]
FIELDS = tuple(CoupleQuery.model_fields)
_MANY = {"functions"}


@dataclass(frozen=True, slots=True)
class Question:
    """A couple as the address of a page holds it. ``faults`` are by field; then there is no ``couple``."""

    given: Pairs
    couple: CoupleRequest | None
    faults: Mapping[str, str]

    @property
    def first_values(self) -> dict[str, str]:
        """What was given, one value for each field, to fill the form again."""
        return dict(reversed(self.given))

    @property
    def functions(self) -> list[str]:
        """The functions that were ticked."""
        return [value for name, value in self.given if name == "functions"]

    def address(self, path: str, **changed: str | None) -> str:
        """Write the same question for another path, with some fields replaced or left out."""
        pairs = [(name, value) for name, value in self.given if name not in changed]
        pairs += [(name, value) for name, value in changed.items() if value]
        return f"{path}?{urlencode(pairs)}" if pairs else path


def question_of(request: Request) -> Question:
    """Read a question; fields left blank in a form count as not given."""
    given = [
        (name, value.strip())
        for name, value in request.query_params.multi_items()
        if name in FIELDS and value.strip()
    ]
    values: dict[str, Any] = dict(given)
    if functions := [value for name, value in given if name in _MANY]:
        values["functions"] = functions
    values.pop("view", None)
    try:
        return Question(given, CoupleQuery.model_validate(values).to_request(), {})
    except ValidationError as error:
        return Question(given, None, {str(each["loc"][0]): _sentence(each) for each in error.errors()})


def _sentence(entry: Mapping[str, Any]) -> str:
    return "Please fill this in." if entry["type"] == "missing" else f"{entry['msg']}."


def curl_of(question: Question, origin: str) -> str:
    """Write the question as a command; the key stays a variable."""
    parts = [
        f"curl --get {shlex.quote(origin + '/v1/couples')}",
        '--header "Authorization: Bearer $FAYING_KEY"',
    ]
    parts += [f"--data-urlencode {shlex.quote(f'{name}={value}')}" for name, value in question.given]
    return " \\\n  ".join(parts)


def citation_of(document: Mapping[str, Any], address: str) -> str:
    """Write how a report may cite an answer."""
    names = [readable(each["name"] or each["text"]) for each in document["surfaces"].values()]
    release = document["release"]
    return (
        f"Faying {document['engine']}, release {release['label']} ({release['content_hash'][:12]}): "
        f"{names[0]} with {names[1]}, {document['environment']['name']}: {document['verdict']}. {address}"
    )
