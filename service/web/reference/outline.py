"""The OpenAPI document in the order in which people read it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from service.web.permissions import scopes_of

Schema = Mapping[str, Any]
METHODS = ("get", "post", "put", "patch", "delete")
_DEEPEST = 6


@dataclass(frozen=True, slots=True)
class Field:
    """One member of a request or response, with the members inside it."""

    name: str
    kind: str
    unit: str
    is_required: bool
    description: str
    example: str
    members: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class Reply:
    """One status that an operation may answer with. ``problems`` are addresses of problem types."""

    status: str
    description: str
    fields: tuple[Field, ...]
    problems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OperationEntry:
    """One method of one path."""

    id: str
    method: str
    path: str
    summary: str
    description: str
    scopes: tuple[str, ...]
    parameters: tuple[Field, ...]
    body: tuple[Field, ...]
    replies: tuple[Reply, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """The operations of one tag."""

    name: str
    description: str
    operations: tuple[OperationEntry, ...]


def outline(document: Mapping[str, Any]) -> tuple[Section, ...]:
    """Sort a document by tags, in the order in which it lists them."""
    reader = _Reader(document["components"])
    entries = [
        (operation, reader.operation(method, path, operation))
        for path, methods in document["paths"].items()
        for method, operation in methods.items()
        if method in METHODS
    ]
    return tuple(
        Section(
            tag["name"],
            tag["description"],
            tuple(entry for operation, entry in entries if tag["name"] in operation["tags"]),
        )
        for tag in document["tags"]
    )


class _Reader:
    def __init__(self, components: Mapping[str, Mapping[str, Schema]]) -> None:
        self._schemas = components["schemas"]
        self._responses = components["responses"]

    def operation(self, method: str, path: str, operation: Schema) -> OperationEntry:
        body = operation.get("requestBody", {}).get("content", {}).get("application/json", {})
        return OperationEntry(
            id=operation["operationId"],
            method=method.upper(),
            path=path,
            summary=operation["summary"],
            description=operation.get("description", ""),
            scopes=scopes_of(operation),
            parameters=tuple(self._parameter(parameter) for parameter in operation.get("parameters", ())),
            body=self.fields(body.get("schema", {})),
            replies=tuple(self._reply(status, reply) for status, reply in operation["responses"].items()),
        )

    def _parameter(self, parameter: Schema) -> Field:
        field = self._field(parameter["name"], parameter["schema"], _DEEPEST)
        return Field(
            name=field.name,
            kind=f"{field.kind} in {parameter['in']}",
            unit=field.unit,
            is_required=parameter.get("required", False),
            description=field.description or parameter.get("description", ""),
            example=field.example,
            members=(),
        )

    def _reply(self, status: str, reply: Schema) -> Reply:
        if "$ref" in reply:
            reply = self._responses[reply["$ref"].rpartition("/")[2]]
        content = reply.get("content", {})
        examples = content.get("application/problem+json", {}).get("examples", {})
        schema = content.get("application/json", {}).get("schema", {})
        problems = tuple(example["value"]["type"] for example in examples.values())
        return Reply(status, reply.get("description", ""), self.fields(schema), problems)

    def fields(self, schema: Schema, depth: int = 0) -> tuple[Field, ...]:
        """Return the members of all alternatives of a schema, each name once."""
        found: dict[str, Field] = {}
        for branch in self._branches(schema):
            required = branch.get("required", ())
            for name, member in branch.get("properties", {}).items():
                found.setdefault(name, self._field(name, member, depth + 1, is_required=name in required))
        return tuple(found.values())

    def _field(self, name: str, schema: Schema, depth: int, *, is_required: bool = False) -> Field:
        examples = schema.get("examples", ())
        inner = [item for branch in self._branches(schema) for item in (branch, branch.get("items", {}))]
        members = (
            {field.name: field for item in inner for field in self.fields(item, depth)}
            if depth < _DEEPEST
            else {}
        )
        return Field(
            name=name,
            kind=self._kind(schema),
            unit=schema.get("x-unit", ""),
            is_required=is_required,
            description=self._description(schema),
            example=json.dumps(examples[0], ensure_ascii=False) if examples else "",
            members=tuple(members.values()),
        )

    def _description(self, schema: Schema) -> str:
        """Return a field's own words, or those of the one schema that it refers to."""
        if "description" in schema or "$ref" not in schema:
            return str(schema.get("description", ""))
        return next((str(branch.get("description", "")) for branch in self._branches(schema)), "")

    def _kind(self, schema: Schema) -> str:
        kinds = []
        for branch in self._branches(schema):
            kind = branch.get("type", "any value")
            if "enum" in branch:
                kind = " | ".join(str(value) for value in branch["enum"])
            elif kind == "array":
                kind = f"list of {self._kind(branch.get('items', {}))}"
            kinds.append(f"{kind}{_bounds(branch)}")
        return " or ".join(dict.fromkeys(kinds))

    def _branches(self, schema: Schema) -> Iterator[Schema]:
        if "$ref" in schema:
            yield from self._branches(self._schemas[schema["$ref"].rpartition("/")[2]])
            return
        # Beside a type, alternatives only tell which members belong together.
        alternatives: Sequence[Schema] = () if "type" in schema else schema.get("anyOf", ())
        for alternative in alternatives:
            yield from self._branches(alternative)
        if not alternatives:
            yield schema


_BOUNDS = {
    "minimum": "≥ {}",
    "exclusiveMinimum": "> {}",
    "maximum": "≤ {}",
    "exclusiveMaximum": "< {}",
    "maxLength": "at most {} characters",
    "maxItems": "at most {} items",
}


def _bounds(schema: Schema) -> str:
    parts = [text.format(f"{schema[name]:g}") for name, text in _BOUNDS.items() if name in schema]
    return f" ({', '.join(parts)})" if parts else ""
