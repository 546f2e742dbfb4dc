"""When a rule applies, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from service.judgement.triggers import parse
from service.web.pages.wording import figure, words

_HEADINGS = {
    "one": "Applies if either side",
    "environment": "Applies where the place",
    "joint": "Applies if the joint",
    "computed": "Applies if it is computed that",
}
_FACTS = {
    "electrode": "is of", "basis_electrode": "is made of", "finish_role": "is finished with a coat that is",
    "finish": "is finished with", "finishes": "bears among its finishes", "family": "belongs to",
    "substances": "holds", "material": "is", "tags": "is marked", "exposure": "is of the kind",
    "electrolyte_class": "has an electrolyte of the class", "functions": "is for",
    "environment": "is", "compound": "holds the compound", "anode": "the anode is the",
}  # fmt: skip
"""How a fact is asked for; any other is named and compared."""

_UNIT_OF = {"C": "°C", "MPa": "MPa", "V": "V", "um": "µm", "pct": "%"}


def trigger_entries(rule_id: str, trigger: str) -> Iterator[tuple[str, str]]:
    """Yield what must hold, part by part, as a heading and a text."""
    parsed = parse(rule_id, trigger)
    for part, content in parsed.items():
        if part == "pair":
            yield "Applies if one side", _conditions(content[0])
            yield "and the other side", _conditions(content[1])
        else:
            yield _HEADINGS[part], _conditions(content)


def _conditions(content: Mapping[str, Any]) -> str:
    told = "; and ".join(_condition(fact, matcher) for fact, matcher in content.items())
    return told or "is anything"


def _condition(fact: str, matcher: Any) -> str:
    asked = _FACTS.get(fact, f"has a {words(fact)} of")
    if isinstance(matcher, bool):
        return f"{'is' if matcher else 'is not'} {words(fact.removeprefix('is_'))}"
    if not isinstance(matcher, dict):
        return f"{asked} {_named(matcher)}"
    operator, operand = next(iter(matcher.items()))
    if operator == "not":
        return f"does not match: {_condition(fact, operand)}"
    if operator in {"above", "below"}:
        stem, _, unit = fact.rpartition("_")
        named = words(stem if unit in _UNIT_OF else fact)
        return f"has a {named} {operator} {figure(float(operand), _UNIT_OF.get(unit, ''))}"
    return f"{asked} {_named(operand)}"


def _named(operand: Any) -> str:
    """Write one name, or several of which any will do."""
    if not isinstance(operand, list):
        return words(str(operand))
    names = [words(str(each)) for each in operand]
    return names[0] if len(names) == 1 else f"any of {len(names)}: {', '.join(names)}"
