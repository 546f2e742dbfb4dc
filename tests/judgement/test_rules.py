from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from service.catalogue.records import Obtained, Rule, RuleKind
from service.judgement.facts import Facts
from service.judgement.rules import hits, matches

ALUMINIUM = {
    "electrode": "aluminium-6xxx",
    "family": "aluminium",
    "strength_MPa": 310.0,
    "finishes": frozenset(),
}
COPPER = {
    "electrode": "copper",
    "family": "copper",
    "strength_MPa": None,
    "finishes": frozenset({"sn-matte"}),
}
FACTS = Facts(
    first=ALUMINIUM,
    second=COPPER,
    environment={"pH": 8.1, "tags": frozenset({"biofilm"}), "temperature_C": None},
    joint={"functions": frozenset({"power contact"}), "area_ratio": 0.1},
    computed_values={"difference_V": 0.5, "anode": "first"},
)


def rule(trigger: str) -> Rule:
    return Rule(
        id=f"rule-{abs(hash(trigger))}",
        kind=RuleKind.HAZARD,
        name="a rule",
        trigger=trigger,
        severity="moderate",
        anode="first",
        refuses=False,
        affects=(),
        statement="",
        advice="",
        caution="",
        source_id="from-memory",
        locator="",
        obtained=Obtained.FROM_MEMORY,
        note="",
    )


def test_a_pair_matches_in_the_order_asked() -> None:
    match = matches(rule('{"pair":[{"family":"aluminium"},{"family":"copper"}]}'), FACTS)
    assert match is not None
    assert match.is_certain
    assert not match.is_swapped


def test_a_pair_matches_in_reverse_order() -> None:
    match = matches(rule('{"pair":[{"family":"copper"},{"family":"aluminium"}]}'), FACTS)
    assert match is not None
    assert match.is_swapped


def test_a_pair_that_fits_neither_way_does_not_match() -> None:
    assert matches(rule('{"pair":[{"family":"copper"},{"family":"copper"}]}'), FACTS) is None


@pytest.mark.parametrize(
    ("trigger", "expected"),
    [
        ('{"one":{"strength_MPa":{"above":300}}}', True),
        ('{"one":{"electrode":["zinc","copper"]}}', True),
        ('{"one":{"finishes":{"has":"sn-matte"}}}', True),
        ('{"one":{"finishes":{"has_any":["ag-electro","sn-matte"]}}}', True),
        ('{"environment":{"pH":{"above":9}}}', False),
        ('{"environment":{"pH":{"below":9}}}', True),
        ('{"environment":{"tags":{"has":"biofilm"}}}', True),
        ('{"environment":{"tags":{"not":{"has":"biofilm"}}}}', False),
        ('{"joint":{"functions":{"has":"power contact"},"area_ratio":{"below":1}}}', True),
        ('{"computed":{"difference_V":{"above":0.25}}}', True),
        ('{"computed":{"difference_V":{"above":0.75}}}', False),
        ('{"environment":{"pH":8.1}}', True),
    ],
)
def test_matchers(trigger: str, *, expected: bool) -> None:
    assert (matches(rule(trigger), FACTS) is not None) is expected


def test_an_unknown_fact_leaves_the_rule_open() -> None:
    match = matches(rule('{"environment":{"temperature_C":{"above":60}}}'), FACTS)
    assert match is not None
    assert not match.is_certain
    assert match.unknown == ("environment.temperature_C",)


def test_not_of_an_unknown_fact_is_open_too() -> None:
    match = matches(rule('{"environment":{"temperature_C":{"not":{"above":60}}}}'), FACTS)
    assert match is not None
    assert not match.is_certain


def test_the_computed_anode_turns_with_the_pair() -> None:
    trigger = '{"pair":[{"family":"copper"},{"family":"aluminium"}],"computed":{"anode":"second"}}'
    match = matches(rule(trigger), FACTS)
    assert match is not None
    assert match.is_swapped


def test_many_couples_are_answered_as_if_alone() -> None:
    rules = [rule('{"one":{"family":"copper"}}'), rule('{"pair":[{"family":"aluminium"},{}]}')]
    other = replace(FACTS, first=COPPER, second=COPPER)
    together = hits(rules, [FACTS, other, FACTS])
    assert together == [hits(rules, [facts])[0] for facts in (FACTS, other, FACTS)]
    assert [len(found) for found in together] == [2, 1, 2]


def test_the_order_of_the_rules_is_kept() -> None:
    rules = [rule('{"one":{"family":"copper"}}'), rule('{"one":{"family":"aluminium"}}')]
    assert [hit.rule for hit in hits(rules, [FACTS])[0]] == rules


def test_a_couple_that_matches_both_ways_counts_as_asked() -> None:
    match = matches(rule('{"pair":[{"family":"copper"},{"family":"copper"}]}'), replace(FACTS, first=COPPER))
    assert match is not None
    assert not match.is_swapped


def test_a_certain_match_in_reverse_beats_an_open_one_as_asked() -> None:
    unnamed = {**ALUMINIUM, "family": None}
    facts = replace(FACTS, first=unnamed)
    match = matches(rule('{"pair":[{"family":"copper"},{"electrode":"aluminium-6xxx"}]}'), facts)
    assert match is not None
    assert match.is_certain
    assert match.is_swapped


def test_every_unknown_fact_is_named_once_with_its_part() -> None:
    unnamed: dict[str, Any] = dict.fromkeys(ALUMINIUM)
    facts = replace(FACTS, first=unnamed, second=unnamed, computed_values={"difference_V": None})
    match = matches(
        rule('{"pair":[{"family":"zinc"},{"strength_MPa":1}],"computed":{"difference_V":{"above":1}}}'), facts
    )
    assert match is not None
    assert match.unknown == ("computed.difference_V", "surface.family", "surface.strength_MPa")


def test_no_couples_and_no_rules_give_no_hits() -> None:
    assert hits([], [FACTS]) == [[]]
    assert hits([rule('{"one":{"family":"copper"}}')], []) == []


@pytest.mark.parametrize(
    "trigger",
    [
        '{"one":{"family":"copper","electrode":"silver"}}',
        '{"pair":[{"family":"aluminium"},{"family":"copper","electrode":"silver"}]}',
        '{"joint":{"functions":{"has":"power contact"},"area_ratio":{"above":1}}}',
        '{"environment":{"pH":{"below":9},"tags":{"has":"sulfide"}}}',
    ],
)
def test_all_conditions_of_a_part_must_hold(trigger: str) -> None:
    assert matches(rule(trigger), FACTS) is None
    shorter = rule('{"one":{"family":"copper"}}')
    assert [hit.rule for hit in hits([shorter, rule(trigger)], [FACTS])[0]] == [shorter]


def test_all_parts_must_hold_of_the_same_couple() -> None:
    asked = rule('{"one":{"family":"copper"},"joint":{"area_ratio":{"below":1}}}')
    wide = replace(FACTS, joint={**FACTS.joint, "area_ratio": 10.0})
    assert [len(found) for found in hits([asked], [FACTS, wide, FACTS])] == [1, 0, 1]
