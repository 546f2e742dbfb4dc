"""Every operation of the document, and what a walk over all of them has to know about each.

A new operation is walked without a word here as long as it only reads what belongs to everybody. One that
changes something, or that names something in its path, fails the walk until it is said here whose that is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any

import orjson

PROJECT = Path(__file__).parents[2]
DOCUMENT: Mapping[str, Any] = orjson.loads((PROJECT / "openapi" / "openapi.json").read_bytes())
OPEN = {"/healthz", "/readyz"}
"""Paths that need no credentials: they tell nothing but how the process is."""


class Whose(StrEnum):
    """To whom belongs what an operation names or changes."""

    NOBODY = "nothing is kept but the caller's own copy of an answer"
    ALL = "the knowledge base, which all tenants share"
    TENANT = "the caller's tenant alone"


@dataclass(frozen=True)
class Operation:
    """One method of one path."""

    method: str
    path: str
    scopes: tuple[str, ...]
    entry: Mapping[str, Any]

    @property
    def name(self) -> str:
        """How the tables call it."""
        return f"{self.method} {self.path}"

    @property
    def names(self) -> tuple[str, ...]:
        """What its path names."""
        parameters = self.entry.get("parameters", ())
        return tuple(each["name"] for each in parameters if each["in"] == "path")

    def address(self, **values: str) -> str:
        """Write its path with names of something; what is not given does not exist."""
        nothing = {name: "0" * 64 if name == "digest" else "none" for name in self.names}
        return self.path.format(**{**nothing, **values})

    def body(self) -> Any:
        """Return the example of its body."""
        content = self.entry.get("requestBody", {}).get("content", {}).get("application/json")
        return None if content is None else example_of(content["schema"])


def example_of(schema: Mapping[str, Any]) -> Any:
    """Put the examples of a body's fields together."""
    if "$ref" in schema:
        schema = DOCUMENT["components"]["schemas"][schema["$ref"].rpartition("/")[2]]
    if "properties" not in schema:
        return next(iter(schema.get("examples", ())), None)
    found = {
        name: next(iter(field.get("examples", ())), None) for name, field in schema["properties"].items()
    }
    return {name: value for name, value in found.items() if value is not None}


OPERATIONS = tuple(
    Operation(method.upper(), path, tuple(entry["security"][0]["ApiKey"]), entry)
    for path, methods in DOCUMENT["paths"].items()
    for method, entry in methods.items()
    if path not in OPEN
)

NAMED: Mapping[str, Whose] = {
    "id": Whose.ALL,
    "label": Whose.ALL,
    "proposal_id": Whose.ALL,
    "digest": Whose.TENANT,
    "job_id": Whose.TENANT,
    "name": Whose.TENANT,
    "webhook_id": Whose.TENANT,
}
"""What a path may name, and whose it is."""

CHANGING: Mapping[str, Whose] = {
    "POST /v1/alternatives": Whose.NOBODY,
    "POST /v1/assemblies/check": Whose.NOBODY,
    "POST /v1/couples": Whose.NOBODY,
    "POST /v1/couples/batch": Whose.NOBODY,
    "POST /v1/envelopes": Whose.NOBODY,
    "POST /v1/sites/assessment": Whose.NOBODY,
    "POST /v1/mitigations": Whose.NOBODY,
    "POST /v1/resolve": Whose.NOBODY,
    "POST /v1/substitutions/check": Whose.NOBODY,
    "POST /v1/proposals": Whose.ALL,
    "POST /v1/proposals/{proposal_id}/comments": Whose.ALL,
    "POST /v1/proposals/{proposal_id}/retraction": Whose.ALL,
    "POST /v1/proposals/{proposal_id}/review": Whose.ALL,
    "POST /v1/releases": Whose.ALL,
    "POST /v1/withdrawals": Whose.ALL,
    "DELETE /v1/assemblies/stored/{name}": Whose.TENANT,
    "PUT /v1/assemblies/stored/{name}": Whose.TENANT,
    "POST /v1/jobs": Whose.TENANT,
    "DELETE /v1/jobs/{job_id}": Whose.TENANT,
    "POST /v1/webhooks": Whose.TENANT,
    "DELETE /v1/webhooks/{webhook_id}": Whose.TENANT,
    "POST /v1/webhooks/{webhook_id}/replay": Whose.TENANT,
    "PUT /v1/overlay": Whose.TENANT,
    "PUT /v1/policies/{name}": Whose.TENANT,
    "DELETE /v1/policies/{name}": Whose.TENANT,
    "POST /v1/overlay/changes": Whose.TENANT,
}
"""Operations other than GET, and whose things they change."""


def unknown() -> list[str]:
    """List what the walk meets and nobody has said anything about, and what is said of nothing."""
    named = {name for operation in OPERATIONS for name in operation.names}
    changing = {operation.name for operation in OPERATIONS if operation.method != "GET"}
    return [
        *(f"{{{name}}} in a path: say in NAMED whose it is" for name in sorted(named - set(NAMED))),
        *(f"{name}: say in CHANGING whose things it changes" for name in sorted(changing - set(CHANGING))),
        *(f"{name} is in no path" for name in sorted(set(NAMED) - named)),
        *(f"{name} is no operation" for name in sorted(set(CHANGING) - changing)),
    ]


def write_table(file_name: str, title: str, head: tuple[str, ...], rows: list[tuple[str, ...]]) -> None:
    """Write a table of a walk into build/security/, for whoever asks for it."""
    folder = PROJECT / "build" / "security"
    folder.mkdir(parents=True, exist_ok=True)
    lines = [head, tuple("---" for _ in head), *rows]
    table = "\n".join("| " + " | ".join(cells) + " |" for cells in lines)
    (folder / file_name).write_text(f"# {title}\n\n{table}\n", encoding="utf-8")
