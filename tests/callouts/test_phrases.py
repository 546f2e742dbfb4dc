from __future__ import annotations

from service.callouts.lexicon import tokens_of
from service.callouts.marks import Aside, Coat
from service.callouts.phrases import PhraseBook, spelt, uninflected

BOOK = PhraseBook.of(
    (
        spelt(Coat("zn", "hot-dip"), "hot dip galvanized, hot dip"),
        spelt(Coat("zn"), "zinc, galvanized, Brüniert"),
        spelt(Aside("late"), "zinc, dip"),
    )
)


def senses(text: str) -> list[object]:
    return [mark.sense for mark in BOOK.marks_in(text, tokens_of(text))]


def test_a_phrase_runs_over_spaces_and_hyphens() -> None:
    assert senses("hot-dip galvanized") == senses("hot dip  galvanized") == [Coat("zn", "hot-dip")]


def test_a_phrase_stops_at_a_comma() -> None:
    assert senses("hot, dip") == [Aside("late")]


def test_the_longest_phrase_wins_and_shorter_ones_remain() -> None:
    assert senses("hot dip zinc") == [Coat("zn", "hot-dip"), Coat("zn")]
    assert senses("hot") == []


def test_an_earlier_table_keeps_its_phrase() -> None:
    assert senses("zinc") == [Coat("zn")]


def test_phrases_are_normalised_like_the_text() -> None:
    assert senses("brueniert") == [Coat("zn")]


def test_a_mark_covers_the_phrase() -> None:
    text = "a hot dip b"
    (mark,) = BOOK.marks_in(text, tokens_of(text))
    assert text[mark.start : mark.end] == "hot dip"


def test_the_words_of_all_phrases_are_known() -> None:
    assert BOOK.words == {"hot", "dip", "galvanized", "zinc", "brueniert"}


def test_an_ending_of_gender_or_number_is_forgiven() -> None:
    known = {"verzinkt", "zingue", "degre"}
    assert [uninflected(word, known) for word in ("verzinkter", "verzinktes", "zinguee", "zinguees")] == [
        "verzinkt",
        "verzinkt",
        "zingue",
        "zingue",
    ]
    assert uninflected("unbekannter", known) == "unbekannter"
    assert senses("brueniertes") == [Coat("zn")]
