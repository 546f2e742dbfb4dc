"""Python types from the schemas of the OpenAPI document: what the client sends and what it gets back.

Results become frozen structs, bodies become typed dictionaries, closed sets of words become literals. Names
that two schemas would share are told apart here.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

Schema = Mapping[str, Any]

RENAMED = {
    "Warning": "AnswerWarning",
    "service__catalogue__surfaces__Condition": "SurfaceCondition",
    "service__web__schemas__answers__Condition": "Condition",
}
"""Schemas whose names would hide another or a built-in."""

DECIDED_BY_CALL = "View"
"""A body's choice between a whole answer and its core: the client has a method for each instead."""

SIMPLE = {"string": "str", "integer": "int", "number": "float", "boolean": "bool", "null": "None"}
FORMATS = {"date-time": "dt.datetime", "date": "dt.date"}
WIDTH = 110


def python_name(schema: str) -> str:
    """Return the name of a schema in Python."""
    return RENAMED.get(schema, schema)


def target(reference: str) -> str:
    """Return the name of the schema that a reference points to."""
    return reference.rpartition("/")[2]


def references(schema: object) -> Iterator[str]:
    """Give the names of all schemas that a schema names."""
    if isinstance(schema, Mapping):
        if "$ref" in schema:
            yield target(schema["$ref"])
        for member in schema.values():
            yield from references(member)
    elif isinstance(schema, list):
        for member in schema:
            yield from references(member)


def reachable(names: Iterable[str], schemas: Mapping[str, Schema]) -> list[str]:
    """Return these schemas and all that they need, sorted."""
    found: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting.extend(references(schemas[name]))
    return sorted(found, key=python_name)


def is_closed_set(schema: Schema) -> bool:
    """Tell whether a schema lists the words that it allows."""
    return "enum" in schema


class Types:
    """How the fields of one kind of classes are annotated."""

    def __init__(self, schemas: Mapping[str, Schema], *, is_sent: bool, module: str = "") -> None:
        self._schemas = schemas
        self._is_sent = is_sent
        self._module = module

    def of(self, schema: Schema) -> str:
        """Return the annotation of a schema."""
        if "$ref" in schema:
            return self._named(target(schema["$ref"]))
        if "anyOf" in schema:
            return " | ".join(dict.fromkeys(self.of(member) for member in schema["anyOf"]))
        if schema.get("type") == "array":
            return self._array(schema)
        if schema.get("type") == "object":
            return self._object(schema)
        if schema.get("format") in FORMATS:
            return ("str | " if self._is_sent else "") + FORMATS[schema["format"]]
        return SIMPLE[schema["type"]] if "type" in schema else "Any"

    def _named(self, name: str) -> str:
        module = "terms." if is_closed_set(self._schemas[name]) else self._module
        return module + python_name(name)

    def _array(self, schema: Schema) -> str:
        if "prefixItems" in schema:
            members = [self.of(member) for member in schema["prefixItems"]]
            return f"Sequence[{members[0]}]" if self._is_sent else f"tuple[{', '.join(members)}]"
        member = self.of(schema.get("items", {}))
        return f"Sequence[{member}]" if self._is_sent else f"tuple[{member}, ...]"

    def _object(self, schema: Schema) -> str:
        values = schema.get("additionalProperties")
        value = self.of(values) if isinstance(values, Mapping) else "Any"
        return f"Mapping[str, {value}]" if self._is_sent else f"dict[str, {value}]"


def closed_sets(names: Iterable[str], schemas: Mapping[str, Schema]) -> str:
    """Write closed sets of words, as literals."""
    parts = []
    for name in names:
        words = ", ".join(f'"{word}"' for word in schemas[name]["enum"])
        parts.append(f"{python_name(name)}: TypeAlias = Literal[{words}]\n" + _docstring(schemas[name]))
    return "\n".join(parts)


def results(names: Iterable[str], schemas: Mapping[str, Schema]) -> str:
    """Write what the service sends, as structs."""
    types = Types(schemas, is_sent=False)
    parts = []
    for name in names:
        lines = [
            f"class {python_name(name)}(Record, frozen=True, kw_only=True):",
            _docstring(schemas[name], "    "),
        ]
        for field, schema, is_required in _fields(schemas[name]):
            value = _assigned(field, schema, is_required=is_required)
            attribute = f"{field.replace('-', '_')}: {types.of(schema)}{value}"
            lines.append(f"    {attribute}\n{_docstring(schema, '    ')}")
        parts.append("\n".join(lines))
    return "\n\n".join(parts)


def bodies(names: Iterable[str], schemas: Mapping[str, Schema]) -> str:
    """Write what the client sends, as typed dictionaries."""
    types = Types(schemas, is_sent=True)
    parts = []
    for name in names:
        lines = [f"class {python_name(name)}(TypedDict, total=False):", _docstring(schemas[name], "    ")]
        for field, schema, is_required in _fields(schemas[name]):
            if DECIDED_BY_CALL not in references(schema):
                annotation = types.of(schema)
                shown = f"Required[{annotation}]" if is_required else annotation
                lines.append(f"    {field}: {shown}\n{_docstring(schema, '    ')}")
        parts.append("\n".join(lines))
    return "\n\n".join(parts)


def _fields(schema: Schema) -> Iterator[tuple[str, Schema, bool]]:
    required = schema.get("required", [])
    for field, member in schema.get("properties", {}).items():
        yield field, member, field in required


def _assigned(field: str, schema: Schema, *, is_required: bool) -> str:
    """What a field of a struct is set to: its default, and its own name where that is none in Python."""
    given = schema.get("default")
    default = "()" if isinstance(given, list) else repr(given)
    if "-" in field:
        return f' = msgspec.field(name="{field}"{"" if is_required else f", default={default}"})'
    return "" if is_required else f" = {default}"


def _docstring(schema: Schema, indent: str = "") -> str:
    return docstring(schema.get("description", ""), indent) if schema.get("description") else ""


def docstring(text: str, indent: str, rest: str = "", items: Iterable[str] = ()) -> str:
    """Write a docstring: a summary, and after a blank line each what else there is to say and a list."""
    room = WIDTH - len(indent)
    paragraphs = [textwrap.fill(_plain(part), room - 3) for part in (text, rest) if part]
    lines = [textwrap.fill(_plain(item), room, subsequent_indent="    ") for item in items]
    content = "\n\n".join([*paragraphs, *(["\n".join(lines)] if lines else [])])
    if "\n" not in content and len(content) + 6 <= room:
        return f'{indent}"""{content}"""\n'
    return textwrap.indent(f'"""{content}\n"""\n', indent)


def _plain(text: str) -> str:
    """A text in one line, as a docstring may hold it."""
    return " ".join(text.split()).replace("\\", "\\\\")
