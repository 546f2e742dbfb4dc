"""The client's operations from the OpenAPI document: a function for each, and two classes that bind them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.commands.client_schemas import Schema, Types, docstring, python_name, references, target

WRITTEN_BY_HAND = {
    "judge_couples": "a stream",
    "start_job": "its body is that of another operation",
    "get_job_results": "its results are those of another operation",
    "get_assembly_template": "a file",
    "export_release": "a file",
    "find_envelope": "its bytes are kept as they are",
}
"""Operations that the document does not describe closely enough, with the reason."""

MAY_REPEAT = {
    "judge_couple", "resolve_texts", "find_alternatives", "find_mitigations", "check_assembly",
    "check_substitution", "assess_site", "replay_webhook",
}  # fmt: skip
"""Operations behind POST that only compute, or set what they set: they may be sent twice as they are."""

FOR_FILES = {"check_assembly"}
"""Operations whose query parameters are about uploaded files, which have a method of their own."""

VIEWS = {
    "judge_couple": "decide_couple",
    "judge_couple_by_text": "decide_couple_by_text",
    "get_answer": "get_decision",
}
"""Operations that give a whole answer or its core, and what the second is called."""

_CALL_NAMES = {"if-match": "if_match", "limit": "page_size"}
"""Parameters that are called otherwise in Python; listings go on after ``limit`` items."""

_KEY = "Idempotency-Key"
_SET_BY_CLIENT = {"view", "cursor", _KEY}


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation of the document."""

    name: str
    method: str
    path: str
    entry: Mapping[str, Any]

    def parameters(self, place: str) -> list[Mapping[str, Any]]:
        """Return the parameters in a place: path, query or header."""
        if place == "query" and self.name in FOR_FILES:
            return []
        found = [each for each in self.entry.get("parameters", ()) if each["in"] == place]
        return [each for each in found if each["name"] not in _SET_BY_CLIENT]

    @property
    def is_done_once(self) -> bool:
        """Whether the service does it once for each Idempotency-Key."""
        return any(each["name"] == _KEY for each in self.entry.get("parameters", ()))

    def body(self) -> str | None:
        """Return the schema of the JSON body."""
        content = self.entry.get("requestBody", {}).get("content", {})
        schema = content.get("application/json", {}).get("schema", {})
        return target(schema["$ref"]) if "$ref" in schema else None

    def results(self) -> list[str]:
        """Return the schemas of the JSON that comes back: none, one, or answer and decision."""
        for status, response in self.entry["responses"].items():
            if status.startswith("2"):
                return list(references(response.get("content", {}).get("application/json", {})))
        return []


def operations(document: Mapping[str, Any]) -> Iterator[Operation]:
    """Give the operations of a document that the client has."""
    for path, entries in document["paths"].items():
        for method, entry in entries.items():
            if method in {"get", "post", "put", "patch", "delete"}:
                yield Operation(entry["operationId"], method.upper(), path, entry)


def calls(document: Mapping[str, Any]) -> str:
    """Write a function for each operation that describes one call of it."""
    schemas = document["components"]["schemas"]
    written = [
        _function(operation, name, result, schemas)
        for operation in operations(document)
        if operation.name not in WRITTEN_BY_HAND
        for name, result in _variants(operation)
    ]
    return "\n\n".join(written)


def methods(document: Mapping[str, Any]) -> str:
    """Write the two classes that have every operation as a method."""
    schemas = document["components"]["schemas"]
    named = [
        (name, _item(result, schemas) is not None)
        for operation in operations(document)
        if operation.name not in WRITTEN_BY_HAND
        for name, result in _variants(operation)
    ]
    classes = []
    for title, prefix, summary in (
        ("BlockingMethods", "Blocking", "Every operation of the document, called and waited for."),
        ("AwaitedMethods", "Awaited", "Every operation of the document, to be awaited."),
    ):
        lines = [f"class {title}:", f'    """{summary}"""', ""]
        for name, is_listing in named:
            lines.append(f"    {name} = {prefix}{'Listing' if is_listing else 'Call'}(calls.{name})")
        classes.append("\n".join(lines) + "\n")
    return "\n\n".join(classes)


def _variants(operation: Operation) -> list[tuple[str, str | None]]:
    """The functions of an operation: its name and the schema of its result."""
    found = operation.results()
    if operation.name in VIEWS:
        return [(operation.name, "Answer"), (VIEWS[operation.name], "Decision")]
    if len(found) > 1:
        message = f"{operation.name} has several results: add it to VIEWS or WRITTEN_BY_HAND"
        raise ValueError(message)
    return [(operation.name, found[0] if found else None)]


