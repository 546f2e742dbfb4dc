from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.errors import MalformedTriggerError
from service.judgement.triggers import Truth, holds, numbers_hold, parse


@pytest.mark.parametrize(
    ("matcher", "fact", "expected"),
    [
        ("zinc", "zinc", Truth.YES),
        ("zinc", "copper", Truth.NO),
        (["zinc", "copper"], "copper", Truth.YES),
        (["zinc", "copper"], "silver", Truth.NO),
        ({"above": 9}, 9.1, Truth.YES),
        ({"above": 9}, 9.0, Truth.NO),
        ({"below": 9}, 8.9, Truth.YES),
        ({"below": 9}, 9.0, Truth.NO),
        ({"has": "biofilm"}, frozenset({"biofilm", "uv"}), Truth.YES),
        ({"has": "biofilm"}, frozenset({"uv"}), Truth.NO),
        ({"has_any": ["a", "b"]}, frozenset({"b"}), Truth.YES),
        ({"has_any": ["a", "b"]}, frozenset({"c"}), Truth.NO),
        ({"not": {"above": 9}}, 8.0, Truth.YES),
        ({"not": {"above": 9}}, 10.0, Truth.NO),
        ({"not": "zinc"}, "copper", Truth.YES),
        (True, False, Truth.NO),
    ],
)
def test_a_matcher_holds_or_not(matcher: Any, fact: Any, expected: Truth) -> None:
    assert holds(matcher, fact) is expected


@pytest.mark.parametrize("matcher", ["zinc", ["zinc"], {"above": 1}, {"not": {"has": "x"}}, {"not": "zinc"}])
def test_what_is_not_known_neither_matches_nor_denies(matcher: Any) -> None:
    assert holds(matcher, None) is Truth.OPEN


@pytest.mark.parametrize(
    "trigger",
    [
        "not json",
        "[]",
        "{}",
        '{"weather":{}}',
        '{"pair":[{}]}',
        '{"pair":{}}',
        '{"one":[]}',
        '{"one":{"colour":"red"}}',
        '{"environment":{"pH":{"above":1,"below":2}}}',
        '{"environment":{"pH":{"near":7}}}',
        '{"environment":{"pH":{"not":{"near":7}}}}',
    ],
)
def test_a_malformed_trigger_is_refused_by_name(trigger: str) -> None:
    with pytest.raises(MalformedTriggerError) as caught:
        parse("broken", trigger)
    assert caught.value.rule_id == "broken"


def test_every_rule_of_the_seed_can_be_read(catalogue: Catalogue) -> None:
    parsed = {entry.id: parse(entry.id, entry.trigger) for entry in catalogue.rules.values()}
    assert len(parsed) == len(catalogue.rules) > 60


@pytest.mark.parametrize(
    "matcher",
    [{"above": 10}, {"below": 0.25}, {"not": {"below": 0.25}}, 10, [0.25, 10, "ten"], {"not": [10]}, "ten"],
)
def test_many_figures_satisfy_a_matcher_as_each_does_alone(matcher: object) -> None:
    figures = [-1.0, 0.0, 0.25, 0.2500001, 10.0, 1e4]
    alone = [holds(matcher, value) is Truth.YES for value in figures]
    assert numbers_hold(matcher, np.array(figures)).tolist() == alone
