from __future__ import annotations

import json
from typing import Any

import pytest

from service.web.pages.rule_triggers import trigger_entries
from tests.seed_catalogue import seed_catalogue


def told(trigger: dict[str, Any]) -> dict[str, str]:
    return dict(trigger_entries("a-rule", json.dumps(trigger)))


@pytest.mark.parametrize(
    ("part", "fact", "matcher", "text"),
    [
        ("one", "electrode", ["zinc", "tin"], "is of any of 2: zinc, tin"),
        ("one", "electrode", ["zinc"], "is of zinc"),
        ("one", "is_conductive", True, "is conductive"),
        ("one", "strength_MPa", {"above": 1000}, "has a strength above 1000\u00a0MPa"),
        ("joint", "functions", {"has": "rf"}, "is for rf"),
        ("joint", "is_isolated", False, "is not isolated"),
        ("environment", "tags", {"not": {"has_any": ["ammonia"]}}, "does not match: is marked ammonia"),
    ],
)
def test_a_condition_is_written_in_words(part: str, fact: str, matcher: Any, text: str) -> None:
    assert list(told({part: {fact: matcher}}).values()) == [text]


def test_a_pair_has_two_sides() -> None:
    assert told({"pair": [{"electrode": "zinc"}, {"electrode": "tin"}]}) == {
        "Applies if one side": "is of zinc",
        "and the other side": "is of tin",
    }


def test_a_side_without_conditions_is_anything() -> None:
    assert told({"pair": [{"electrode": "zinc"}, {}]})["and the other side"] == "is anything"


def test_every_rule_can_be_told() -> None:
    for rule in seed_catalogue().rules.values():
        entries = dict(trigger_entries(rule.id, rule.trigger))
        assert entries
        assert not any("{" in text or "[" in text for text in entries.values())
