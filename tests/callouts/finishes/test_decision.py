from __future__ import annotations

import pytest

from service.callouts.finishes.decision import (
    attribute_amount,
    callout_of,
    certain,
    coat_of,
    first_that_holds,
    roman_free,
    torn,
)
from service.callouts.marks import Amount, Clues, Coat, Option


def test_a_certain_decision_asks_nothing() -> None:
    decision = certain("zn-hdg", "said so")
    assert decision.options == (Option("zn-hdg", 1.0, "said so"),)
    assert decision.question == ""


def test_a_torn_decision_keeps_the_weights_and_the_question() -> None:
    decision = torn("Which?", zn_hdg=0.7, zn_plain=0.3)
    assert [(option.finish_id, option.weight) for option in decision.options] == [
        ("zn-hdg", 0.7),
        ("zn-plain", 0.3),
    ]
    assert decision.question == "Which?"


def test_the_first_rule_that_holds_decides() -> None:
    rules = ((False, "zn-plain"), (True, "zn-hdg"), (True, "zn-black"))
    assert first_that_holds(rules, certain("none-bare")) == certain("zn-hdg")


def test_without_a_rule_the_last_word_decides() -> None:
    assert first_that_holds(((False, "zn-plain"),), certain("zn-hdg")) == certain("zn-hdg")


def test_a_rule_may_leave_the_choice_open() -> None:
    choice = torn("Which?", zn_hdg=0.5, zn_plain=0.5)
    assert first_that_holds(((True, choice),), certain("zn-hdg")) is choice


def test_a_decided_coat_carries_thickness_and_question() -> None:
    choice = torn("Which?", zn_hdg=0.5, zn_plain=0.5)
    coat = coat_of("zn", choice, Amount(8.0), "galvanized")
    assert (coat.kind, coat.process, coat.amount, coat.question) == (
        "zn",
        "galvanized",
        Amount(8.0),
        "Which?",
    )


def test_a_callout_holds_the_coats_beneath() -> None:
    callout = callout_of("sn", certain("sn-matte"), "copper", None, Coat("ni"))
    assert [coat.kind for coat in callout.coats] == ["sn", "ni"]
    assert callout.basis_family == "copper"


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("I", "1"),
        ("iii", "3"),
        ("IIB", "2b"),
        ("1A", "1a"),
        ("c", "c"),
        ("00", "00"),
        ("2.5", "2.5"),
        ("X", "10"),
    ],
)
def test_roman_figures_become_arabic(text: str, wanted: str) -> None:
    assert roman_free(text) == wanted


def test_a_class_stands_for_a_thickness() -> None:
    clues = Clues(attributes=(("class", "2"),))
    assert attribute_amount(clues, "class", {"2": 7.6}) == Amount(7.6)
    assert attribute_amount(clues, "class", {"3": 5.1}) is None
    assert attribute_amount(clues, "grade", {"2": 7.6}) is None
