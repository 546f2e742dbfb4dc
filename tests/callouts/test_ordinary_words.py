from __future__ import annotations

import pytest

from service.callouts.ordinary_words import NEVER_A_PIECE, WORDS_OF_THEIR_OWN
from service.callouts.resolver import Resolver
from service.callouts.scan import aside_book, phrase_book


def test_no_word_that_carries_meaning_is_shielded_from_itself() -> None:
    whole = {
        words[0] for entries in phrase_book().entries.values() for words, _ in entries if len(words) == 1
    }
    assert not WORDS_OF_THEIR_OWN & whole


def test_words_are_lower_case_letters() -> None:
    assert all(word.isascii() and word.isalpha() and word.islower() for word in WORDS_OF_THEIR_OWN)
    assert all(word.isascii() and word.isalpha() and word.islower() for word in NEVER_A_PIECE)


@pytest.mark.parametrize("word", sorted(WORDS_OF_THEIR_OWN - aside_book().words - phrase_book().words))
def test_an_ordinary_word_is_never_corrected(word: str, resolver: Resolver) -> None:
    assert resolver.vocabulary.meant(word) is None


@pytest.mark.parametrize(
    "text", ["printed steel bracket", "pointed steel screw", "graphic display", "cleaning agent", "Steelcase"]
)
def test_an_ordinary_word_names_no_finish(text: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert not any(candidate.surface.layers for candidate in reading.candidates)