def _function(operation: Operation, name: str, result: str | None, schemas: Mapping[str, Schema]) -> str:
    body = operation.body()
    has_plain_body = body is not None and _collides(operation, schemas[body])
    signature = _signature(operation, body, has_plain_body=has_plain_body, schemas=schemas)
    item = _item(result, schemas)
    returned = f"Listing[results.{python_name(item)}]" if item else f"Flow[{_result(result)}]"
    summary = operation.entry["summary"]
    summary += "" if summary.endswith("?") else "."
    keywords = _keywords(operation, None if has_plain_body or body is None else schemas[body], schemas)
    told = docstring(summary, "    ", operation.entry.get("description", ""), keywords)
    made = _made(operation, name)
    call = "Listing" if item else "ask" if result else "ask_nothing"
    rest = f", {_result(result)}" if result else ""
    return (
        f"def {name}({signature}) -> {returned}:\n{told}"
        f"    request = {made}\n    return {call}(request{rest})\n"
    )


def _keywords(operation: Operation, body: Schema | None, schemas: Mapping[str, Schema]) -> list[str]:
    """What each parameter and each member of the body means, for whoever asks for help."""
    told = [
        (_CALL_NAMES.get(each["name"], each["name"]), {**each["schema"], **each}, each.get("required", False))
        for place in ("path", "query", "header")
        for each in operation.parameters(place)
    ]
    members = body or {"properties": {}}
    for name, member in members["properties"].items():
        if name != "view":
            told.append((name, member, name in members.get("required", ())))
    told.sort(key=lambda each: not each[2])
    return [
        f"{name}: {_meaning(schema, schemas)}{' Required.' if is_needed else ''}"
        for name, schema, is_needed in told
    ]


def _meaning(schema: Schema, schemas: Mapping[str, Schema]) -> str:
    """What is said of a parameter, and the words that it may be."""
    named = [schemas[name] for name in references(schema)]
    text = schema.get("description") or next((each.get("description", "") for each in named), "")
    words: list[str] = next((each["enum"] for each in named if "enum" in each), [])
    return f"{text} One of: {', '.join(words)}." if words else text


def _result(result: str | None) -> str:
    return f"results.{python_name(result)}" if result else "None"


def _collides(operation: Operation, body: Schema) -> bool:
    """Whether a member of the body has the name of a parameter, so that it cannot be a keyword."""
    named = {each["name"] for place in ("path", "query") for each in operation.parameters(place)}
    return bool(named & body["properties"].keys())


def _signature(
    operation: Operation, body: str | None, *, has_plain_body: bool, schemas: Mapping[str, Schema]
) -> str:
    types = Types(schemas, is_sent=True, module="bodies.")
    parts = [f"{each['name']}: {types.of(each['schema'])}" for each in operation.parameters("path")]
    parts += [f"body: bodies.{body}"] if has_plain_body else []
    keywords = []
    for each in (*operation.parameters("query"), *operation.parameters("header")):
        annotation = types.of(each["schema"]).replace(" | None", "")
        is_needed = each.get("required", False)
        name = _CALL_NAMES.get(each["name"], each["name"])
        keywords.append(f"{name}: {annotation}" + ("" if is_needed else " | None = None"))
    if operation.is_done_once:
        keywords.append("idempotency_key: str | None = None")
    if keywords:
        parts += ["*", *keywords]
    if body and not has_plain_body:
        parts.append(f"**body: Unpack[bodies.{body}]")
    return ", ".join(parts)


def _made(operation: Operation, name: str) -> str:
    """Write the request of an operation."""
    arguments = [f'"{operation.method}"', _address(operation)]
    query = [_passed(each["name"]) for each in operation.parameters("query")]
    view = _view(operation, name)
    if view and operation.method == "GET":
        query.append(f'"view": "{view}"')
    if query:
        arguments.append(f"query={{{', '.join(query)}}}")
    if operation.body():
        arguments.append(f'body={{**body, "view": "{view}"}}' if view else "body=body")
    headers = [_passed(each["name"]) for each in operation.parameters("header")]
    if headers:
        arguments.append(f"headers={{{', '.join(headers)}}}")
    if operation.is_done_once:
        arguments.append("key=idempotency_key or new_key()")
    if operation.name in MAY_REPEAT:
        arguments.append("may_repeat=True")
    return f"Request({', '.join(arguments)})"


def _passed(name: str) -> str:
    return f'"{name}": {_CALL_NAMES.get(name, name)}'


def _view(operation: Operation, name: str) -> str:
    if operation.name not in VIEWS:
        return ""
    return "full" if name == operation.name else "decision"


def _address(operation: Operation) -> str:
    names = re.findall(r"{(\w+)}", operation.path)
    if not names:
        return f'"{operation.path}"'
    return f'address("{operation.path}", {", ".join(f"{name}={name}" for name in names)})'


def _item(result: str | None, schemas: Mapping[str, Schema]) -> str | None:
    """The schema of the items if a result is a page of a listing."""
    members = schemas[result]["properties"] if result else {}
    if not {"items", "next"} <= members.keys():
        return None
    return next(references(members["items"]), None)
