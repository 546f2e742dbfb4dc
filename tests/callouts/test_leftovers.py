from __future__ import annotations

import pytest

from service.callouts.leftovers import hidden_finishes, trailing_codes
from service.callouts.lexicon import tokens_of
from service.callouts.marks import Mark, Process, Unread
from service.callouts.normalise import normalise


@pytest.mark.parametrize(
    "word", ["MFZn", "ZnXY", "zincklated", "Kryptoplating", "Sonderbeschichtung", "superoxidiert"]
)
def test_a_word_that_smells_of_a_finish_is_reported(word: str) -> None:
    normalised = normalise(f"ADC12 {word}")
    unread = tokens_of(normalised.text)[1:]
    assert hidden_finishes(unread, [], normalised, f"ADC12 {word}") == [word]


@pytest.mark.parametrize("word", ["Agency", "Nickerson", "bracket", "A4711", "Snap", "oxid"])
def test_other_words_are_let_pass(word: str) -> None:
    text = f"part {word}"
    normalised = normalise(text)
    assert hidden_finishes(tokens_of(normalised.text)[1:], [], normalised, text) == []


def test_an_unknown_document_is_reported_as_written() -> None:
    text = "Steel, BAC5732"
    normalised = normalise(text)
    marks = [Mark(7, 14, Unread("bac5732"))]
    assert hidden_finishes([], marks, normalised, text) == ["BAC5732"]


def test_capital_codes_behind_the_material_are_noticed() -> None:
    text = "XX 304 ZC Steel LONGCODE A1 zc"
    normalised = normalise(text)
    assert trailing_codes(tokens_of(normalised.text), 6, normalised, text) == ["ZC"]


@pytest.mark.parametrize("word", ["Sulfinuzized", "borocarbidiert", "teflonizing"])
def test_a_word_for_a_treatment_is_reported(word: str) -> None:
    normalised = normalise(f"steel {word}")
    assert hidden_finishes(tokens_of(normalised.text)[1:], [], normalised, f"steel {word}") == [word]


def test_a_word_before_coating_is_reported_but_not_one_before_plate() -> None:
    text = "Xyz coating grid plate"
    normalised = normalise(text)
    marks = [Mark(4, 11, Process("plated")), Mark(17, 22, Process("finish", is_weak=True))]
    unread = [token for token in tokens_of(normalised.text) if token.text in {"xyz", "grid"}]
    assert hidden_finishes(unread, marks, normalised, text) == ["Xyz"]
