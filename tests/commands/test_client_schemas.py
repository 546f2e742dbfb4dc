from __future__ import annotations

from typing import Any

from service.commands.client_schemas import Types, bodies, closed_sets, docstring, reachable, results

SCHEMAS: dict[str, Any] = {
    "Verdict": {"enum": ["suitable", "unsuitable"], "description": "The answer."},
    "View": {"enum": ["full", "decision"], "type": "string"},
    "Thing": {
        "description": "A thing.",
        "properties": {
            "verdict": {"$ref": "#/components/schemas/Verdict", "description": "What is said."},
            "parts": {"type": "array", "items": {"$ref": "#/components/schemas/Part"}},
            "by_name": {"type": "object", "additionalProperties": {"type": "number"}},
            "note": {"anyOf": [{"type": "string"}, {"type": "null"}], "default": None},
            "view": {"$ref": "#/components/schemas/View"},
            "odd-name": {"type": "array", "items": {"type": "string"}, "default": []},
        },
        "required": ["verdict", "parts", "by_name"],
    },
    "Part": {"properties": {"at": {"type": "string", "format": "date-time"}}, "required": ["at"]},
    "Warning": {"properties": {"code": {"type": "string"}}},
    "Alone": {"properties": {}},
}


def test_what_is_reachable_is_found_and_nothing_else() -> None:
    assert reachable(["Thing"], SCHEMAS) == ["Part", "Thing", "Verdict", "View"]
    assert reachable(["Warning"], SCHEMAS) == ["Warning"]


def test_results_become_structs() -> None:
    written = results(["Thing", "Warning"], SCHEMAS)
    assert "class Thing(Record, frozen=True, kw_only=True):" in written
    assert '    """A thing."""' in written
    assert '    verdict: terms.Verdict\n    """What is said."""' in written
    assert "    parts: tuple[Part, ...]\n" in written
    assert "    by_name: dict[str, float]\n" in written
    assert "    note: str | None = None\n" in written
    assert '    odd_name: tuple[str, ...] = msgspec.field(name="odd-name", default=())\n' in written
    assert "class AnswerWarning(Record" in written


def test_bodies_become_typed_dictionaries_without_the_view() -> None:
    written = bodies(["Thing"], SCHEMAS)
    assert "class Thing(TypedDict, total=False):" in written
    assert "    verdict: Required[terms.Verdict]\n" in written
    assert "    parts: Required[Sequence[Part]]\n" in written
    assert "    by_name: Required[Mapping[str, float]]\n" in written
    assert "    note: str | None\n" in written
    assert "view" not in written


def test_closed_sets_become_literals() -> None:
    assert closed_sets(["Verdict"], SCHEMAS) == (
        'Verdict: TypeAlias = Literal["suitable", "unsuitable"]\n"""The answer."""\n'
    )


def test_each_kind_of_value_has_its_type() -> None:
    received, sent = Types(SCHEMAS, is_sent=False), Types(SCHEMAS, is_sent=True)
    moment = {"type": "string", "format": "date-time"}
    pair = {"type": "array", "prefixItems": [{"type": "number"}, {"type": "number"}]}
    assert (received.of(moment), sent.of(moment)) == ("dt.datetime", "str | dt.datetime")
    assert (received.of(pair), sent.of(pair)) == ("tuple[float, float]", "Sequence[float]")
    assert received.of({"type": "object", "additionalProperties": True}) == "dict[str, Any]"
    assert received.of({}) == "Any"
    assert [received.of({"type": kind}) for kind in ("integer", "boolean")] == ["int", "bool"]


def test_long_words_are_wrapped_and_a_summary_stands_alone() -> None:
    assert docstring("Short.", "    ") == '    """Short."""\n'
    written = docstring("Summary.", "    ", "word " * 60)
    first, blank, *rest = written.splitlines()
    assert (first, blank, rest[-1]) == ('    """Summary.', "", '    """')
    assert max(map(len, rest)) <= 110
    compile(f"def f():\n{docstring('back' + chr(92) + 'slash', '    ')}", "", "exec")
