from __future__ import annotations

import re

import pytest

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Mark, Sense
from service.callouts.patterns import grams_of, marks_of, mentions, pattern, stands_alone


def _read(found: re.Match[str], _: Lexicon) -> Sense | None:
    return None if found.group() == "zn0" else Aside(found.group())


def test_a_find_becomes_a_mark(lexicon: Lexicon) -> None:
    entry = pattern(r"zn\d", "zn", _read, "zinc")
    text = "zn8 zn0 xzn9 zn12"
    assert list(marks_of([entry], text, grams_of(text), lexicon)) == [Mark(0, 3, Aside("zn8"), "zinc")]


def test_without_its_guard_a_pattern_does_not_run(lexicon: Lexicon) -> None:
    entry = pattern(r"zn\d", "mil", _read, "zinc")
    assert list(marks_of([entry], "zn8", grams_of("zn8"), lexicon)) == []


def test_a_guard_counts_by_its_first_three_letters() -> None:
    assert pattern("x", "astm ab", _read, "").guards == {"ast", "ab"}


def test_a_pattern_may_set_its_own_bounds(lexicon: Lexicon) -> None:
    entry = pattern(r"zn\d", "", _read, "zinc", is_bounded=False)
    assert len(list(marks_of([entry], "xzn9y", grams_of("xzn9y"), lexicon))) == 1


def test_grams_are_all_short_stretches() -> None:
    assert grams_of("abcd") == {"a", "b", "c", "d", "ab", "bc", "cd", "abc", "bcd"}


@pytest.mark.parametrize(
    ("text", "is_alone"),
    [
        ("6061", True),
        ("al 6061, x", True),
        ("6061/6063", True),
        ("7075-0012", False),
        ("ab-6061", False),
        ("no.6061", False),
        ("- 6061", True),
        ("6061-t6", True),
    ],
)
def test_a_number_within_a_part_number_does_not_stand_alone(text: str, is_alone: bool) -> None:  # noqa: FBT001
    found = re.search("6061|7075", text)
    assert found is not None
    assert stands_alone(found) is is_alone


def test_the_surroundings_of_a_code_are_looked_up() -> None:
    bolt = re.compile("bolt|screw")
    assert mentions(bolt, "a4 screw")
    assert not mentions(bolt, "a4 plate")
