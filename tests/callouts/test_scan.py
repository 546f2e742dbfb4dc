from __future__ import annotations

from itertools import pairwise

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Aside, Bare, Callout, MetalClass, Trait
from service.callouts.scan import aside_book, phrase_book, scan


def test_the_longest_understanding_wins(lexicon: Lexicon) -> None:
    marks, unread = scan("en aw-6082-t6, 8.8", lexicon)
    assert [type(mark.sense) for mark in marks] == [Alloy, Alloy]
    assert unread == []


def test_marks_do_not_overlap_and_come_in_order(lexicon: Lexicon) -> None:
    marks, _ = scan("screw m4x10, a4-70, zinc plated 8 um per astm b633 type ii sc 2", lexicon)
    ends = [(mark.start, mark.end) for mark in marks]
    assert ends == sorted(ends)
    assert all(earlier[1] <= later[0] for earlier, later in pairwise(ends))


def test_a_word_with_two_meanings_marks_both(lexicon: Lexicon) -> None:
    marks, _ = scan("steel sheet", lexicon)
    assert [type(mark.sense) for mark in marks] == [MetalClass, Trait]
    assert {(mark.start, mark.end) for mark in marks} == {(0, 11)}


def test_words_that_nothing_explains_are_returned(lexicon: Lexicon) -> None:
    marks, unread = scan("screw kryptonite", lexicon)
    assert [type(mark.sense) for mark in marks] == [Aside]
    assert [token.text for token in unread] == ["kryptonite"]


def test_a_name_of_the_catalogue_is_a_material_or_a_finish(lexicon: Lexicon) -> None:
    (mark,), _ = scan("zinc plate, black passivation", lexicon)
    assert isinstance(mark.sense, Callout)
    assert mark.sense.coats[0].options[0].finish_id == "zn-black"
    (mark,), _ = scan("bare, no finish", lexicon)
    assert mark.sense == Bare()


def test_a_generic_name_of_the_catalogue_stays_generic(lexicon: Lexicon) -> None:
    (mark,), _ = scan("austenitic cast iron", lexicon)
    assert isinstance(mark.sense, MetalClass)
    assert mark.sense.options == ("ci-niresist",)


def test_a_short_name_counts_when_it_is_the_whole_text(lexicon: Lexicon) -> None:
    (mark,), _ = scan("rg5", lexicon)
    assert isinstance(mark.sense, Alloy)
    _, unread = scan("part rg5", lexicon)
    assert [token.text for token in unread] == ["rg5"]


def test_nothing_to_read_gives_nothing(lexicon: Lexicon) -> None:
    assert scan("", lexicon) == ([], [])
    assert scan("...", lexicon) == ([], [])


def test_the_books_are_compiled_once() -> None:
    assert phrase_book() is phrase_book()
    assert aside_book() is aside_book()


def test_a_number_robbed_of_its_word_is_read_again(lexicon: Lexicon) -> None:
    marks, unread = scan("cold rolled steel 1008", lexicon)
    assert [mark.sense.options for mark in marks if isinstance(mark.sense, Alloy)] == [("steel-1008",)]
    assert unread == []
