from __future__ import annotations

import pytest

from service.callouts.search import TrigramIndex, codes_of, trigrams_of

INDEX = TrigramIndex.of(
    ["cartridge brass", "naval brass", "aluminium 6061 t6", "aluminium 6060 t6", "steel c45", "naval brass"]
)


def test_the_nearest_name_comes_first() -> None:
    hits = INDEX.nearest("cartrige bras", 2, same_codes=False)
    assert hits[0].name == "cartridge brass"
    assert hits[0].score > hits[1].score


def test_a_number_is_never_forgiven() -> None:
    hits = INDEX.nearest("aluminum 6061 t6", 5, same_codes=True)
    assert [hit.name for hit in hits] == ["aluminium 6061 t6"]
    assert INDEX.nearest("aluminium 6062 t6", 5, same_codes=True) == []


def test_a_short_code_is_never_forgiven() -> None:
    assert INDEX.nearest("steel c44", 5, same_codes=True) == []


def test_nothing_alike_finds_nothing() -> None:
    assert INDEX.nearest("xyz", 5, same_codes=False) == []
    assert INDEX.nearest("", 5, same_codes=False) == []


def test_names_are_indexed_once() -> None:
    assert len(INDEX.names) == 5


@pytest.mark.parametrize(
    ("text", "codes"),
    [("aluminium 6061-t6", ("6061", "t6")), ("naval brass", ()), ("a2 of 1.4301", ("1", "4301", "a2", "of"))],
)
def test_codes_are_short_words_and_words_with_digits(text: str, codes: tuple[str, ...]) -> None:
    assert codes_of(text) == codes


def test_trigrams_know_where_words_begin_and_end() -> None:
    assert trigrams_of("ab") == {" ab", "ab "}
