"""Identifiers near what a caller wrote."""

from __future__ import annotations

import pytest

from service.catalogue import Catalogue
from service.catalogue.nearness import nearest_ids


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("sea-water", "seawater"),
        ("coastal", "marine"),
        ("freshwater", "fresh-water"),
        ("splash-zone", "splash"),
    ],
)
def test_a_word_finds_the_environments_of_that_kind(word: str, expected: str, catalogue: Catalogue) -> None:
    assert nearest_ids(word, catalogue.environments)[0].startswith(expected)


def test_a_missing_dash_is_forgiven_first(catalogue: Catalogue) -> None:
    assert nearest_ids("al-6082t6", catalogue.materials)[0] == "al-6082-t6"


def test_short_identifiers_do_not_answer_for_long_words(catalogue: Catalogue) -> None:
    assert all("cu" in near for near in nearest_ids("copper", catalogue.materials))


def test_what_is_like_nothing_finds_nothing(catalogue: Catalogue) -> None:
    assert nearest_ids("qqqqqq", catalogue.environments) == ()


def test_an_enormous_word_is_cut(catalogue: Catalogue) -> None:
    assert nearest_ids("x" * 100_000, catalogue.environments) == ()
