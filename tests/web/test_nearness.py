"""Near words: the likest first, and none for something else entirely."""

from __future__ import annotations

from service.web.nearness import nearest


def test_the_likest_word_comes_first() -> None:
    assert nearest("al-6082", ["al-6061-t6", "al-6082-t6", "zinc"])[0] == "al-6082-t6"
    assert nearest("FUNCTION", ["functions", "contact"]) == ("functions",)


def test_nothing_near_is_nothing() -> None:
    assert nearest("unobtainium", ["zinc", "iron"]) == ()
    assert nearest("", ["zinc"]) == ()
    assert nearest("x" * 100_000, ["zinc"]) == ()
    assert nearest("zinc", []) == ()
