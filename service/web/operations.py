"""What the OpenAPI document says about one operation, for checking requests against it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import FastAPI

from service.access.scopes import Scope
from service.web.permissions import scopes_of

JSON = "application/json"


@dataclass(frozen=True, slots=True)
class Operation:
    """One method of one path. ``schemas`` are the components that its own schemas refer to."""

    query: Mapping[str, Mapping[str, Any]]
    body: Mapping[str, Any] | None
    produces: tuple[str, ...]
    scopes: tuple[Scope, ...]
    schemas: Mapping[str, Any]

    @classmethod
    def of(cls, app: FastAPI, path: str, method: str) -> Operation:
        """Look an operation up in the application's document."""
        document = app.openapi()
        entry = document["paths"][path][method.lower()]
        parameters = entry.get("parameters", ())
        body = entry.get("requestBody", {}).get("content", {}).get(JSON)
        produces = {
            media_type
            for status, response in entry["responses"].items()
            if status.startswith("2")
            for media_type in response.get("content", ())
        }
        return cls(
            query={each["name"]: each.get("schema", {}) for each in parameters if each["in"] == "query"},
            body=body["schema"] if body else None,
            produces=tuple(sorted(produces)) or (JSON,),
            scopes=scopes_of(entry),
            schemas=document["components"]["schemas"],
        )

    def is_repeatable(self, name: str) -> bool:
        """Whether a query parameter may come several times."""
        return any(branch.get("type") == "array" for branch in self._branches(self.query[name]))

    def members_at(self, location: str, path: tuple[str | int, ...]) -> tuple[str, ...]:
        """Return the names that are known where ``path`` ends in an unknown one."""
        if location == "query":
            return tuple(self.query)
        places = [self.body or {}]
        for step in path[:-1]:
            places = [inner for place in places for inner in self._step(place, step)]
        names = (name for place in places for branch in self._branches(place) for name in _names(branch))
        return tuple(dict.fromkeys(names))

    def _step(self, place: Mapping[str, Any], step: str | int) -> Iterator[Mapping[str, Any]]:
        for branch in self._branches(place):
            if isinstance(step, int):
                if "items" in branch:
                    yield branch["items"]
            elif step in branch.get("properties", {}):
                yield branch["properties"][step]

    def _branches(self, schema: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
        """Follow references and alternatives down to plain schemas."""
        if "$ref" in schema:
            yield from self._branches(self.schemas[schema["$ref"].rpartition("/")[2]])
            return
        # Beside a type, alternatives only tell which members belong together.
        alternatives = [] if "type" in schema else [*schema.get("anyOf", ()), *schema.get("oneOf", ())]
        for alternative in alternatives:
            yield from self._branches(alternative)
        if not alternatives:
            yield schema


def _names(schema: Mapping[str, Any]) -> Iterator[str]:
    yield from schema.get("properties", {})
