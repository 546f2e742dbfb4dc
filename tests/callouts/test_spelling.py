from __future__ import annotations

import pytest

from service.callouts.lexicon import Token, tokens_of
from service.callouts.normalise import normalise
from service.callouts.spelling import MOST_CORRECTED, Vocabulary, corrected

WORDS = Vocabulary.of(
    ["anodized", "stainless", "nickel", "plated", "galvanized", "tinned", "brass", "6061", "zn"]
)


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("anodzied", "anodized"),
        ("stianless", "stainless"),
        ("nikel", "nickel"),
        ("platted", "plated"),
        ("galvanizzedd", "galvanized"),
        ("pinned", None),
        ("bras", None),
        ("xyzxyz", None),
    ],
)
def test_one_slip_of_the_pen_is_put_right(word: str, meant: str | None) -> None:
    assert WORDS.meant(word) == meant


def test_two_words_alike_stay_open() -> None:
    assert Vocabulary.of(["plated", "planed"]).meant("plaaed") is None


def test_numbers_and_short_words_are_not_in_the_vocabulary() -> None:
    assert "6061" not in WORDS.words
    assert "zn" not in WORDS.words


def unread(text: str) -> list[Token]:
    return tokens_of(normalise(text).text)


def test_the_corrected_text_leads_back_to_what_was_written() -> None:
    text = "Alu anodzied über"
    better = corrected(normalise(text), unread(text)[1:2], WORDS)
    assert better is not None
    assert better.text == "alu anodized ueber"
    first, last = better.span(4, 12)
    assert text[first:last] == "anodzied"
    first, last = better.span(13, 18)
    assert text[first:last] == "über"


def test_a_longer_word_covers_the_shorter_one_as_written() -> None:
    better = corrected(normalise("nikel 5"), unread("nikel 5")[:1], WORDS)
    assert better is not None
    assert better.text == "nickel 5"
    assert better.span(0, 6) == (0, 5)
    assert better.span(7, 8) == (6, 7)


@pytest.mark.parametrize("text", ["6061 zn", "kryptonite", "anodzied " * (MOST_CORRECTED + 1)])
def test_codes_foreign_words_and_prose_stay_as_they_are(text: str) -> None:
    assert corrected(normalise(text), unread(text), WORDS) is None


PIECES = Vocabulary.of(
    [], ["schwarz", "eloxiert", "edelstahl", "schraube", "schrauben", "zinc", "plated", "gold"]
)


@pytest.mark.parametrize(
    ("word", "parts"),
    [
        ("schwarzeloxiert", "schwarz eloxiert"),
        ("schwarzeloxiertes", "schwarz eloxiert"),
        ("edelstahlschraube", "edelstahl schraube"),
        ("edelstahlschrauben", "edelstahl schrauben"),
        ("zincplated", "zinc plated"),
        ("schwarzzincplated", "schwarz zinc plated"),
        ("goldplated", None),
        ("schwarzbrot", None),
        ("zinc", None),
        ("zinc" * 11, None),
    ],
)
def test_words_run_together_are_taken_apart(word: str, parts: str | None) -> None:
    assert PIECES.split(word) == parts


def test_a_compound_leads_back_to_what_was_written() -> None:
    better = corrected(normalise("alu schwarzeloxiert 5"), unread("alu schwarzeloxiert 5")[1:2], PIECES)
    assert better is not None
    assert better.text == "alu schwarz eloxiert 5"
    assert better.span(21, 22) == (20, 21)
